"""Ticks of a gauge's scale at true size, each placed from the still-air mark by one multiplication.

Nothing is added up tick by tick, so the last tick is as true as the first.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Literal

from calc.measures.kinds import INH2O_PA

LEAST_GAP_MM = 1.25
"""Closest two ticks may stand and still be told apart at arm's length (common practice, no source)."""

LABEL_GAP_MM = 5.0
UNIT_PA = {"inH2O": INH2O_PA, "Pa": 1.0}

ScaleUnit = Literal["inH2O", "Pa"]


@dataclass(frozen=True)
class Tick:
    """at_mm: from the still-air mark, along the scale; rank: 0 numbered, 1 half way, 2 smallest; label: its number."""

    at_mm: float
    pressure_pa: float
    rank: int
    label: str


@dataclass(frozen=True)
class Scale:
    """One column of ticks."""

    unit: ScaleUnit
    ticks: tuple[Tick, ...]


def make_scale(unit: ScaleUnit, mm_per_pa: float, reach_mm: float) -> Scale:
    """Return the ticks from still air to a reach [mm]; mm_per_pa: travel of the meniscus that is read, each pascal.

    Smallest step: the finest of 1, 2, 5 times a power of ten whose ticks stand LEAST_GAP_MM apart. Raises ValueError
    when nothing can be drawn: no travel or no reach.
    """
    if not (mm_per_pa > 0 and reach_mm > 0 and math.isfinite(mm_per_pa) and math.isfinite(reach_mm)):
        raise ValueError("a scale needs a travel and a reach above nothing")
    mm_per_unit = mm_per_pa * UNIT_PA[unit]
    step, exponent, lead = _choose_step(mm_per_unit, LEAST_GAP_MM)
    per_half, per_label = {1: (5, 10), 2: (5, 5), 5: (2, 4)}[lead]
    while per_label * step * mm_per_unit < LABEL_GAP_MM:
        per_label *= 2
    count = int(reach_mm / (step * mm_per_unit) + 1e-9)
    ticks = tuple(
        Tick(
            index * step * mm_per_unit,
            index * step * UNIT_PA[unit],
            rank := 0 if index % per_label == 0 else 1 if index % per_half == 0 else 2,
            _write_number(index, per_label, lead, exponent) if rank == 0 else "",
        )
        for index in range(count + 1)
    )
    return Scale(unit, ticks)


def _choose_step(mm_per_unit: float, least_mm: float) -> tuple[float, int, int]:
    """Return the finest step of the 1, 2, 5 row that is wide enough, its power of ten and its leading figure."""
    for exponent in range(-4, 7):
        for lead in (1, 2, 5):
            step = lead * 10.0**exponent
            if step * mm_per_unit >= least_mm:
                return step, exponent, lead
    raise ValueError("the scale is too coarse to draw")


def _write_number(index: int, per_label: int, lead: int, exponent: int) -> str:
    """Return index x lead x 10^exponent in plain decimals, as many as the numbered ticks need."""
    if exponent >= 0:
        return str(index * lead * 10**exponent)
    places = -exponent
    while places and (per_label * lead) % 10 ** (1 - exponent - places) == 0:
        places -= 1
    return f"{index * lead / 10**-exponent:.{places}f}" if index else "0"
