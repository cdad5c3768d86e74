"""What ``new`` asks: only what nobody can assume for a shop, in shop words, each with an answer that may stand."""

from __future__ import annotations

import re
from dataclasses import KW_ONLY, dataclass

from packet.fields import PROJECT
from packet.fields.model import Group, Key, ListOf, MapOf, Number, OwnText, Variants, What


@dataclass(frozen=True)
class Query:
    """key: its name in an answers file; at: the field it fills, as a dotted path of the table of fields.

    inch, metric: the answer that stands when nobody gives one; measured: then it has ``about`` before it
    asked: at the terminal; else only an answers file can say it
    """

    key: str
    at: str
    asks: str
    inch: str
    metric: str
    _: KW_ONLY
    measured: bool = False
    asked: bool = True


QUESTIONS: tuple[Query, ...] = (
    Query("system", "display.system", "Do you measure in inch or metric?", "inch", "metric"),
    Query(
        "ceiling",
        "shop.ceiling",
        "Floor to ceiling, where the filter box will hang?",
        "9 ft 6 in",
        "2.9 m",
        measured=True,
    ),
    Query(
        "doorway",
        "shop.doorway",
        "Narrowest doorway on the way in, width x height?",
        "32 x 80 in",
        "800 x 2000 mm",
        measured=True,
    ),
    Query(
        "altitude",
        "shop.altitude",
        "How high above the sea is the shop?",
        "500 ft",
        "150 m",
        measured=True,
    ),
    Query(
        "flued_appliance",
        "shop.flued_appliance",
        "Heater with a flue in the room: water heater, solid fuel, boiler, furnace, induced draught, power vented, "
        "sealed or none? yes if you do not know its kind",
        "yes",
        "yes",
        measured=True,
    ),
    Query(
        "free_flow",
        "blower.rating.free_flow",
        "On the blower's plate: the most air, with nothing connected?",
        "1100 cfm",
        "1850 m3/h",
        measured=True,
    ),
    Query(
        "shut_off",
        "blower.rating.shut_off",
        "On the plate: the most pressure, with the inlet shut?",
        "10 inH2O",
        "2500 Pa",
        measured=True,
    ),
    Query("power", "blower.power", "Motor power on the plate?", "2 hp", "1.5 kW", measured=True),
    Query(
        "outlet",
        "blower.outlet",
        "Inside diameter of the blower's outlet?",
        "6 in",
        "150 mm",
        measured=True,
    ),
    Query(
        "separator",
        "separator.kind",
        "What takes the chips out before the filter: cyclone, drop box or none?",
        "cyclone",
        "cyclone",
    ),
    Query("duct", "ducts.pieces.pipe.pipe", "Diameter of the main duct?", "5 in", "125 mm", measured=True),
    Query("duct_length", "ducts.pieces.pipe.length", "Length of the main duct?", "20 ft", "6 m", measured=True),
    Query("elbows", "ducts.pieces.elbow.count", "How many square bends (90 deg) in it?", "2", "2", measured=True),
    Query(
        "machines",
        "",
        "Machines and the air each needs, such as: planer 600 cfm, band saw 400 cfm?",
        "table saw 450 cfm, band saw 400 cfm",
        "table saw 750 m3/h, band saw 650 m3/h",
    ),
    Query("filters", "filters.count", "How many filter cartridges?", "2", "2", measured=True),
    Query(
        "media_area",
        "filters.media_area",
        "Pleated area of one, from its label?",
        "270 ft2",
        "25 m2",
        measured=True,
    ),
    Query(
        "filter_outside",
        "filters.outside",
        "Outside diameter of a cartridge?",
        "12.7 in",
        "322 mm",
        measured=True,
    ),
    Query("filter_bore", "filters.bore", "Inside diameter of its cage?", "9.4 in", "239 mm", measured=True),
    Query("filter_height", "filters.height", "Its height?", "36 in", "914 mm", measured=True),
    Query(
        "thickness",
        "filter_box.panel.thickness",
        "How thick is the box's plywood, by caliper?",
        "18 mm",
        "18 mm",
        measured=True,
    ),
    Query(
        "pail",
        "ports.pail.across",
        "One plastic pail, at three angles: how wide outside, just below its top ring?",
        "11-7/8 in",
        "302 mm",
    ),
    # Not asked: what stands is right for most. An answers file may say them all the same.
    Query(
        "title", "project.title", "What is this project called, if not as its file?", "My shop", "My shop", asked=False
    ),
    Query(
        "paper",
        "display.paper",
        "Which paper is in the printer?",
        "letter",
        "a4",
        asked=False,
    ),
    Query(
        "hose",
        "ducts.pieces.hose.hose",
        "Diameter of the hose at the machines?",
        "5 in",
        "125 mm",
        asked=False,
    ),
    Query(
        "filter_weight",
        "filters.weight",
        "Weight of a cartridge, clean?",
        "16 lb",
        "7 kg",
        measured=True,
        asked=False,
    ),
    Query(
        "panel",
        "filter_box.panel.stock",
        "What are the box's panels made of?",
        "birch plywood",
        "birch plywood",
        asked=False,
    ),
    Query(
        "holes",
        "shop_methods.holes",
        "How will you cut the large holes: jigsaw, router, trammel or hole saw?",
        "jigsaw",
        "jigsaw",
        asked=False,
    ),
    Query(
        "helper",
        "shop_methods.helper",
        "Does a second person help?",
        "no",
        "no",
        asked=False,
    ),
)
ASKED = tuple(question for question in QUESTIONS if question.asked)
MACHINES = OwnText(600)
STARTS = {"small-shop": "inch", "small-shop-metric": "metric"}


UNITS_BEFORE_NEXT = r"(?:(?<=[\"″”])|(?<=\bin)|(?<=\d in)|(?<=\din)|(?<=inch)|(?<=inches)|(?<=mm)|(?<=cm))"
BETWEEN_READINGS = re.compile(rf"\s*;\s*|(?<=[^\s\d])\s*,\s*|,\s+|{UNITS_BEFORE_NEXT}\s+(?=\d)")
"""Between readings told in one line: a semicolon, a comma that is no decimal comma, or a space behind a unit."""


def split_readings(answer: str) -> tuple[str, ...]:
    """Return the readings of one line: ``12 1/16", 11 31/32"`` or ``302 mm 301.5 mm``; feet stay with their inches."""
    return tuple(part for each in BETWEEN_READINGS.split(answer.strip()) if (part := each.strip()))


def join_readings(readings: tuple[str, ...]) -> str:
    """Return readings as one answer that `split_readings` parts again."""
    return "; ".join(readings)


def is_list(question: Query) -> bool:
    """Tell whether a question takes several readings."""
    return bool(question.at) and isinstance(find_what(question.at), ListOf)


def make_answers_group() -> Group:
    """Return the fields of an answers file, each with the rule of the field it fills."""
    return Group(tuple(Key(q.key, find_what(q.at), q.asks, q.inch) for q in QUESTIONS))


def find_what(path: str) -> What:
    """Return the rule of a field by its dotted path; a free text where the path is empty."""
    what: What = PROJECT if path else MACHINES
    for key in path.split(".") if path else ():
        what = step_into(what, key)
    if isinstance(what, Number) and what.whole:
        return Number(0 if key == "count" and "elbow" in path else what.least, what.most, whole=True)
    return what


def step_into(what: What, key: str) -> What:
    while isinstance(what, ListOf | MapOf):
        what = what.item
    if isinstance(what, Variants):
        return what.cases[key]
    assert isinstance(what, Group)
    return next(known.what for known in what.fields if known.key == key)
