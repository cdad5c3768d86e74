from __future__ import annotations

import pytest

from calc.finding import Amount, Said
from calc.measures.quantity import Reader
from packet.say import say, write


def test_numbers_and_names_are_filled_in() -> None:
    said = Said(
        "The {machine} gets {flow}.", {"flow": Amount(0.283168466, "flow_m3s")}, {"machine": "planer {odd} <b>"}
    )
    assert say(said, Reader("inch")) == "The planer {odd} <b> gets 600 cfm."
    assert say(said, Reader("metric")) == "The planer {odd} <b> gets 1019 m³/h."
    assert write(Amount(300.9, "length_mm"), Reader("inch", 16)) == "11-7/8 in"


def test_missing_amount_is_our_fault() -> None:
    with pytest.raises(KeyError):
        say(Said("{flow}"), Reader("inch"))
