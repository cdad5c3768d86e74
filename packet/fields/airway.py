"""Fields of the way of the air: blower, separator, ducts, machines."""

from __future__ import annotations

from calc import project as p
from packet.fields.model import (
    Group,
    Key,
    ListOf,
    MapOf,
    Number,
    OwnText,
    Pair,
    TwoLengths,
    Value,
    ValueAt,
    Variants,
    YesNo,
    choose,
)

FLOW = Value("flow_m3s", "1 cfm", "20000 cfm", ("60 cfm", "5000 cfm"))
CURVE_FLOW = Value("flow_m3s", "0 cfm", "20000 cfm")
SHAFT_POWER = Value("power_w", "0.01 hp", "75 hp")
PRESSURE = Value("pressure_pa", "0 inH2O", "80 inH2O")
DIAMETER = Value("length_m", "1 in", "36 in", ("2 in", "14 in"))
LENGTH = Value("length_m", "0.1 in", "500 ft", ("1 in", "100 ft"))
LOSS = ValueAt(Value("pressure_pa", "0.001 inH2O", "40 inH2O"), Value("flow_m3s", "1 cfm", "20000 cfm"))
COEFFICIENT = Number(0.0, 500.0)
EITHER_LOSS = "A loss at a flow, at standard air, or a coefficient times velocity pressure: one of the two."


def make_loss(about: str, example: str) -> Key:
    """Return the field for a loss at a flow."""
    return Key("loss", LOSS, about, example, into=("loss_pa", "loss_at_m3s"))


# --- blower and separator ---------------------------------------------------------------------------------------------

CURVE = ListOf(Pair(CURVE_FLOW, PRESSURE), fewest=2, most=100, single=False)
RATING = Group(
    (
        Key(
            "free_flow", FLOW, "Flow with nothing connected: the large number of the plate.", "1500 cfm", required=True
        ),
        Key(
            "shut_off",
            Value("pressure_pa", "0.1 inH2O", "80 inH2O", ("3 inH2O", "25 inH2O")),
            "Pressure with the inlet closed: the other number of the plate.",
            "11.6 inH2O",
            required=True,
        ),
        Key(
            "assume_curve",
            YesNo(),
            "Yes: draw a curve between the two ends. It is a guess and the packet says so.",
            "yes",
            required=True,
        ),
    )
)
BLOWER = Group(
    (
        Key(
            "curve_is",
            choose(p.Blower, "curve_is"),
            "Which pressure the maker's curve shows.",
            "static",
            default="static",
            assume=True,
        ),
        Key(
            "curve",
            CURVE,
            "The maker's curve as [flow, pressure] points by rising flow, from shut-off to free flow.",
            "[[0 cfm, 11.6 inH2O], [800 cfm, 10.0 inH2O], [1500 cfm, 2.4 inH2O]]",
        ),
        Key(
            "rating",
            RATING,
            "Only the plate's two numbers are known. They are the two ends of the curve, not one point.",
            "{free_flow: 1500 cfm, shut_off: 11.6 inH2O, assume_curve: yes}",
            into=("curve", "from_rating"),
        ),
        Key("outlet", DIAMETER, "Inside diameter of the blower's outlet.", "8 in", required=True),
        Key("inlet", DIAMETER, "Inside diameter of the blower's inlet.", "8 in"),
        Key(
            "power",
            Value("power_w", "0.05 hp", "50 hp", ("0.5 hp", "15 hp")),
            "Motor power on the plate.",
            "3 hp",
            required=True,
        ),
        Key(
            "curve_density",
            Value("density_kgm3", "0.5 kg/m3", "1.6 kg/m3"),
            "Air density the curve was drawn for, if not standard air.",
            "0.075 lb/ft3",
        ),
        Key(
            "curve_speed",
            Value("rotation_hz", "100 rpm", "20000 rpm"),
            "Wheel speed the curve was drawn for.",
            "3450 rpm",
        ),
        Key("runs_at", Value("rotation_hz", "100 rpm", "20000 rpm"), "Wheel speed as built, if another.", "3450 rpm"),
        Key(
            "sound",
            ValueAt(Value("sound_db", "20 dB", "140 dB", ("60 dB", "110 dB")), Value("length_m", "0.3 m", "100 m")),
            "Level with plain duct, at a distance.",
            "86 dB at 5 ft",
            into=("sound_db", "sound_at_m"),
        ),
        Key(
            "sound_bands",
            MapOf(Value("sound_db", "0 dB", "140 dB"), keys="bands"),
            "Level by octave band, unweighted (dB, not dBA), at that distance. Bands left out are a usual blower's.",
            "{125: 80 dB, 250: 82 dB}",
        ),
        Key(
            "wheel",
            choose(p.Blower, "wheel"),
            "How the blades lean, which decides how power at the shaft runs with flow. Not said: the worst is taken.",
            "radial",
        ),
        Key(
            "power_curve",
            ListOf(Pair(CURVE_FLOW, SHAFT_POWER), fewest=2, most=100, single=False),
            "The maker's power at the shaft (brake horsepower) as [flow, power] points by rising flow.",
            "[[0 cfm, 1.2 hp], [800 cfm, 2.3 hp], [1500 cfm, 3.1 hp]]",
        ),
        Key(
            "past_box",
            ValueAt(Value("sound_db", "20 dB", "140 dB", ("50 dB", "100 dB")), Value("length_m", "0.3 m", "100 m")),
            "Level of what goes past any filter box (casing, motor, ducts): measured, outlet led out of the room. "
            "Not given: 10 dB below the whole, from 5 to 15 (common practice, no source).",
            "76 dB at 5 ft",
            into=("past_box_db", "past_box_at_m"),
        ),
        Key(
            "efficiency",
            Value("share", "10 %", "90 %", ("30 %", "75 %")),
            "Air power over shaft power, where it is best on the curve.",
            "55 %",
            default="55 %",
            assume=True,
        ),
        Key("weight", Value("mass_kg", "1 lb", "2000 lb"), "Weight of blower and motor.", "110 lb"),
        Key(
            "stands_on",
            choose(p.Blower, "stands_on"),
            "What carries the blower; cart: it stands on the base of the box's cart.",
            "floor",
            default="floor",
        ),
        Key("footprint", TwoLengths("3 in", "8 ft"), "What it takes where it stands, across x deep.", "16 x 18 in"),
        Key("height", Value("length_mm", "3 in", "10 ft"), "Height of blower and motor.", "17 in"),
        Key("motor_top", Value("length_mm", "1 ft", "40 ft"), "Floor to the top of the motor.", "7 ft 2 in"),
    )
)

OPENING = Group(
    (
        Key("diameter", DIAMETER, "A round inlet.", "8 in"),
        Key("width", DIAMETER, "Width of a rectangular inlet.", "4 in"),
        Key("height", DIAMETER, "Height of a rectangular inlet.", "8 in"),
    ),
    short="diameter",
)
SEPARATOR = Group(
    (
        Key(
            "kind",
            choose(p.Separator, "kind"),
            "What takes the chips out before the filter.",
            "cyclone",
            required=True,
        ),
        Key(
            "captures",
            Value("share", "0 %", "100 %", ("50 %", "99.9 %")),
            "Share of the dust's weight it keeps.",
            "98.5 %",
        ),
        make_loss(EITHER_LOSS, "2.0 inH2O at 800 cfm"),
        Key("coefficient", COEFFICIENT, "Loss over the velocity pressure in its inlet.", "5.5"),
        Key("inlet", OPENING, "Its inlet.", "8 in", into=("inlet_diameter_m", "inlet_width_m", "inlet_height_m")),
        Key(
            "body",
            Value("length_m", "4 in", "6 ft"),
            "Diameter of the cyclone's body. Where turns is not given, the turns are estimated from it.",
            "18 in",
            into=("body_diameter_m",),
        ),
        Key(
            "turns",
            Number(1.0, 20.0),
            "Effective turns of the air in the cyclone, for an estimate of what it catches.",
            "5",
        ),
        Key(
            "bin",
            Value("volume_m3", "0.5 gal", "300 gal", ("3 gal", "100 gal")),
            "What its bin holds to the brim. Usual: 30 gal.",
            "30 gal",
            into=("bin_m3",),
        ),
    ),
    short="kind",
)

# --- pieces of duct ---------------------------------------------------------------------------------------------------

COUNT = Key("count", Number(1, 20, whole=True), "How many of them.", "2", default="1")
MATERIAL_WORDS = (("galvanized", "galvanised"), ("aluminum", "aluminium"))


def make_diameter(key: str, about: str) -> Key:
    return Key(key, DIAMETER, about, "6 in", required=True, into=("diameter_m",))


PIECE = Variants(
    {
        "pipe": Group(
            (
                make_diameter("pipe", "Straight pipe; its inside diameter."),
                Key("length", LENGTH, "Length of pipe.", "12 ft", required=True),
                Key(
                    "material",
                    choose(p.Pipe, "material", MATERIAL_WORDS),
                    "What it is made of.",
                    "galvanised",
                    default="galvanised",
                ),
            )
        ),
        "hose": Group(
            (
                make_diameter("hose", "Flexible hose; its inside diameter."),
                Key("length", LENGTH, "Length as installed.", "5 ft", required=True),
                Key(
                    "stretched",
                    LENGTH,
                    "Its length stretched out straight, if it hangs slack. Slack hose loses several times more.",
                    "7 ft",
                ),
                Key("wall", choose(p.Hose, "wall"), "Its inside wall.", "ribbed", default="ribbed"),
            )
        ),
        "elbow": Group(
            (
                make_diameter("elbow", "A bend; its inside diameter."),
                Key(
                    "turn",
                    Value("angle_deg", "5 deg", "180 deg", ("15 deg", "90 deg")),
                    "How far it turns.",
                    "90 deg",
                    default="90 deg",
                ),
                Key(
                    "radius",
                    Number(0.5, 10.0, usual=(0.75, 4.0)),
                    "Centreline radius over diameter.",
                    "1.5",
                    default="1.5",
                    into=("radius_ratio",),
                ),
                Key("make", choose(p.Elbow, "make"), "How it is made.", "5-piece", default="5-piece"),
                COUNT,
            )
        ),
        "taper": Group(
            (
                Key(
                    "taper",
                    ListOf(DIAMETER, 2, 2, single=False),
                    "A change of diameter, in the direction of the air: [from, to].",
                    "[5 in, 6 in]",
                    required=True,
                    into=("from_m", "to_m"),
                ),
                Key(
                    "angle",
                    Value("angle_deg", "1 deg", "180 deg", ("5 deg", "90 deg")),
                    "Full angle between its sides; 180 deg is a sudden step.",
                    "30 deg",
                    default="30 deg",
                ),
            )
        ),
        "throat": Group(
            (
                make_diameter("throat", "The machine's own port where it is narrower than the duct."),
                Key("length", LENGTH, "Its length.", "4 in", default="4 in"),
            )
        ),
        "gate": Group(
            (make_diameter("gate", "A further open gate in the run; the gate that closes a machine is its own key."),)
        ),
        "part": Group(
            (
                Key(
                    "part",
                    OwnText(60),
                    "Silencer, screen or another part, by its own loss.",
                    "silencer",
                    required=True,
                    into=("name",),
                ),
                Key("diameter", DIAMETER, "Its inside diameter.", "8 in", required=True),
                make_loss(EITHER_LOSS, "0.3 inH2O at 800 cfm"),
                Key("coefficient", COEFFICIENT, "Loss over velocity pressure.", "0.8"),
            )
        ),
    }
)
PIECES = ListOf(PIECE, most=60)

JOIN_ANGLE = Value("angle_deg", "5 deg", "90 deg")
JOIN = Variants(
    {
        "wye": Group((Key("wye", JOIN_ANGLE, "A branch that enters at an angle.", "45 deg", required=True),)),
        "tee": Group((Key("tee", JOIN_ANGLE, "A branch that enters square.", "90 deg", required=True),)),
    },
    words=("straight", "wye", "tee"),
    what="join",
)
JOIN_FIELD = Key("join", JOIN, "How it enters the run it joins; straight is the through way.", "{wye: 45 deg}")

PICKUPS_JOIN = Variants(JOIN.cases, words=("wye", "tee"), what="join")
"""Of the pickups of one machine one goes straight on by itself."""

RUN = Group(
    (
        Key("into", OwnText(60, of="run or separator"), "The run it joins, or: separator.", "trunk", required=True),
        JOIN_FIELD,
        Key(
            "pieces",
            PIECES,
            "Its pieces, from the machines' end to the blower's end.",
            "[{pipe: 6 in, length: 12 ft}]",
            required=True,
        ),
        Key(
            "leakage_class",
            Number(0.0, 200.0, usual=(0.0, 48.0)),
            "Leakage of its seams, cfm per 100 ft2 at 1 inH2O; 0 is sealed.",
            "12",
            default="0",
        ),
    )
)
DUCTS = MapOf(RUN, fewest=1, most=200)

# --- machines ---------------------------------------------------------------------------------------------------------

HOOD = Group(
    (
        Key(
            "kind",
            choose(p.Hood, "kind"),
            "Shape of the opening. cabinet: a closed housing; given: by its own coefficient.",
            "plain",
            default="plain",
        ),
        Key("diameter", DIAMETER, "Diameter of the port. Not given: that of the first piece.", "5 in"),
        Key("angle", Value("angle_deg", "5 deg", "180 deg"), "Full angle of a tapered hood.", "90 deg"),
        Key("rectangular", YesNo(), "The tapered hood is rectangular.", "no", default="no"),
        Key(
            "opening",
            Value("area_m2", "0.1 in2", "50 ft2"),
            "Free area through which air gets into a cabinet or slot.",
            "20 in2",
        ),
        Key("coefficient", COEFFICIENT, "Entry loss over velocity pressure, for a given hood.", "0.9"),
    ),
    short="kind",
)
PICKUP = Group(
    (
        Key("name", OwnText(60), "Name of this pickup.", "blade guard", required=True),
        Key("hood", HOOD, "Where the air enters.", "{kind: plain, diameter: 3 in}"),
        Key("pieces", PIECES, "Its own pieces, in the direction of the air.", "[{hose: 3 in, length: 6 ft}]"),
    )
)
GATE = Group(
    (
        Key("diameter", DIAMETER, "Diameter of the gate.", "6 in", required=True),
        Key(
            "leak",
            Value("area_m2", "0 in2", "10 in2", ("0 in2", "0.5 in2")),
            "Effective leak area when shut: the gaps' own area times 0.6.",
            "0.03 in2",
            default="0 in2",
        ),
    ),
    short="diameter",
    words=("none",),
)
MACHINE = Group(
    (
        Key("name", OwnText(60), "Name of the machine.", "planer", required=True),
        Key("on", OwnText(60, of="run"), "The run its branch joins.", "north", required=True),
        Key("needs", FLOW, "Air it needs.", "600 cfm", required=True),
        Key(
            "hood",
            HOOD,
            "Where the air enters, if it has one port.",
            "{kind: plain, diameter: 5 in}",
            into=("pickups",),
        ),
        Key(
            "pickups",
            ListOf(PICKUP, 1, 8),
            "Where the air enters, if it has several ports.",
            "[{name: cabinet, hood: cabinet, pieces: [{hose: 4 in, length: 5 ft}]}]",
        ),
        Key(
            "pieces",
            PIECES,
            "Pieces between its port (or where its pickups meet) and its gate.",
            "[{hose: 5 in, length: 5 ft}]",
        ),
        Key("gate", GATE, "The gate that closes it. none, or not given: it is always open.", "6 in"),
        Key(
            "moved",
            YesNo(),
            "Its hose is moved by hand: one hose for all machines of its run marked so, on one of them at a time.",
            "yes",
            default="no",
        ),
        JOIN_FIELD,
        Key(
            "pickups_join",
            PICKUPS_JOIN,
            "How its pickups meet: the widest goes straight on, the others enter it so. Not given: a wye of 45 deg.",
            "{wye: 30 deg}",
        ),
        Key(
            "dust",
            Value("mass_rate_kgs", "0 lb/h", "500 lb/h", ("0 lb/h", "100 lb/h")),
            "What it makes, if known. Where dust.made is not given, the mean of these is taken.",
            "4 lb/h",
        ),
        Key("fine_dust", YesNo(), "A sander: lighter dust.", "no", default="no"),
        Key(
            "speed",
            Value("speed_ms", "500 fpm", "8000 fpm", ("2500 fpm", "5000 fpm")),
            "Its own air speed to keep.",
            "3500 fpm",
        ),
    )
)
GATE_SET = Group(
    (
        Key("name", OwnText(60), "Name of the set.", "two at the planer end", required=True),
        Key(
            "open",
            ListOf(OwnText(60, of="machine"), 1, 50),
            "Machines whose gates stand open together.",
            "[planer, jointer]",
            required=True,
        ),
    )
)
