"""Sentences full of lengths, and which of many like findings are worth telling."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence

from calc.finding import Amount, Finding, Said, Verdict


def say_with(
    phrase: str, names: Mapping[str, str | Said] | None = None, down: tuple[str, ...] = (), **lengths_mm: float
) -> Said:
    """Return a sentence whose amounts are lengths [mm]; names: the user's own words; down: what is rounded down."""
    amounts = {
        key: Amount(value, "length_mm", toward="down" if key in down else "") for key, value in lengths_mm.items()
    }
    return Said(phrase, amounts, names or {})


def keep_telling(findings: Sequence[Finding]) -> tuple[Finding, ...]:
    """Return what a reader needs of like findings: all that do not simply fit, and of those that fit the nearest."""
    fitting = [finding for finding in findings if finding.verdict is Verdict.FITS]
    nearest = min(fitting, key=lambda f: f.margin if f.margin is not None else math.inf, default=None)
    return tuple(f for f in findings if f.verdict is not Verdict.FITS or f is nearest)
