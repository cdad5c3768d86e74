"""The fittings library is in order: spread around the best value, source and conditions on every entry."""

from __future__ import annotations

from calc.fitting_table import LIBRARY


def test_every_fitting_is_in_order() -> None:
    for fitting in LIBRARY:
        assert len(fitting.low) == len(fitting.best) == len(fitting.high) == max(1, len(fitting.at)), fitting.name
        for low, best, high in zip(fitting.low, fitting.best, fitting.high, strict=True):
            assert low <= best <= high, fitting.name
        assert fitting.source
        assert fitting.conditions
        assert list(fitting.at) == sorted(fitting.at)
