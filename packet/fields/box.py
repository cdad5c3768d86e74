"""Fields of filters, filter box, lining, ports and closures."""

from __future__ import annotations

from packet.fields.airway import make_loss
from packet.fields.model import Amount, At, Choice, Field, Group, ListOf, MapOf, Number, Size, Words, YesNo

FACES = ("top", "bottom", "front", "back", "left", "right")
INSIDE = Amount("length_mm", "4 in", "12 ft", ("9 in", "6 ft"))
PLACE = Amount("length_mm", "0.5 in", "12 ft")


def make_size(
    key: str, about: str, example: str, least: str, most: str, default: str | None = None, into: str = ""
) -> Field:
    """Return a field for a length in millimetres with plain limits."""
    target = (into,) if into else None
    return Field(key, Amount("length_mm", least, most), about, example, default=default, into=target)


FILTER = Group(
    (
        Field("name", Words(40), "What to call this kind of filter.", "filter", default="filter"),
        Field("count", Number(1, 12, whole=True, usual=(1, 6)), "How many hang under the box.", "2", required=True),
        Field(
            "media_area",
            Amount("area_m2", "1 ft2", "2000 ft2", ("30 ft2", "400 ft2")),
            "Pleated area of one filter.",
            "210 ft2",
            required=True,
            into=("media_m2",),
        ),
        Field(
            "permeability",
            At(
                Amount("face_speed_ms", "0.5 cfm/ft2", "500 cfm/ft2", ("5 cfm/ft2", "80 cfm/ft2")),
                Amount("pressure_pa", "1 Pa", "2 kPa"),
            ),
            "Air through the clean media at a pressure, from the maker's sheet.",
            "22 cfm/ft2 at 0.5 inH2O",
            into=("permeability_ms", "permeability_pa"),
        ),
        make_loss("Clean loss of one filter at a flow. Give this or permeability.", "0.3 inH2O at 400 cfm"),
        Field(
            "outside",
            Amount("length_mm", "3 in", "36 in", ("6 in", "20 in")),
            "Outside diameter.",
            "12.7 in",
            required=True,
        ),
        Field(
            "bore",
            Amount("length_mm", "2 in", "34 in", ("4 in", "16 in")),
            "Inside diameter of the cage.",
            "9.4 in",
            required=True,
        ),
        Field("height", Amount("length_mm", "4 in", "120 in", ("10 in", "48 in")), "Height.", "36 in", required=True),
        Field(
            "weight", Amount("mass_kg", "0.5 lb", "200 lb", ("4 lb", "50 lb")), "Weight, clean.", "16 lb", required=True
        ),
        Field(
            "cake_resistance",
            Number(100.0, 1e7, unit="1/s", usual=(3000.0, 300000.0)),
            "Resistance of the dust cake: pressure over face velocity and dust per area.",
            "30000 1/s",
        ),
        Field(
            "residual",
            Amount("share", "0 %", "90 %", ("5 %", "50 %")),
            "Share of the dust that stays after cleaning.",
            "20 %",
            default="20 %",
            assume=True,
        ),
        Field(
            "most",
            Amount("pressure_pa", "0.5 inH2O", "40 inH2O"),
            "Pressure the media may see, from the maker.",
            "6 inH2O",
        ),
        Field("grade", Words(60), "Grade of the media, as the maker states it.", "MERV 15", default=""),
        make_size("gasket_outside", "Outside of its gasket.", "12.5 in", "2 in", "36 in"),
        make_size("gasket_inside", "Inside of its gasket.", "9.5 in", "1 in", "35 in"),
        make_size("gasket_thick", "Thickness of its gasket.", "1/4 in", "1 mm", "40 mm", default="6 mm"),
    )
)
FILTERS = ListOf(FILTER, fewest=1, most=6)

PANEL = Group(
    (
        Field("stock", Words(60), "What the panels are made of, as you buy it.", "birch plywood", required=True),
        Field(
            "thickness",
            Amount("length_mm", "3 mm", "60 mm", ("9 mm", "30 mm")),
            "Thickness as measured with a caliper.",
            "18 mm",
            required=True,
        ),
        Field("nominal", Amount("length_mm", "3 mm", "60 mm"), "Thickness as sold.", "3/4 in"),
        Field(
            "sheet",
            Size("12 in", "16 ft"),
            "A whole sheet, along the grain x across.",
            "96 x 48 in",
            default="96 x 48 in",
        ),
        Field(
            "modulus",
            Amount("stress_pa", "500 MPa", "30 GPa"),
            "Bending modulus along the face grain, if known.",
            "8 GPa",
            into=("bending_pa",),
        ),
        Field(
            "modulus_across",
            Amount("stress_pa", "200 MPa", "30 GPa"),
            "Bending modulus across the face grain, if known.",
            "5 GPa",
            into=("across_pa",),
        ),
        Field("density", Amount("density_kgm3", "200 kg/m3", "1600 kg/m3"), "Density, if known.", "680 kg/m3"),
        Field("grain_matters", YesNo(), "No: panels may be turned on the sheet.", "yes", default="yes"),
        Field(
            "offcuts",
            ListOf(Size("2 in", "16 ft"), most=40),
            "Pieces on hand, along the grain x across.",
            "[24 x 36 in]",
        ),
    ),
    short="stock",
)
BOX_INLET = Group(
    (
        Field("face", Choice(FACES), "The face the duct enters, seen from outside.", "left", required=True),
        Field("diameter", Amount("length_mm", "2 in", "24 in"), "Diameter of the inlet.", "8 in", required=True),
        Field("across", PLACE, "From the face's left edge to the middle of the inlet.", "9 in"),
        Field("up", PLACE, "From the face's lower edge to the middle of the inlet.", "8 in"),
    )
)
BOX_INSIDE = Group(
    (
        Field("width", INSIDE, "Inside width before lining.", "46 in", required=True),
        Field("depth", INSIDE, "Inside depth, front to back.", "19 in", required=True),
        Field("height", INSIDE, "Inside height.", "16 in", required=True),
    ),
    words=("auto",),
)
BOX = Group(
    (
        Field(
            "inside",
            BOX_INSIDE,
            "Inside sizes, or auto: the smallest box that holds everything.",
            "auto",
            into=("width_mm", "depth_mm", "height_mm"),
        ),
        Field("panel", PANEL, "Panel stock.", "{stock: birch plywood, thickness: 18 mm}", required=True),
        Field(
            "inlet", BOX_INLET, "Where the duct from the blower enters.", "{face: left, diameter: 8 in}", required=True
        ),
        Field("hung", Choice(("wall", "ceiling", "cart")), "What carries the box.", "wall", default="wall"),
        Field(
            "side",
            Choice(("pressure", "suction")),
            "pressure: the blower pushes into the box; suction: it pulls from it.",
            "pressure",
            default="pressure",
        ),
        Field("joint", Choice(("butt", "rabbet", "dado", "cleat")), "How the panels meet.", "butt", default="butt"),
        Field("removable", Choice(FACES), "The face that goes on last, with a gasket.", "front", default="front"),
        Field(
            "underside",
            Amount("length_mm", "1 ft", "20 ft"),
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
        Field(
            "cart_weight",
            Amount("mass_kg", "5 lb", "2000 lb"),
            "Cart only: weight of the bare cart, no blower.",
            "50 lb",
        ),
    )
)

LINING = Group(
    (
        Field("stock", Words(60), "What lines the box.", "carpet", required=True),
        Field(
            "thickness",
            Amount("length_mm", "1 mm", "150 mm", ("3 mm", "60 mm")),
            "Its thickness.",
            "1/2 in",
            required=True,
        ),
        Field(
            "faces",
            ListOf(Choice(FACES), 1, 6),
            "Faces it covers on the inside.",
            "[top, back, left, right]",
            required=True,
        ),
        Field("piece", Size("2 in", "100 ft"), "Roll or sheet as bought, length x width.", "12 x 4 ft"),
        Field(
            "absorption",
            MapOf(Number(0.0, 1.2), keys="bands"),
            "Sound absorption by octave band.",
            "{250: 0.1, 1000: 0.35}",
        ),
    ),
    words=("none",),
)

COLLAR = Amount("length_mm", "4 in", "24 in", ("8 in", "16 in"))
PAIL = Group(
    (
        Field(
            "across",
            ListOf(COLLAR, 1, 12),
            "Outside diameter just below the ring, at several angles.",
            "[11-27/32 in, 11.88 in, 11-7/8 in]",
        ),
        Field(
            "around",
            Amount("length_mm", "12 in", "80 in"),
            "Outside circumference just below the ring. Beside across: the hole is cut to it; the two are compared.",
            "37-5/16 in",
        ),
        Field("top", COLLAR, "Outside of the whole pail at the top.", "11.9 in", default="302 mm"),
        Field("bottom", COLLAR, "Outside of the whole pail at the bottom.", "10.5 in", default="267 mm"),
        Field(
            "height",
            Amount("length_mm", "4 in", "48 in", ("8 in", "24 in")),
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
        Field(
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
        Field("hooks", Number(2, 12, whole=True), "Hook holes in a filter lid.", "4", default="4"),
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
        Field("name", Words(40), "Name of the port.", "filter A", required=True),
        Field("kind", Choice(("filter", "inspection", "gauge")), "What it is for.", "filter", required=True),
        Field("face", Choice(FACES), "The face it is cut into.", "bottom", required=True),
        Field(
            "pail",
            PAIL,
            "The pail its collar is cut from, as measured.",
            "{across: [11-27/32 in, 11.88 in, 11-7/8 in]}",
        ),
        Field("across", PLACE, "From the face's left edge (seen from outside) to the middle.", "11 in"),
        Field("up", PLACE, "From the face's lower edge to the middle.", "9 in"),
        Field(
            "closure", CLOSURE, "Ring and lid of this port, where they differ from the common ones.", "{lid: 12-1/4 in}"
        ),
    )
)
PORTS = ListOf(PORT, fewest=1, most=60)
