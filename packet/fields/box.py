"""Fields of filters, filter box, lining, ports and closures."""

from __future__ import annotations

from calc import project as p
from packet.fields.airway import make_loss
from packet.fields.model import (
    Choice,
    Group,
    Key,
    ListOf,
    MapOf,
    Number,
    OwnText,
    TwoLengths,
    Value,
    ValueAt,
    YesNo,
    choose,
)

FACES = choose(p.Port, "face")
INSIDE = Value("length_mm", "4 in", "12 ft", ("9 in", "6 ft"))
PLACE = Value("length_mm", "0.5 in", "12 ft")


def make_size(
    key: str, about: str, example: str, least: str, most: str, default: str | None = None, into: str = ""
) -> Key:
    """Return a field for a length in millimetres with plain limits."""
    target = (into,) if into else None
    return Key(key, Value("length_mm", least, most), about, example, default=default, into=target)


FILTER = Group(
    (
        Key("name", OwnText(40), "What to call this kind of filter.", "filter", default="filter"),
        Key("count", Number(1, 12, whole=True, usual=(1, 6)), "How many hang under the box.", "2", required=True),
        Key(
            "media_area",
            Value("area_m2", "1 ft2", "2000 ft2", ("30 ft2", "400 ft2")),
            "Pleated area of one filter.",
            "210 ft2",
            into=("media_m2",),
        ),
        Key(
            "permeability",
            ValueAt(
                Value("face_speed_ms", "0.5 cfm/ft2", "500 cfm/ft2", ("5 cfm/ft2", "80 cfm/ft2")),
                Value("pressure_pa", "1 Pa", "2 kPa"),
            ),
            "Air through the clean media at a pressure, from the maker's sheet.",
            "22 cfm/ft2 at 0.5 inH2O",
            into=("permeability_ms", "permeability_pa"),
        ),
        make_loss("Clean loss of one filter at a flow. Give this or permeability.", "0.3 inH2O at 400 cfm"),
        Key(
            "outside",
            Value("length_mm", "3 in", "36 in", ("6 in", "20 in")),
            "Outside diameter.",
            "12.7 in",
            required=True,
        ),
        Key(
            "bore",
            Value("length_mm", "2 in", "34 in", ("4 in", "16 in")),
            "Inside diameter of the cage.",
            "9.4 in",
            required=True,
        ),
        Key("height", Value("length_mm", "4 in", "120 in", ("10 in", "48 in")), "Height.", "36 in", required=True),
        Key(
            "weight", Value("mass_kg", "0.5 lb", "200 lb", ("4 lb", "50 lb")), "Weight, clean.", "16 lb", required=True
        ),
        Key(
            "cake_resistance",
            Number(100.0, 1e7, unit="1/s", usual=(3000.0, 300000.0)),
            "Resistance of the dust cake: pressure over face velocity and dust per area.",
            "30000 1/s",
        ),
        Key(
            "residual",
            Value("share", "0 %", "90 %", ("5 %", "50 %")),
            "Share of the dust that stays after cleaning.",
            "20 %",
            default="20 %",
            assume=True,
        ),
        Key(
            "most",
            Value("pressure_pa", "0.5 inH2O", "40 inH2O"),
            "Pressure the media may see, from the maker.",
            "6 inH2O",
        ),
        Key(
            "working_area",
            Value("share", "10 %", "100 %", ("30 %", "100 %")),
            "Share of the pleated area that air and dust reach. Usual: 55 %.",
            "55 %",
        ),
        Key(
            "dust_fills",
            Value("share", "1 %", "50 %", ("5 %", "40 %")),
            "Share of the ring between bore and outside that dust may fill; half of it is the clean side. Usual: 20 %.",
            "20 %",
        ),
        Key("grade", OwnText(60), "Grade of the media, as the maker states it.", "MERV 15", default=""),
        make_size("gasket_outside", "Outside of its gasket.", "12.5 in", "2 in", "36 in"),
        make_size("gasket_inside", "Inside of its gasket.", "9.5 in", "1 in", "35 in"),
        make_size("gasket_thick", "Thickness of its gasket.", "1/4 in", "1 mm", "40 mm", default="6 mm"),
    )
)
FILTERS = ListOf(FILTER, fewest=1, most=6)

PANEL = Group(
    (
        Key("stock", OwnText(60), "What the panels are made of, as you buy it.", "birch plywood", required=True),
        Key(
            "thickness",
            Value("length_mm", "3 mm", "60 mm", ("9 mm", "30 mm")),
            "Thickness as measured with a caliper.",
            "18 mm",
            required=True,
        ),
        Key("nominal", Value("length_mm", "3 mm", "60 mm"), "Thickness as sold.", "3/4 in"),
        Key(
            "sheet",
            TwoLengths("12 in", "16 ft"),
            "A whole sheet, along the grain x across.",
            "96 x 48 in",
            default="96 x 48 in",
        ),
        Key(
            "modulus",
            Value("stress_pa", "500 MPa", "30 GPa"),
            "Bending modulus along the face grain, if known.",
            "8 GPa",
            into=("bending_pa",),
        ),
        Key(
            "modulus_across",
            Value("stress_pa", "200 MPa", "30 GPa"),
            "Bending modulus across the face grain, if known.",
            "5 GPa",
            into=("across_pa",),
        ),
        Key("density", Value("density_kgm3", "200 kg/m3", "1600 kg/m3"), "Density, if known.", "680 kg/m3"),
        Key("grain_matters", YesNo(), "No: panels may be turned on the sheet.", "yes", default="yes"),
        Key(
            "offcuts",
            ListOf(TwoLengths("2 in", "16 ft"), most=40),
            "Pieces on hand, along the grain x across.",
            "[24 x 36 in]",
        ),
    ),
    short="stock",
)
BOX_INLET = Group(
    (
        Key("face", FACES, "The face the duct enters, seen from outside.", "left", required=True),
        Key("diameter", Value("length_mm", "2 in", "24 in"), "Diameter of the inlet.", "8 in", required=True),
        Key("across", PLACE, "From the face's left edge to the middle of the inlet.", "9 in"),
        Key("up", PLACE, "From the face's lower edge to the middle of the inlet.", "8 in"),
    )
)
BOX_INSIDE = Group(
    (
        Key("width", INSIDE, "Inside width before lining.", "46 in", required=True),
        Key("depth", INSIDE, "Inside depth, front to back.", "19 in", required=True),
        Key("height", INSIDE, "Inside height.", "16 in", required=True),
    ),
    words=("auto",),
)
BOX = Group(
    (
        Key(
            "inside",
            BOX_INSIDE,
            "Inside sizes, or auto: the smallest box that holds everything.",
            "auto",
            into=("width_mm", "depth_mm", "height_mm"),
        ),
        Key("panel", PANEL, "Panel stock.", "{stock: birch plywood, thickness: 18 mm}", required=True),
        Key(
            "inlet", BOX_INLET, "Where the duct from the blower enters.", "{face: left, diameter: 8 in}", required=True
        ),
        Key("hung", choose(p.FilterBox, "hung"), "What carries the box.", "wall", default="wall"),
        Key(
            "side",
            Choice(("pressure", "suction")),
            "pressure: the blower pushes into the box. A box on the suction side is not built here.",
            "pressure",
            default="pressure",
            into=(),
        ),
        Key("joint", choose(p.FilterBox, "joint"), "How the panels meet.", "butt", default="butt"),
        Key("removable", FACES, "The face that goes on last, with a gasket.", "front", default="front"),
        Key(
            "underside",
            Value("length_mm", "1 ft", "20 ft"),
            "Floor to the underside of the box. Not given: as high as it goes.",
            "6 ft 4 in",
        ),
        make_size("ceiling_gap", "Room to leave between box and ceiling.", "1 in", "0 in", "10 ft", default="25 mm"),
        make_size(
            "wheelbase",
            "Cart only: the shorter distance between its wheels.",
            "22 in",
            "6 in",
            "10 ft",
            into="cart_wheelbase_mm",
        ),
        Key(
            "cart_weight",
            Value("mass_kg", "5 lb", "2000 lb"),
            "Cart only: weight of the bare cart, no blower.",
            "50 lb",
        ),
        Key(
            "pressure",
            Value("pressure_pa", "0.5 inH2O", "80 inH2O", ("3 inH2O", "25 inH2O")),
            "The highest pressure in the box, all gates shut, where the file has no blower: from the blower's plate.",
            "12 inH2O",
            into=("most_pa",),
        ),
    )
)

LINING = Group(
    (
        Key("stock", OwnText(60), "What lines the box.", "carpet", required=True),
        Key(
            "thickness",
            Value("length_mm", "1 mm", "150 mm", ("3 mm", "60 mm")),
            "Its thickness.",
            "1/2 in",
            required=True,
        ),
        Key(
            "faces",
            ListOf(FACES, 1, 6),
            "Faces it covers on the inside.",
            "[top, back, left, right]",
            required=True,
        ),
        Key("piece", TwoLengths("2 in", "100 ft"), "Roll or sheet as bought, length x width.", "12 x 4 ft"),
        Key(
            "absorption",
            MapOf(Number(0.0, 1.2), keys="bands"),
            "Sound absorption by octave band.",
            "{250: 0.1, 1000: 0.35}",
        ),
    ),
    words=("none",),
)

COLLAR = Value("length_mm", "4 in", "24 in", ("8 in", "16 in"))
PAIL = Group(
    (
        Key(
            "across",
            ListOf(COLLAR, 1, 12),
            "Outside diameter just below the ring, at several angles.",
            "[11-27/32 in, 11.88 in, 11-7/8 in]",
        ),
        Key(
            "around",
            Value("length_mm", "12 in", "80 in"),
            "Outside circumference just below the ring. Beside across: the hole is cut to it; the two are compared.",
            "37-5/16 in",
        ),
        Key("top", COLLAR, "Outside of the whole pail at the top.", "11.9 in", default="302 mm"),
        Key("bottom", COLLAR, "Outside of the whole pail at the bottom.", "10.5 in", default="267 mm"),
        Key(
            "height",
            Value("length_mm", "4 in", "48 in", ("8 in", "24 in")),
            "Height of the whole pail.",
            "14.5 in",
            default="368 mm",
        ),
        make_size("wall", "Thickness of the plastic.", "0.09 in", "0.5 mm", "8 mm", default="2.3 mm"),
    ),
    short="across",
)
CLOSURE = Group(
    (
        make_size("flange", "Outside of the ring's flange.", "13 in", "5 in", "30 in", default="330 mm"),
        make_size("flange_thick", "Thickness of the flange.", "5/32 in", "1 mm", "20 mm", default="4 mm"),
        make_size("ring_height", "Height of the ring.", "1-1/2 in", "5 mm", "100 mm", default="38 mm"),
        Key(
            "screws",
            Number(3, 36, whole=True, usual=(4, 16)),
            "Screws through the ring into the panel.",
            "8",
            default="8",
        ),
        make_size(
            "screw_circle", "Circle of the screws. Not given: midway on the flange.", "12-1/2 in", "4 in", "30 in"
        ),
        make_size("lid", "Outside of the screw lid.", "12-1/4 in", "4 in", "30 in", default="311 mm"),
        make_size("lid_thick", "Thickness of the lid.", "1/8 in", "0.5 mm", "20 mm", default="3 mm"),
        make_size("lid_height", "Height of the lid.", "1 in", "2 mm", "100 mm", default="25 mm"),
        make_size(
            "land_outside",
            "Outside of the flat land for the filter's gasket.",
            "10-9/16 in",
            "2 in",
            "30 in",
            default="268 mm",
        ),
        make_size("land", "Width of that land.", "1/2 in", "2 mm", "100 mm", default="12.7 mm"),
        Key("hooks", Number(2, 12, whole=True), "Hook holes in a filter lid.", "4", default="4"),
        make_size("hook_hole", "Diameter of a hook hole.", "5/8 in", "3 mm", "40 mm", default="15.9 mm"),
        make_size(
            "hook_edge", "Diameter of the edge the hook holes touch.", "11-13/16 in", "3 in", "30 in", default="300 mm"
        ),
        make_size(
            "rib_relief", "Width of rib to cut away inside the edge.", "5/16 in", "0 mm", "60 mm", default="8 mm"
        ),
        make_size("grip", "Room to turn a lid by hand.", "2-3/8 in", "0 mm", "300 mm", default="60 mm"),
    )
)
PORT = Group(
    (
        Key("name", OwnText(40), "Name of the port.", "filter A", required=True),
        Key("kind", choose(p.Opening, "kind"), "What it is for.", "filter", required=True),
        Key("face", FACES, "The face of the box it is cut into; not asked where no box is built.", "bottom"),
        Key(
            "pail",
            PAIL,
            "The pail its collar is cut from, as measured.",
            "{across: [11-27/32 in, 11.88 in, 11-7/8 in]}",
        ),
        Key("across", PLACE, "From the face's left edge (seen from outside) to the middle.", "11 in"),
        Key("up", PLACE, "From the face's lower edge to the middle.", "9 in"),
        Key("filter", OwnText(40, of="filter"), "Which filter hangs here, where there are several kinds.", "fine"),
        Key(
            "closure", CLOSURE, "Ring and lid of this port, where they differ from the common ones.", "{lid: 12-1/4 in}"
        ),
    )
)
PORTS = ListOf(PORT, fewest=1, most=60)
