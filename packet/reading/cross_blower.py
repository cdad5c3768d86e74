"""What must agree between the blower's own numbers, and between its openings and the ducts that come to them."""

from __future__ import annotations

import math
from itertools import pairwise

from calc.measures.quantity import write_amount
from calc.sizing.sound import fall_with_distance
from calc.trade import FASTEST_OPENING_MS, USUAL_OPENING_MS
from packet.reading.context import Reading
from packet.reading.cross_air import ABSURD_JUMP, LARGE_JUMP, check_one_of, read_ends
from packet.reading.scalars import AtValue
from packet.reading.values import Values


def check_blower(project: Values, reading: Reading) -> None:
    """A curve or a rating; a rating only as a stated assumption; openings that suit the flow and the ducts."""
    blower = project["blower"]
    if not isinstance(blower, Values):
        return
    check_opening_speeds(blower, reading)
    check_opening_ducts(project, blower, reading)
    check_one_of(blower, ("curve", "rating"))
    check_past_box(blower, reading)
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
    if isinstance(blower["power_curve"], list):
        check_power_curve(blower, blower["power_curve"], reading)


def check_past_box(blower: Values, reading: Reading) -> None:
    """What goes past the box is part of the whole: it needs the whole beside it, and is below it."""
    past, whole = blower["past_box"], blower["sound"]
    if not isinstance(past, AtValue):
        return
    if not isinstance(whole, AtValue):
        blower.fault(
            "past_box",
            "this is only the part of the noise that goes past the box; the whole (sound) is not told",
            mend="add the level with plain duct beside it, or leave past_box out",
            example="sound: 86 dB at 5 ft",
        )
        return
    there = past.value - fall_with_distance(whole.at, past.at)
    if there >= whole.value:
        level = write_amount(there, "sound_db", reading.reader)
        blower.fault(
            "past_box",
            f"{level} where the whole was measured: the part is not below the whole (sound)",
            expected=f"less than {write_amount(whole.value, 'sound_db', reading.reader)} there",
            mend="check both levels and distances",
            example="past_box: 76 dB at 5 ft",
        )


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


def check_power_curve(blower: Values, points: list[tuple[float, float]], reading: Reading) -> None:
    """Flow rises from point to point; the shaft takes more than the air gets; it says all that efficiency would."""
    known = blower.where.key("efficiency").known
    if blower.is_given("efficiency"):
        blower.fault(
            "efficiency",
            "an efficiency beside a power curve, which says it at every flow",
            mend="leave out efficiency, or power_curve",
        )
    elif known in reading.assumed:
        reading.assumed.remove(known)
    for number, (before, after) in enumerate(pairwise(points), 2):
        if after[0] <= before[0]:
            flow = write_amount(after[0], "flow_m3s", reading.reader)
            blower.fault(
                "power_curve",
                f"point {number} ({flow}) does not lie beyond point {number - 1}",
                mend="list the points by rising flow",
                example="power_curve: [[0 cfm, 1.2 hp], [800 cfm, 2.3 hp], [1500 cfm, 3.1 hp]]",
            )
            return
    if len(points) < 2 or not blower["curve"]:
        return
    check_power_against_air(blower, points, reading)
    end, last = points[-1][0], blower["curve"][-1][0]
    if end < 0.9 * last:
        ends, beside = (write_amount(flow, "flow_m3s", reading.reader) for flow in (end, last))
        blower.warn("power_curve", f"the power curve ends at {ends}, the curve at {beside}; it is drawn on straight")
    largest = max(power for _, power in points)
    if blower["wheel"] in ("radial", "forward") and points[-1][1] < 0.95 * largest:
        blower.warn(
            "wheel",
            f"the power curve falls toward free flow, as no {blower['wheel']} wheel's does; the power curve is taken",
        )


def check_power_against_air(blower: Values, points: list[tuple[float, float]], reading: Reading) -> None:
    """No blower puts more into the air than its shaft takes: at each point of the pressure curve that is spanned."""
    for flow, pressure in blower["curve"]:
        if not points[0][0] <= flow <= points[-1][0]:
            continue
        after = next(n for n, point in enumerate(points) if point[0] >= flow)
        (low, at_low), (high, at_high) = points[max(after - 1, 0)], points[after]
        power = at_high if high == low else at_low + (at_high - at_low) * (flow - low) / (high - low)
        if flow * pressure >= power:
            air, shaft = (write_amount(watts, "power_w", reading.reader) for watts in (flow * pressure, power))
            blower.fault(
                "power_curve",
                f"at {write_amount(flow, 'flow_m3s', reading.reader)} the air alone takes {air}, the shaft {shaft}",
                expected="more power at the shaft than in the air",
                mend="is it power at the shaft (brake horsepower), in the right unit?",
            )
            return


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
    meets: list[tuple[str, str, int]] = [("inlet", "link", -1), ("outlet", "delivery", 0)]
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
