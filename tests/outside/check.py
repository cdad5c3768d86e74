"""Hold a computed value against a published one, and keep the pair for the table that ends the run."""

from __future__ import annotations

import math
from dataclasses import dataclass


@dataclass(frozen=True, kw_only=True)
class Held:
    """One comparison. error: computed over published less one, or the plain difference when published is 0."""

    quantity: str
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
    tolerance is given.
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
            source=source,
            published=published,
            computed=computed,
            error=error,
            relative=relative,
            passed=passed,
        )
    )
    assert passed, f"{quantity}: published {published:.6g} ({source}), computed {computed:.6g}, allowed ±{allowed:.3g}"


def write_table() -> list[str]:
    """Return the lines of the table: quantity, source, published, computed, error; the last line counts them."""
    rows = [("quantity", "source", "published", "computed", "error")]
    for held in RECORD:
        error = f"{100 * held.error:+.2f} %" if held.relative else f"{held.error:+.3g}"
        rows.append(
            (
                held.quantity,
                held.source,
                f"{held.published:.6g}",
                f"{held.computed:.6g}",
                error + ("" if held.passed else "  FAILED"),
            )
        )
    widths = [max(len(row[column]) for row in rows) for column in range(5)]
    lines = ["  ".join(cell.ljust(width) for cell, width in zip(row, widths, strict=True)).rstrip() for row in rows]
    failed = sum(not held.passed for held in RECORD)
    return [*lines, f"{len(RECORD)} outside checks, {len(RECORD) - failed} agree, {failed} do not"]
