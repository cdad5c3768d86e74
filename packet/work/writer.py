"""Writes numbers the way a step says them: as cut, as taped, as a tolerance, as a spacing."""

from __future__ import annotations

from dataclasses import dataclass

from calc.measures.kinds import Kind, Reader
from calc.measures.marking import write_between, write_mark
from calc.measures.quantity import round_up, write_amount, write_length


@dataclass(frozen=True)
class Writer:
    """Writes numbers for one reader; the word files call these by name."""

    reader: Reader

    def amount(self, value: float, kind: Kind) -> str:
        """Return an amount with its unit."""
        return write_amount(value, kind, self.reader)

    def at_least(self, value: float, kind: Kind) -> str:
        """Return an amount with its unit, never written smaller than it is."""
        return write_amount(round_up(value, kind, self.reader), kind, self.reader)

    def length(self, mm: float) -> str:
        """Return a length as it is cut."""
        return write_length(mm, self.reader)

    def between(self, low_mm: float, high_mm: float) -> str:
        """Return the distance of two heights, as the drawings tell it."""
        return write_between(low_mm, high_mm, self.reader)

    def size(self, *sides_mm: float) -> str:
        """Return sides by each other, the unit once: ``12 × 8-1/2 in``."""
        return _join([self.length(mm) for mm in sides_mm])

    def mark(self, mm: float) -> str:
        """Return a length as it is marked out, told as finely as the cut list tells it."""
        return write_mark(mm, self.reader)

    def marks(self, *sides_mm: float) -> str:
        """Return lengths by each other as they are marked out."""
        return _join([self.mark(mm) for mm in sides_mm])

    def exact(self, mm: float) -> str:
        """Return a length as it is cut, with the true decimal beside it for inch people."""
        return write_length(mm, self.reader, decimal=True)

    def rough(self, mm: float) -> str:
        """Return a spacing that may not be passed: down to a quarter inch, or to 5 mm."""
        step = 6.35 if self.reader.system == "inch" else 5.0
        return write_length(max(step, mm // step * step), self.reader)

    def slack(self, mm: float) -> str:
        """Return a tolerance: to a thirty-second of an inch, or to half a millimetre, above 5 mm to five."""
        if self.reader.system == "inch":
            return write_length(max(1, round(mm / 25.4 * 32)) * 25.4 / 32, Reader("inch", 32))
        step = 0.5 if mm < 5.0 else 5.0
        return write_length(max(1, round(mm / step)) * step, self.reader)

    def thin(self, mm: float) -> str:
        """Return a thickness that only a feeler or a sheet of paper shows: to a thousandth of an inch, or 0.05 mm."""
        return f"{mm / 25.4:.3f} in" if self.reader.system == "inch" else f"{round(mm / 0.05) * 0.05:g} mm"

    def near(self, mm: float) -> str:
        """Return a length for a tape: to an eighth of an inch, or to a whole millimetre."""
        step = 25.4 / 8 if self.reader.system == "inch" else 1.0
        return write_length(round(mm / step) * step, self.reader)


def _join(told: list[str]) -> str:
    *sides, last = told
    unit = last[last.rindex(" ") :]
    return " × ".join([*(side.removesuffix(unit) for side in sides), last])
