"""Findings on air blown outdoors: the opening that lets it in again, and what a flue in the room stands."""

from __future__ import annotations

from dataclasses import replace

from calc.finding import Amount, Finding, Limit, Said, Subject, Verdict, hold, say, tell
from calc.measures.kinds import Kind
from calc.project import Appliance
from calc.results import MakeUpAir
from calc.sizing.appliances import STRICTEST_PA, is_fine

ORIFICE = "orifice equation"
SHOP = (Subject("shop"),)


def name_appliance(appliance: Appliance) -> Said:
    """Return the words for a kind of heater, to stand in a sentence."""
    return say(f"make_up.flue_{appliance.replace(' ', '_')}")


def judge_make_up(make_up: MakeUpAir) -> list[Finding]:
    """Return the findings on the depression the file asks for and on the make-up air opening."""
    found = []
    if make_up.appliance != "none" and make_up.asked_pa is not None:
        found.append(_judge_asked(make_up, make_up.asked_pa))
    if make_up.needed:
        found.append(_judge_opening(make_up))
    return found


def _judge_asked(make_up: MakeUpAir, asked_pa: float) -> Finding:
    """Return the finding on appliance_draught of the project file against what the appliance stands."""
    return hold(
        "air.draught_asked",
        say("make_up.asked", heater=name_appliance(make_up.appliance)),
        asked_pa,
        Limit(make_up.limit_pa, "at most", source=make_up.limit_source),
        say("make_up.asked_why", strictest=Amount(STRICTEST_PA, "draught_pa")),
        topic="air",
        kind="draught_pa",
        subjects=SHOP,
        mends=(say("make_up.asked_mend", limit=Amount(make_up.limit_pa, "draught_pa")),),
    )


def _judge_opening(make_up: MakeUpAir) -> Finding:
    """Return the finding on the opening. With a flue in the room nothing is let pass that the flue does not stand.

    Without one the room's fall is a matter of doors that pull: told, with nothing to fail against.
    """
    flow, needed = Amount(make_up.flow_m3s, "flow_m3s"), Amount(make_up.opening_m2, "area_m2", toward="up")
    mend = say("make_up.mend", area=needed)
    given, falls = make_up.given_m2, make_up.given_depression_pa
    known = given is not None and falls is not None
    kind: Kind
    if given is None or falls is None:
        what, value, kind = say("make_up.none", flow=flow), 0.0, "area_m2"
        limit = Limit(make_up.opening_m2, "at least", source=f"{ORIFICE}; {make_up.limit_source}")
    else:
        asks = make_up.asked_pa is not None and make_up.depression_pa < make_up.limit_pa
        what, value, kind = say("make_up.given", flow=flow, area=Amount(given, "area_m2")), falls, "draught_pa"
        source = f"{ORIFICE}; {'project file' if asks else make_up.limit_source}"
        limit = Limit(make_up.depression_pa, "at most", source=source)
    if make_up.appliance == "none" and limit.find_room(value) < 0:
        return tell(
            "air.make_up", what, say("make_up.why"), Verdict.TIGHT, topic="air", value=value if known else None,
            kind=kind, subjects=SHOP, mends=(mend,), source=limit.source,
        )  # fmt: skip
    why = say("make_up.why" if make_up.appliance == "none" else "make_up.why_flued")
    found = hold(
        "air.make_up", what, value, limit, why, topic="air", kind=kind, subjects=SHOP,
        mends=(say("make_up.stop"), mend),
    )  # fmt: skip
    # An opening is written as large as it must be, the same here and in the mend.
    return found if known else replace(found, limit=needed)


def judge_draught_untested(make_up: MakeUpAir) -> Finding:
    """Return the finding on a draught that nobody has tested yet: whatever was worked out, it is not done with."""
    fine = is_fine(make_up.depression_pa)
    return tell(
        "air.draught_test",
        say("make_up.untested"),
        say("make_up.untested_why"),
        Verdict.TIGHT,
        topic="air",
        subjects=SHOP,
        mends=(say("make_up.stop"), say("make_up.untested_mend_fine" if fine else "make_up.untested_mend")),
        source=make_up.limit_source,
    )
