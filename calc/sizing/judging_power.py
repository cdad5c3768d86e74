"""Findings on the motor: power at the shaft gate by gate, and whether it belongs to the blower's air at all."""

from __future__ import annotations

from calc.airflow.shaft_power import EFFICIENCY_SPREAD
from calc.finding import Amount, Finding, Limit, Said, Subject, hold, say
from calc.project import Aired, Blower, WheelKind
from calc.results import BlowerCurve

BEST_EFFICIENCY: dict[WheelKind, float] = {"radial": 0.75, "forward": 0.65, "backward": 0.83}
"""Most that such a wheel puts into the air of what its shaft takes: the top of each range in the table of fan
efficiencies of Energy Efficiency in Electrical Utilities, chapter 5 (see BEST_SOURCE)."""
BEST_SOURCE = (
    "best efficiency of such a wheel: Energy Efficiency in Electrical Utilities, Bureau of Energy Efficiency (India), "
    "chapter 5 (from memory)"
)

LEAST_LOAD, WASTED_LOAD = 0.25, 0.5
"""Of the plate: far too large a motor, common practice, no source; under half its efficiency falls."""
LOAD_SOURCE = (
    "a quarter: common practice, no source; under half a motor's efficiency falls: US DOE, Determining Electric Motor "
    "Load and Efficiency (from memory)"
)


def tell_power_source(project: Aired) -> str:
    """Return where the power at the shaft comes from: maker's curve, or wheel and efficiency."""
    blower = project.blower
    if blower.power_curve:
        return "project file: the maker's power curve"
    wheel = f"{blower.wheel} wheel" if blower.wheel else "wheel not known, the worst of radial, forward and backward"
    low, high = (100 * (blower.efficiency + by) for by in (-EFFICIENCY_SPREAD, EFFICIENCY_SPREAD))
    sure = f"assumed, {low:.0f} to {high:.0f} %" if project.is_assumed("blower.efficiency") else "project file"
    return (
        f"{wheel}: Faber and Kell's Heating and Air-Conditioning of Buildings, chapter 17; its shape after Euler, good "
        f"to 10 points: common practice, no source; best efficiency: {sure}"
    )


def word_motor(project: Aired, curve: BlowerCurve) -> tuple[Said, tuple[Said, ...]]:
    """Return why the power at the shaft matters, with what it is with no duct on, and what makes it surer."""
    power, blower = curve.power, project.blower
    free = Amount(power.shaft_w[-1], "power_w")
    known = blower.wheel or blower.power_curve
    why = say("judging.motor_why" if known else "judging.motor_why_unknown", free=free)
    return why, () if known else (say("judging.motor_wheel"),)


def judge_motor(blower: Blower, curve: BlowerCurve) -> list[Finding]:
    """Return whether the motor belongs to the air: what no wheel can do with it, and what leaves it idle.

    The air's largest power over the motor's plate can be no more than a wheel's best efficiency (of a wheel not known,
    than any wheel's): past it, curve or plate is wrong. At the other end, the largest power that the shaft ever takes
    must load the motor.
    """
    air, plate = max(curve.power.air_w), curve.power_w
    most = BEST_EFFICIENCY[blower.wheel] if blower.wheel else max(BEST_EFFICIENCY.values())
    load = max(curve.power.shaft_w)
    watts = {"air": Amount(air, "power_w"), "shaft": Amount(load, "power_w"), "plate": Amount(plate, "power_w")}
    small = hold(
        "blower.motor_small",
        say("judging.motor_small"),
        air / plate,
        Limit(most, "at most", source=BEST_SOURCE),
        say("judging.motor_small_why", **watts),
        topic="blower",
        kind="share",
        subjects=(Subject("blower"),),
        mends=(say("judging.motor_small_mend"),),
    )
    large = hold(
        "blower.motor_large",
        say("judging.motor_large"),
        load / plate,
        Limit(LEAST_LOAD, "at least", tight=WASTED_LOAD - LEAST_LOAD, source=LOAD_SOURCE),
        say("judging.motor_large_why", **watts),
        topic="blower",
        kind="share",
        subjects=(Subject("blower"),),
        eases=(say("judging.motor_large_mend"),),
    )
    return [small, large]
