"""Findings on air blown outdoors: the opening that lets it in again, and what a flue in the room stands."""

from __future__ import annotations

from calc.airflow.appliances import STRICTEST_PA, is_fine
from calc.finding import Amount, Finding, Said, Verdict, say
from calc.project import Appliance
from calc.results import MakeUpAir

ORIFICE = "orifice equation"


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
    fits = asked_pa <= make_up.limit_pa
    limit = Amount(make_up.limit_pa, "draught_pa")
    return Finding(
        "air.draught_asked",
        say("make_up.asked", heater=name_appliance(make_up.appliance)),
        Verdict.FITS if fits else Verdict.DOES_NOT_FIT,
        say("make_up.asked_why", strictest=Amount(STRICTEST_PA, "draught_pa")),
        value=Amount(asked_pa, "draught_pa"),
        limit=limit,
        mends=() if fits else (say("make_up.asked_mend", limit=limit),),
        source=make_up.limit_source,
    )


def _judge_opening(make_up: MakeUpAir) -> Finding:
    """Return the finding on the opening. With a flue in the room nothing is let pass that the flue does not stand."""
    flued = make_up.appliance != "none"
    bad = Verdict.DOES_NOT_FIT if flued else Verdict.TIGHT
    flow, needed = Amount(make_up.flow_m3s, "flow_m3s"), Amount(make_up.opening_m2, "area_m2", toward="up")
    why = say("make_up.why_flued" if flued else "make_up.why")
    mends = (say("make_up.stop"), say("make_up.mend", area=needed)) if flued else (say("make_up.mend", area=needed),)
    if make_up.given_m2 is None or make_up.given_depression_pa is None:
        return Finding(
            "air.make_up", say("make_up.none", flow=flow), bad, why,
            value=Amount(0.0, "area_m2"), limit=needed, sense="at least", mends=mends,
            source=f"{ORIFICE}; {make_up.limit_source}",
        )  # fmt: skip
    fits = make_up.given_depression_pa <= make_up.depression_pa
    asks = make_up.asked_pa is not None and make_up.depression_pa < make_up.limit_pa
    return Finding(
        "air.make_up",
        say("make_up.given", flow=flow, area=Amount(make_up.given_m2, "area_m2")),
        Verdict.FITS if fits else bad,
        why,
        value=Amount(make_up.given_depression_pa, "draught_pa"),
        limit=Amount(make_up.depression_pa, "draught_pa"),
        mends=() if fits else mends,
        source=f"{ORIFICE}; {'project file' if asks else make_up.limit_source}",
    )


def judge_draught_untested(make_up: MakeUpAir) -> Finding:
    """Return the finding on a draught that nobody has tested yet: whatever was worked out, it is not done with."""
    fine = is_fine(make_up.depression_pa)
    return Finding(
        "air.draught_test",
        say("make_up.untested"),
        Verdict.TIGHT,
        say("make_up.untested_why"),
        mends=(say("make_up.stop"), say("make_up.untested_mend_fine" if fine else "make_up.untested_mend")),
        source=make_up.limit_source,
    )
