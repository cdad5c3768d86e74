"""What must agree between the blower's own numbers, and between its openings and the ducts that come to them."""

from __future__ import annotations

import math
from itertools import pairwise
from typing import Any

from calc.measures.quantity import write_amount
from calc.trade import FASTEST_OPENING_MS, USUAL_OPENING_MS
from packet.reading.context import Reading
from packet.reading.cross_air import ABSURD_JUMP, LARGE_JUMP, check_one_of, read_ends
from packet.reading.values import Values


def check_blower(project: Values, reading: Reading) -> None:
    """A curve or a rating; a rating only as a stated assumption; openings that suit the flow and the ducts."""
    blower = project["blower"]
    if not isinstance(blower, Values):
        return
    check_opening_speeds(blower, reading)
    check_opening_ducts(project, blower, reading)
    check_one_of(blower, ("curve", "rating"))
    rating = blower["rating"]
    if isinstance(rating, Values) and rating["assume_curve"] is False:
        rating.fault(
            "",
            "two numbers on a plate are the two ends of a curve, not one point on it",
            mend="ask the maker for the curve and type it in, or allow a guess with assume_curve: yes",
            example="curve: [[0 cfm, 11.6 inH2O], [800 cfm, 10.0 inH2O], [1500 cfm, 2.4 inH2O]]",
        )
    if blower.is_given("curve_speed") != blower.is_given("runs_at"):
        key = "runs_at" if blower.is_given("curve_speed") else "curve_speed"
        blower.warn("", f"only one of two speeds is given; {key} is taken to be the same")
    if isinstance(blower["curve"], list):
        check_curve(blower, blower["curve"], reading)


def check_curve(blower: Values, curve: list[tuple[float, float]], reading: Reading) -> None:
    """Three points or more; flow rises from point to point; pressure may rise once, then falls."""
    if len(curve) == 2:
        blower.fault(
            "curve",
            "two points are a plate's two numbers, the ends of a curve, not a curve",
            expected="three points or more, from the maker's curve",
            mend="or, as a stated assumption: rating: {free_flow: ..., shut_off: ..., assume_curve: yes}",
        )
    for number, (before, after) in enumerate(pairwise(curve), 2):
        if after[0] <= before[0]:
            flow = write_amount(after[0], "flow_m3s", reading.reader)
            blower.fault(
                "curve",
                f"point {number} ({flow}) does not lie beyond point {number - 1}",
                mend="list the points by rising flow",
            )
    rises = [after[1] > before[1] for before, after in pairwise(curve)]
    if any(later and not earlier for earlier, later in pairwise(rises)):
        blower.fault(
            "curve",
            "the pressure falls and rises again",
            expected="a curve that falls to the free flow",
            mend="check the points for a typing error",
        )
    elif rises and rises[0] and all(rises):
        blower.fault(
            "curve",
            "the pressure rises with the flow to the end",
            expected="a curve that falls to the free flow",
            mend="check the order: [flow, pressure]",
        )
    elif any(rises):
        blower.warn("curve", "the curve rises before it falls; two working points are possible on its left side")


def find_free_flow(blower: Values) -> float | None:
    """Return the largest flow [m3/s] the file gives the blower, at the speed it runs at."""
    rating, curve = blower["rating"], blower["curve"]
    if isinstance(rating, Values):
        flow: float | None = rating["free_flow"]
    else:
        flow = max((point[0] for point in curve or []), default=None)
    speeds = blower["curve_speed"], blower["runs_at"]
    return flow * speeds[1] / speeds[0] if flow is not None and all(speeds) else flow


def check_opening_speeds(blower: Values, reading: Reading) -> None:
    """At free flow the air must not rush through outlet or inlet at a speed that no blower of this kind makes."""
    flow = find_free_flow(blower)
    if flow is None:
        return
    for key in ("outlet", "inlet"):
        if not blower[key]:
            continue
        speed = flow / (math.pi * blower[key] ** 2 / 4)
        said = (
            f"the free flow {write_amount(flow, 'flow_m3s', reading.reader)} would rush through an {key} of "
            f"{write_size(blower[key], reading)} at {write_amount(speed, 'speed_ms', reading.reader)}"
        )
        if speed > FASTEST_OPENING_MS:
            least = write_size(math.sqrt(4 * flow / (math.pi * FASTEST_OPENING_MS)), reading)
            blower.fault(key, said, expected=f"more than {least}", mend=f"is the {key}, or a flow, in another unit?")
        elif speed > USUAL_OPENING_MS:
            most = write_amount(USUAL_OPENING_MS, "speed_ms", reading.reader)
            blower.warn(key, f"{said}; usual is at most {most} (common practice, no source)")


def check_opening_ducts(project: Values, blower: Values, reading: Reading) -> None:
    """The blower's openings and the pieces that come to them must not be absurdly unlike."""
    box = project["filter_box"]
    if not isinstance(box, Values) or box["side"] is None:
        return
    pushes = box["side"] == "pressure"
    meets: list[tuple[str, str, Any]] = [("inlet", "link", -1) if pushes else ("inlet", "delivery", -1)]
    if pushes:
        meets.append(("outlet", "delivery", 0))
    for key, section, at in meets:
        pieces = project[section] or []
        if not pieces or not blower[key] or not isinstance(pieces[at], Values):
            continue
        duct = read_ends(pieces[at])[0 if at == 0 else 1]
        if duct is None:
            continue
        jump = max(duct, blower[key]) / min(duct, blower[key])
        said = f"the {key} is {write_size(blower[key], reading)}, the duct at it {write_size(duct, reading)}"
        if jump >= ABSURD_JUMP:
            blower.fault(key, said, mend="is one of them in another unit?")
        elif jump >= LARGE_JUMP:
            blower.warn(key, said)


def write_size(diameter_m: float, reading: Reading) -> str:
    return write_amount(diameter_m * 1000, "length_mm", reading.reader)
