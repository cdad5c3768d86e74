"""Hold a computed value against one from outside, of one of four kinds, and keep the pair for the run's table.

library: a general-purpose library worked it out, called or copied from its own run; read: it stood in a source that is
named by title, edition and table or page, and the page was open; from memory: such a source, recalled; practice: a
fact or a measurement of the trade, or a worked example, whose source cannot be named so.
"""

from __future__ import annotations

import math
from collections import Counter
from dataclasses import dataclass
from typing import Literal, get_args

Kind = Literal["library", "read", "from memory", "practice"]

LIBRARIES = ("scipy", "numpy", "fluids", "psychrolib", "iapws", "chemicals", "pint", "reportlab")
"""A source that starts with one of these names is a library."""

READ = (
    "29 CFR 1910.95 Table G-16",
    "29 CFR 1910.95 Appendix A",
    "ACGIH Industrial Ventilation 24th ed. figure 3-16",
    "ASHRAE Fundamentals 2009, CD3-",
    "ASHRAE Principles of HVAC 9th ed. supplement, fitting 1-1",
    "Dembinski and others, Applied Sciences 11 (2021) 8965, abstract",
    "Harris and Phillips, Density of Selected Wood Fuels, Georgia Forest Research Paper 61",
    "NIOSH 98-126",
    "NIST SP 811 (2008) app. B.8",
    "SMACNA HVAC Systems Duct Design 3rd ed. 1990, ",
    "SMACNA HVAC Systems Duct Design 4th ed. Table A-7",
    "USDA FPL, Wood Handbook (FPL-GTR-190, 2010), Table 12-",
    "Young & Budynas, Roark's Formulas for Stress and Strain, 7th ed. 2002, Table 11.4 case 1a",
)
"""The sources whose page was open: title, edition, table. What else starts so was recalled and says ``from memory``."""


def find_kind(source: str) -> Kind:
    """Return of which kind a source is. Raises ValueError for one that is none: it is to be named, or to be dropped."""
    if "from memory" in source:
        return "from memory"
    if "common practice, no source" in source:
        return "practice"
    if source.startswith(LIBRARIES):
        return "library"
    if source.startswith(READ):
        return "read"
    raise ValueError(f"'{source}' is no library, no page that was read, nor does it say from memory or common practice")


@dataclass(frozen=True, kw_only=True)
class Held:
    """One comparison. error: computed over published less one, or the plain difference when published is 0."""

    quantity: str
    kind: Kind
    source: str
    published: float
    computed: float
    error: float
    relative: bool
    passed: bool


RECORD: list[Held] = []


def hold_against(
    quantity: str, source: str, published: float, computed: float, *, rel: float | None = None, abs: float | None = None
) -> None:
    """Assert that computed agrees with published within rel (a fraction) or abs (same unit), whichever is wider.

    quantity says what and in which unit; source names standard, table and edition, or the library call, or says
    ``from memory`` or ``common practice, no source``. Raises AssertionError on disagreement, ValueError when no
    tolerance is given or the source is of no kind.
    """
    if rel is None and abs is None:
        raise ValueError("give a tolerance: rel, abs or both")
    difference = computed - published
    allowed = max((rel or 0.0) * math.fabs(published), abs or 0.0)
    relative = published != 0
    passed = math.isfinite(computed) and math.fabs(difference) <= allowed
    error = difference / published if relative else difference
    RECORD.append(
        Held(
            quantity=quantity,
            kind=find_kind(source),
            source=source,
            published=float(published),
            computed=float(computed),
            error=float(error),
            relative=bool(relative),
            passed=bool(passed),
        )
    )
    assert passed, f"{quantity}: published {published:.6g} ({source}), computed {computed:.6g}, allowed ±{allowed:.3g}"


def count_kinds() -> str:
    """Return how many checks of each kind ran, as a line tells it."""
    counts = Counter(held.kind for held in RECORD)
    return ", ".join(f"{counts[kind]} {kind}" for kind in get_args(Kind))


def write_table() -> list[str]:
    """Return the lines of the table: quantity, kind, source, published, computed, error; the last line counts them."""
    rows = [("quantity", "kind", "source", "published", "computed", "error")]
    for held in RECORD:
        error = f"{100 * held.error:+.2f} %" if held.relative else f"{held.error:+.3g}"
        rows.append(
            (
                held.quantity,
                held.kind,
                held.source,
                f"{held.published:.6g}",
                f"{held.computed:.6g}",
                error + ("" if held.passed else "  FAILED"),
            )
        )
    widths = [max(len(row[column]) for row in rows) for column in range(6)]
    lines = ["  ".join(cell.ljust(width) for cell, width in zip(row, widths, strict=True)).rstrip() for row in rows]
    failed = sum(not held.passed for held in RECORD)
    return [
        *lines, f"{len(RECORD)} outside checks ({count_kinds()}), {len(RECORD) - failed} agree, {failed} do not"
    ]  # fmt: skip
