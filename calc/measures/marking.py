"""Lengths as they are marked out and cut by: to the reader's fraction of an inch, or to half a millimetre.

A rule, a tape and a saw's fence tell no more (common practice, no source). What is measured, such as the thickness of
a board, and what a machine follows stays exact. Places are rounded, and distances are told between rounded places: so
the parts of a chain of dimensions add up to the whole as they are printed.
"""

from __future__ import annotations

import math
from typing import Literal

from calc.measures.kinds import Reader
from calc.measures.written import INCH_MM, write_length

HALF_MM = 0.5


def find_step(reader: Reader) -> float:
    """Return the finest mark [mm] of the reader's tape."""
    return INCH_MM / reader.fraction if reader.system == "inch" else HALF_MM


def round_mark(mm: float, reader: Reader, toward: Literal["", "up"] = "") -> float:
    """Return a place [mm] on the nearest mark of the reader's tape; ``up``: never less, as a groove for a board."""
    step = find_step(reader)
    steps = mm / step
    return step * (math.ceil(steps - 1e-6) if toward == "up" else math.floor(steps + 0.5 + 1e-9))


def write_mark(mm: float, reader: Reader, toward: Literal["", "up"] = "") -> str:
    """Return a length [mm] to mark out or to cut. Raises ValueError when it is not finite."""
    return write_length(round_mark(mm, reader, toward) if math.isfinite(mm) else mm, reader)


def write_between(low_mm: float, high_mm: float, reader: Reader) -> str:
    """Return the distance of two places [mm] measured from one edge, one dimension of a chain."""
    return write_length(round_mark(high_mm, reader) - round_mark(low_mm, reader), reader)
