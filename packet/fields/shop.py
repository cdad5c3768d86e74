"""Fields of the sheet itself, the shop, its dust and its noise."""

from __future__ import annotations

from calc import project as p
from packet.fields.model import (
    Choice,
    Day,
    Group,
    InchFraction,
    Key,
    ListOf,
    Number,
    OwnText,
    PrintedLength,
    TwoLengths,
    Value,
    YesNo,
    choose,
)
from packet.words.languages import get_top, list_languages

PAPERS = {
    "letter": (215.9, 279.4),
    "legal": (215.9, 355.6),
    "tabloid": (279.4, 431.8),
    "a4": (210.0, 297.0),
    "a3": (297.0, 420.0),
}
PAPER_WORDS = (("us-letter", "letter"), ("us letter", "letter"), ("us-legal", "legal"), ("ledger", "tabloid"))
SHEET = TwoLengths("8-1/4 in", "48 in", least_second="11 in")
"""Pages, rules and gauge cards are laid out true to size for what Letter and A4 share: less would cut them off."""
TOP = get_top().folder
LANGUAGE = Choice(
    tuple(list_languages()),
    tuple((each.name.lower(), each.folder) for each in list_languages().values() if each.name.lower() != each.folder),
)
"""By its folder of templates/, or by its own name."""

HOURS_A_DAY = Value("time_h", "0 h", "24 h", ("0 h", "10 h"))

TITLE = Group(
    (
        Key(
            "title", OwnText(90), "Name of the project, printed on every page.", "Garage shop collector", required=True
        ),
        Key(
            "revision",
            OwnText(12),
            "Letter or number of this state of the file; it is printed in every footer.",
            "B",
            default="A",
        ),
        Key("date", Day(), "Date of this revision, year first. The clock is never asked.", "2026-03-14", required=True),
        Key("drawn_by", OwnText(60), "Who drew it.", "A. Turner", default=""),
        Key(
            "notes",
            ListOf(OwnText(400), most=20),
            "Anything the packet should say on its cover.",
            "[Paint the ducts last]",
        ),
    )
)

PRINTER = Group(
    (
        Key(
            "x",
            PrintedLength(),
            "Measured length of the 150 mm rule across the print check page (in inches: of the 6 in rule), or a share.",
            "149.6 mm",
            default="100 %",
        ),
        Key("y", PrintedLength(), "The same for the rule up the page.", "150.3 mm", default="100 %"),
    )
)

DISPLAY = Group(
    (
        Key(
            "system",
            choose(p.Display, "system", (("imperial", "inch"), ("inches", "inch"), ("mm", "metric"))),
            "Units in which the packet is written.",
            "inch",
            default="inch",
        ),
        Key("fraction", InchFraction(), "Smallest fraction of an inch to print.", "1/32", default="1/32"),
        Key(
            "paper",
            Choice(tuple(PAPERS), PAPER_WORDS),
            "Paper in the printer. Not given: letter for inch, a4 for metric.",
            "letter",
        ),
        Key("sheet", SHEET, "Width and height of a paper that has no name here.", "12 x 18 in", into=("paper",)),
        Key(
            "margin",
            Value("length_mm", "6.35 mm", "25 mm"),
            "Edge the printer cannot reach.",
            "9 mm",
            default="9 mm",
            into=("paper",),
        ),
        Key(
            "overlap",
            Value("length_mm", "3 mm", "40 mm"),
            "How far template sheets overlap.",
            "10 mm",
            default="10 mm",
            into=("paper",),
        ),
        Key("language", LANGUAGE, "Language of the helper sheet.", TOP, default=TOP),
        Key(
            "printer",
            PRINTER,
            "Correction for a printer that is a little off.",
            "{x: 149.6 mm, y: 150.3 mm}",
            into=("printer_x", "printer_y"),
        ),
        Key(
            "most_sheets",
            Number(1, 200, whole=True),
            "A template that needs more sheets than this is refused.",
            "24",
            default="24",
        ),
        Key(
            "extra_templates",
            YesNo(),
            "Print also what no step needs: test discs, reinforcing rings, holes and lids that a jig or "
            "a machine cuts.",
            "yes",
            default="no",
        ),
    ),
    short="system",
)

FLUE_WORDS = (
    *((word, "unknown") for word in ("yes", "true", "on", "y", "not known")),
    *((word, "none") for word in ("no", "false", "off", "n")),
    *((word, "solid fuel") for word in ("wood stove", "pellet stove", "fireplace")),
)
"""Plain yes and no of a file that does not tell the kind, and other names."""

MAKE_UP_OPENING = Group(
    (
        Key("diameter", Value("length_mm", "1 in", "10 ft"), "Inside diameter of a round opening.", "14 in"),
        Key(
            "size", TwoLengths("1 in", "30 ft"), "Width and height of an opening without bars or screen.", "24 x 28 in"
        ),
        Key(
            "area",
            Value("area_m2", "1 in2", "1000 ft2"),
            "Free area: what louvres, bars and screen leave open.",
            "4.5 ft2",
        ),
    ),
    short="diameter",
)

SHOP = Group(
    (
        Key(
            "altitude",
            Value("length_m", "-1400 ft", "15000 ft", ("-300 ft", "10000 ft")),
            "Height above the sea.",
            "40 ft",
            default="0 ft",
            assume=True,
        ),
        Key(
            "temperature",
            Value("temperature_k", "-40 degF", "140 degF", ("20 degF", "105 degF")),
            "Usual air temperature in the shop.",
            "66 degF",
            default="68 degF",
            assume=True,
        ),
        Key(
            "humidity", Value("share", "0 %", "100 %"), "Usual relative humidity.", "55 %", default="50 %", assume=True
        ),
        Key(
            "ceiling",
            Value("length_mm", "4 ft", "40 ft", ("6 ft", "20 ft")),
            "Floor to ceiling, where the box will hang.",
            "8 ft 4 in",
        ),
        Key(
            "doorway",
            TwoLengths("12 in", "20 ft"),
            "Narrowest doorway on the way in, width x height.",
            "36 x 80 in",
            into=("doorway_width_mm", "doorway_height_mm"),
        ),
        Key(
            "room",
            TwoLengths("4 ft", "600 ft"),
            "Floor of the room, for its pressure when air leaves it; nothing is computed from it yet.",
            "24 x 38 ft",
            into=("room_width_m", "room_depth_m"),
        ),
        Key(
            "barometer",
            Value("pressure_pa", "50 kPa", "110 kPa"),
            "Air pressure in the shop, if measured (station pressure, not the weather report's).",
            "101 kPa",
        ),
        Key("clean_air", choose(p.Shop, "clean_air"), "Where the filtered air goes.", "indoors", default="indoors"),
        Key(
            "flued_appliance",
            choose(p.Shop, "flued_appliance", FLUE_WORDS),
            "The heater, stove or water heater with a flue that shares the room's air; of several the one that stands "
            "first in this list. yes: kind not known, held to the strictest limit.",
            "water heater",
            default="none",
        ),
        Key(
            "appliance_draught",
            Value("draught_pa", "0.5 Pa", "50 Pa", ("1 Pa", "25 Pa")),
            "How far the room may fall below outdoors, if less than what that flue stands.",
            "2 Pa",
        ),
        Key(
            "make_up_opening",
            MAKE_UP_OPENING,
            "The opening to outdoors that stays open while the blower runs: its diameter, size or free area.",
            "{size: 24 x 28 in}",
            into=("make_up_opening_m2",),
        ),
    )
)

DUST = Group(
    (
        Key(
            "made",
            Value("mass_rate_kgs", "0 lb/h", "500 lb/h", ("0.5 lb/h", "60 lb/h")),
            "Chips and dust made while machines run.",
            "6 lb/h",
            default="6 lb/h",
            assume=True,
        ),
        Key(
            "hours_a_day", HOURS_A_DAY, "Hours of machine running in a working day.", "3 h", default="2 h", assume=True
        ),
        Key(
            "branch_speed",
            Value("speed_ms", "500 fpm", "8000 fpm", ("3000 fpm", "5000 fpm")),
            "Air speed to keep in branches so that nothing settles.",
            "4000 fpm",
            default="4000 fpm",
        ),
        Key(
            "main_speed",
            Value("speed_ms", "500 fpm", "8000 fpm", ("2500 fpm", "5000 fpm")),
            "Air speed to keep in the main.",
            "3500 fpm",
            default="3500 fpm",
        ),
        Key(
            "woods",
            ListOf(choose(p.Dust, "woods"), fewest=1, most=6),
            "What is worked; some woods add cautions.",
            "[hardwood, plywood]",
            default="hardwood",
        ),
        Key(
            "bulk_density",
            Value("density_kgm3", "2 lb/ft3", "50 lb/ft3", ("4 lb/ft3", "26 lb/ft3")),
            "How heavy the dust lies in a pail: weigh a full one. Usual: 12 lb/ft3.",
            "12 lb/ft3",
            into=("bulk_kgm3",),
        ),
        Key(
            "to_pleats",
            Value("share", "1 %", "100 %", ("3 %", "100 %")),
            "Share of the dust in the box that clings to the pleats; the rest falls into the pails. Usual: 15 % "
            "without a separator, 70 % behind a drop box, 80 % behind a cyclone.",
            "15 %",
        ),
        Key(
            "speed_source",
            OwnText(200),
            "Where the two speeds come from, if they are your own.",
            "local handbook",
            default="common practice, no source",
        ),
    )
)

NOISE_SOURCE = Group(
    (
        Key("name", OwnText(60), "What makes the noise.", "planer", required=True),
        Key(
            "level",
            Value("sound_db", "20 dB", "140 dB", ("60 dB", "115 dB")),
            "Level at the operator's ear.",
            "96 dB",
            required=True,
        ),
    )
)
PROTECTOR = Group(
    (
        Key(
            "kind",
            choose(p.Protector, "kind", means=(("muffs", "earmuffs"),)),
            "What is worn: plugs that are rolled and swell in the ear are formable.",
            "earmuffs",
            required=True,
        ),
        Key(
            "rating",
            Value("sound_db", "0 dB", "50 dB", ("10 dB", "40 dB"), "ratings on packs, from memory"),
            "The rating on its pack; what it takes away in a shop is reckoned from it, and is far less.",
            "25 dB",
            required=True,
        ),
        Key(
            "rating_is",
            choose(p.Protector, "rating_is", means=(("nrr", "NRR"), ("snr", "SNR"))),
            "Which rating that is: NRR on packs for North America, SNR for Europe.",
            "NRR",
            default="NRR",
        ),
    )
)
NOISE = Group(
    (
        Key(
            "ear",
            Value("length_m", "0.3 m", "100 m"),
            "From the filter box or blower to the operator's ear.",
            "6 ft",
            default="6 ft",
            assume=True,
        ),
        Key("hours_a_day", HOURS_A_DAY, "Hours a day in the noise.", "4 h", default="4 h", assume=True),
        Key("others", ListOf(NOISE_SOURCE, most=30), "Other noise at the same ear.", "[{name: planer, level: 96 dB}]"),
        Key(
            "protector",
            PROTECTOR,
            "Hearing protection worn whenever blower or machines run.",
            "{kind: earmuffs, rating: 25 dB, rating_is: NRR}",
        ),
    )
)
