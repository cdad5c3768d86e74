"""One way of holding a number against its limit, for everything about the box."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import replace
from typing import Literal

from calc.finding import Amount, Finding, Said, Verdict
from calc.measures.quantity import Kind
from calc.trade import PRACTICE

HAIR_MM = 1.0


def say_with(
    phrase: str, names: Mapping[str, str | Said] | None = None, down: tuple[str, ...] = (), **lengths_mm: float
) -> Said:
    """Return a sentence whose amounts are lengths [mm]; names: the user's own words; down: what is rounded down."""
    amounts = {
        key: Amount(value, "length_mm", toward="down" if key in down else "") for key, value in lengths_mm.items()
    }
    return Said(phrase, amounts, names or {})


def _lean_up(mend: Said) -> Said:
    """Return a mend whose lengths are rounded up when written: rounded to the nearest, they might not mend."""
    amounts = {
        key: replace(amount, toward="up") if amount.kind == "length_mm" and not amount.toward else amount
        for key, amount in mend.amounts.items()
    }
    return replace(mend, amounts=amounts)


def hold(
    key: str,
    what: Said,
    value: float,
    limit: float,
    why: Said,
    mends: tuple[Said, ...] = (),
    *,
    kind: Kind = "length_mm",
    sense: Literal["at least", "at most"] = "at most",
    tight: float = 0.0,
    source: str = PRACTICE,
    part: str | None = None,
    worst: Verdict = Verdict.DOES_NOT_FIT,
    fine: bool = False,
) -> Finding:
    """Return a finding: `worst` past the limit, tight within `tight` of it (same unit as value), else fits.

    The mends are kept only where they are needed. fine: see Amount; a length that passes its limit by a hair is always
    told so finely that the two do not look alike.
    """
    room = value - limit if sense == "at least" else limit - value
    verdict = worst if room < -1e-06 else Verdict.TIGHT if room < tight - 1e-06 else Verdict.FITS
    fine = fine or (kind == "length_mm" and -HAIR_MM < room < -1e-6)
    return Finding(
        key=key,
        what=what,
        verdict=verdict,
        why=why,
        value=Amount(round(value, 9), kind, fine),
        limit=Amount(round(limit, 9), kind, fine),
        sense=sense,
        mends=tuple(_lean_up(mend) for mend in mends) if room < -1e-6 else (),
        source=source,
        part=part,
    )


def keep_telling(findings: Sequence[Finding]) -> tuple[Finding, ...]:
    """Return what a reader needs of like findings: all that do not simply fit, and of those that fit the nearest."""
    fitting = [finding for finding in findings if finding.verdict is Verdict.FITS]
    nearest = min(fitting, key=lambda f: f.margin if f.margin is not None else math.inf, default=None)
    return tuple(f for f in findings if f.verdict is not Verdict.FITS or f is nearest)
