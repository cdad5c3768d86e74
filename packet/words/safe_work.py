"""What several pages, files and sheets say about safe work, said once: print check, air gun, respirator."""

from __future__ import annotations

from calc.measures.kinds import Reader

CHECK_RULE = {"inch": "6 in", "metric": "150 mm"}
CHECK_WITHIN = {"inch": "1/64 in", "metric": "0.3 mm"}
"""The rules of the print check and how true they must be: a twelfth of a hole's allowance (common practice, no
source)."""

BLOW_AT_MOST = {"inch": "30 psi", "metric": "200 kPa (2 bar)"}
"""Air gun for cleaning: below 30 psi, with chip guarding and eye protection (29 CFR 1910.242(b))."""

RESPIRATOR = "P100 / FFP3"
"""One grade for all fine wood dust: the best of the two systems (common practice, no source)."""


def tell_safe_work(reader: Reader) -> dict[str, str]:
    """Return these facts as the word files name them."""
    return {
        "check_rule": CHECK_RULE[reader.system],
        "check_within": CHECK_WITHIN[reader.system],
        "blow": BLOW_AT_MOST[reader.system],
        "respirator": RESPIRATOR,
    }
