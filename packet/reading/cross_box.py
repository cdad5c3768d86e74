"""What must agree between the fields of filters, box, ports, pails and the rest."""

from __future__ import annotations

import math
from statistics import median
from typing import Any

from calc.measures.quantity import write_amount
from calc.trade import ROUND_ENOUGH_MM, TYPING_ERROR_MM
from packet.reading.context import Reading
from packet.reading.cross_air import check_names, read_ends
from packet.reading.problem import find_nearest, list_words, quote_found
from packet.reading.values import Values

LEAST_PLEAT_MM = 0.4
"""Less than this for each layer of pleat, and the thinnest cloth fills the ring (common practice, no source)."""


def check_box(project: Values, reading: Reading) -> None:
    """Note every disagreement among filters, ports, pails, box, lining, gauge and shop."""
    filters = [f for f in project["filters"] or [] if isinstance(f, Values)]
    ports = [p for p in project["ports"] or [] if isinstance(p, Values)]
    for one in filters:
        check_filter(one, reading)
    check_names("filter", filters)
    check_names("port", ports)
    for port in ports:
        check_port(port, reading)
    if ports:
        check_port_count(project, ports, filters)
        check_kinds(ports, filters)
    check_faces(project["lining"])
    check_panel(project["filter_box"], reading)
    check_inlet_duct(project, reading)
    check_side(project["filter_box"])
    check_gauge(project["gauge"])
    check_shop(project["shop"])
    check_cart(project)


def write_mm(value: float, reading: Reading) -> str:
    return write_amount(value, "length_mm", reading.reader)


def check_cart(project: Values) -> None:
    """A blower stands on the cart only where there is one, and there its weight counts."""
    blower, box = project["blower"], project["filter_box"]
    if not isinstance(blower, Values) or not isinstance(box, Values) or blower["stands_on"] != "cart":
        return
    if box["hung"] not in (None, "cart"):
        found = f"the blower stands on a cart, and the box hangs from the {box['hung']}"
        blower.fault("stands_on", found, expected="floor or wall, or filter_box.hung: cart")
    elif blower["weight"] is None and not blower.is_given("weight"):
        blower.fault(
            "stands_on",
            "the blower stands on the cart, and its weight is not given",
            expected="weight, from its plate: it counts when the cart tips",
        )


def check_side(box: Any) -> None:
    """Only a box that the blower pushes into can be built from a packet."""
    if isinstance(box, Values) and box["side"] == "suction":
        box.fault(
            "side",
            "a box on the suction side: with the filters open to the room below it, room air would be drawn back "
            "through them into the box",
            expected="side: pressure, or no side at all",
            mend="put the box behind the blower: separator, blower, box",
        )


def check_filter(one: Values, reading: Reading) -> None:
    if one.is_given("permeability") and one.is_given("loss"):
        one.fault("loss", "both permeability and loss", expected="one of the two: permeability or loss")
    for small, large in (("bore", "outside"), ("gasket_inside", "gasket_outside"), ("gasket_outside", "outside")):
        if one[small] is not None and one[large] is not None and one[small] >= one[large] + (small == "gasket_outside"):
            found = (
                f"{small} {write_mm(one[small], reading)} is not smaller than {large} {write_mm(one[large], reading)}"
            )
            one.fault(small, found, mend="are they swapped?")
    check_lone_gasket_size(one, reading)
    check_ring(one, reading)


def check_ring(one: Values, reading: Reading) -> None:
    """The cloth must go into the ring between bore and outside, and leave room for air and dust."""
    sizes = [one[key] for key in ("outside", "bore", "height", "media_area")]
    if None in sizes or sizes[1] >= sizes[0]:
        return
    outside, bore, height, media = sizes
    gap = math.pi / 4 * (outside**2 - bore**2) * height / (media * 1e6)
    if gap < LEAST_PLEAT_MM:
        thin = write_amount(gap, "length_mm", reading.reader, digits=3 if reading.reader.system == "inch" else 2)
        one.fault(
            "media_area",
            f"the ring between bore and outside leaves {thin} for each layer of pleat, cloth included",
            expected="an area that can be folded into the filter",
            mend="media_area is that of one filter; check outside, bore and height too",
        )


def check_lone_gasket_size(one: Values, reading: Reading) -> None:
    """One size of a gasket alone: the other is taken from the cartridge, and a ring must be left between the two."""
    inside, outside = one["gasket_inside"], one["gasket_outside"]
    if inside is not None and not one.is_given("gasket_outside") and one["outside"] is not None:
        key, other, value, limit = "gasket_inside", "gasket_outside", inside, one["outside"]
        found, lacking = "not smaller than the filter's outside", inside >= limit
    elif outside is not None and not one.is_given("gasket_inside") and one["bore"] is not None:
        key, other, value, limit = "gasket_outside", "gasket_inside", outside, one["bore"]
        found, lacking = "not larger than the filter's bore", outside <= limit
    else:
        return
    if lacking:
        one.fault(
            key,
            f"{key} {write_mm(value, reading)} is {found} {write_mm(limit, reading)}: no ring is left",
            mend=f"measure the gasket again, and give {other} too",
        )


def check_port(port: Values, reading: Reading) -> None:
    """A filter hangs, so its port is underneath; the pail's measurements must agree with each other."""
    if port["kind"] == "filter" and port["face"] not in (None, "bottom"):
        port.fault(
            "face",
            f"a filter port on the {port['face']} face",
            expected="bottom: the filters hang under the box",
        )
    if isinstance(port["pail"], Values):
        check_pail(port["pail"], reading)


def check_pail(pail: Values, reading: Reading) -> None:
    across = pail["across"] or []
    if len(across) > 1:
        spread = max(across) - min(across)
        said = f"the measurements differ by {write_mm(spread, reading)}"
        middle = median(across)
        farthest = max(range(len(across)), key=lambda at: (abs(across[at] - middle), at))
        if spread > TYPING_ERROR_MM:
            pail.fault(
                "across",
                said,
                farthest,
                expected=f"at most {write_mm(TYPING_ERROR_MM, reading)} between widest and narrowest",
                mend="a typing error? measure again",
            )
        elif spread > ROUND_ENOUGH_MM:
            pail.warn("across", f"{said}; the pail is out of round", farthest)
    if across and pail["around"] is not None:
        mean, from_around = sum(across) / len(across), pail["around"] / math.pi
        if abs(mean - from_around) > TYPING_ERROR_MM:
            pail.fault(
                "around",
                f"around gives {write_mm(from_around, reading)} across, but across says {write_mm(mean, reading)}",
                mend="measure again, or keep one of the two",
            )
    elif pail["around"] is not None and not 100 <= pail["around"] / math.pi <= 610:
        pail.fault("around", "no pail of this girth takes a screw lid")


def check_port_count(project: Values, ports: list[Values], filters: list[Values]) -> None:
    counts = [one["count"] for one in filters]
    if None in counts or any(port["kind"] is None for port in ports) or not project["filters"]:
        return
    wanted, found = sum(counts), sum(port["kind"] == "filter" for port in ports)
    if wanted != found:
        project.fault(
            "ports",
            f"{found} filter port{'s' * (found != 1)} for {wanted} filter{'s' * (wanted != 1)}",
            mend="give each filter its own port of kind filter",
        )


def check_kinds(ports: list[Values], filters: list[Values]) -> None:
    """Which kind of filter hangs at each port: said wherever there is more than one kind."""
    names = [one["name"] for one in filters if one["name"] is not None]
    for port in ports:
        told = port["filter"]
        if port["kind"] != "filter":
            if told is not None:
                port.fault("filter", f"a filter hangs at a port of kind {port['kind']}", mend="take the line out")
        elif told is None and len(filters) > 1:
            port.fault(
                "", "which filter hangs here is not said", expected=list_words(names), example=f"filter: {names[0]}"
            )
        elif told is not None and told not in names:
            nearest = find_nearest(told, names)
            port.fault(
                "filter", f"no filter is called {quote_found(told)}", expected=list_words(names), nearest=nearest
            )
    if len(filters) < 2 or any(port["kind"] == "filter" and port["filter"] not in names for port in ports):
        return
    for one in filters:
        found = sum(port["filter"] == one["name"] for port in ports)
        if one["count"] is not None and found != one["count"]:
            one.fault(
                "count",
                f"{one['count']:.0f} of {quote_found(one['name'])}, and {found} port{'s' * (found != 1)} for it",
                mend="give each its own port of kind filter, and say there which filter hangs",
            )


def check_faces(lining: Any) -> None:
    if isinstance(lining, Values) and lining["faces"] and len(set(lining["faces"])) < len(lining["faces"]):
        lining.fault("faces", "a face stands twice", mend="name each face once")


def check_panel(box: Any, reading: Reading) -> None:
    if not isinstance(box, Values):
        return
    panel = box["panel"]
    if isinstance(panel, Values) and panel["nominal"] is not None and panel["thickness"] is not None:
        apart = abs(panel["nominal"] - panel["thickness"])
        if apart > 2.5:
            panel.warn("thickness", f"the panel measures {write_mm(apart, reading)} off its nominal thickness")
    if box["removable"] == "bottom":
        box.fault(
            "removable",
            "the bottom carries the filters and cannot come off",
            expected="another face",
            example="removable: front",
        )


def check_inlet_duct(project: Values, reading: Reading) -> None:
    """The box's inlet and the duct that comes to it should be of one size."""
    box, delivery = project["filter_box"], project["delivery"]
    inlet = box["inlet"] if isinstance(box, Values) else None
    if not isinstance(inlet, Values) or inlet["diameter"] is None or not delivery:
        return
    size = read_ends(delivery[-1])[1]
    if size is not None and abs(size * 1000 - inlet["diameter"]) > 6.4:
        inlet.warn(
            "diameter",
            f"the inlet is {write_mm(inlet['diameter'], reading)}, the duct to it {write_mm(size * 1000, reading)}",
        )


def check_gauge(gauge: Any) -> None:
    if not isinstance(gauge, Values):
        return
    for kind, key, example in (("inclined", "slope", "slope: 1:5"), ("well", "well_bore", "well_bore: 2 in")):
        if gauge["kind"] == kind and not gauge.is_given(key):
            gauge.fault("", f"a gauge of kind {kind} without its {key}", example=example)
    if gauge["well_bore"] is not None and gauge["tube_bore"] is not None and gauge["well_bore"] <= gauge["tube_bore"]:
        gauge.fault("well_bore", "the well is not wider than the tube", mend="are they swapped?")


def check_shop(shop: Any) -> None:
    if not isinstance(shop, Values):
        return
    door = shop["doorway"]
    if door is not None and door.width_mm > 1.5 * door.height_mm:
        shop.warn("doorway", "the doorway is wider than high; width comes first")
    if door is not None and shop["ceiling"] is not None and door.height_mm > shop["ceiling"]:
        shop.warn("doorway", "the doorway is higher than the ceiling")
