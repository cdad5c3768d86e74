"""Fields of the gauge, the shop's methods and the shopping."""

from __future__ import annotations

from calc import project as p
from packet.fields.box import make_size
from packet.fields.model import Group, Key, MapOf, Number, OwnText, Ratio, Value, YesNo, choose

CLEAN_WHEN = Group(
    (
        Key(
            "flow_drops",
            Value("share", "1 %", "60 %", ("5 %", "25 %")),
            "Clean when the flow has dropped by this much, if nothing else is lost before.",
            "12 %",
            required=True,
        ),
    ),
    words=("first need missed",),
)
GAUGE = Group(
    (
        Key(
            "kind",
            choose(p.Gauge, "kind"),
            "Kind of water gauge.",
            "u-tube",
            default="u-tube",
        ),
        Key(
            "fluid",
            choose(p.Gauge, "fluid"),
            "What is in it.",
            "dyed water",
            default="dyed water",
        ),
        Key("read_at", OwnText(60, of="machine"), "The machine whose gate alone is open when it is read.", "planer"),
        Key(
            "clean_when",
            CLEAN_WHEN,
            "When the gauge should say clean me: at a drop in flow, or at the first thing lost (a machine's need, an "
            "air speed, the media's limit, the most dust pleats hold), whichever comes first. "
            "'first need missed' leaves the drop in flow out.",
            "{flow_drops: 12 %}",
            into=("clean_flow_drop",),
        ),
        Key("slope", Ratio(0.02, 1.0), "Inclined only: rise to length of the tube.", "1:5"),
        make_size("tube_bore", "Inside diameter of the tube.", "1/4 in", "1 mm", "30 mm", default="6 mm"),
        make_size("well_bore", "Well type only: inside diameter of the well.", "2 in", "10 mm", "300 mm"),
        Key("mount", choose(p.Gauge, "mount"), "Where the gauge hangs.", "wall", default="wall"),
        make_size(
            "fitting_hole", "Hole for the hose fitting in the gauge lid.", "3/8 in", "2 mm", "40 mm", default="9.5 mm"
        ),
        make_size("tube_length", "Length of clear tube on hand.", "10 ft", "100 mm", "30 m"),
        Key(
            "clean",
            Value("pressure_pa", "0.02 inH2O", "80 inH2O"),
            "Where no air is sized: what it reads at the box that stands, filters clean.",
            "1.1 inH2O",
            into=("clean_pa",),
        ),
        Key(
            "clean_me",
            Value("pressure_pa", "0.02 inH2O", "80 inH2O"),
            "Where no air is sized: the reading to clean at. Not given: worked out of blower and filters.",
            "2.6 inH2O",
            into=("clean_me_pa",),
        ),
        Key(
            "most",
            Value("pressure_pa", "0.02 inH2O", "80 inH2O"),
            "Where no blower is given: the highest it can read, all gates shut.",
            "12 inH2O",
            into=("most_pa",),
        ),
    ),
    short="kind",
)

METHODS = Group(
    (
        Key(
            "holes",
            choose(p.Methods, "holes"),
            "How the large holes are cut.",
            "jigsaw",
            default="jigsaw",
        ),
        Key("lids", choose(p.Methods, "lids"), "How the lids are cut.", "hand", default="hand"),
        Key(
            "panels",
            choose(p.Methods, "panels"),
            "How the panels are cut.",
            "track saw",
            default="track saw",
        ),
        Key("seal", choose(p.Methods, "seal"), "How filters seal on their lids.", "sealant", default="sealant"),
        Key("helper", YesNo(), "A second person helps.", "yes", default="no"),
        make_size("kerf", "Width of the saw cut.", "1/8 in", "0 mm", "8 mm", default="3 mm"),
        make_size("bit", "Diameter of the router bit.", "1/4 in", "1 mm", "25 mm", default="6.35 mm"),
        make_size(
            "allowance", "First cut this far inside the final line.", "1/16 in", "0 mm", "6 mm", default="1.6 mm"
        ),
        make_size(
            "jigsaw_base",
            "From the edge of the jigsaw's base to the near side of its blade.",
            "1-1/2 in",
            "5 mm",
            "100 mm",
            into="base_mm",
        ),
        make_size("bead", "Thickness of a bead of sealant.", "1/4 in", "1 mm", "20 mm", default="6 mm"),
        make_size(
            "screw_spacing", "Largest distance between panel screws.", "6 in", "25 mm", "600 mm", default="150 mm"
        ),
        Key(
            "lift_limit",
            Value("mass_kg", "2 kg", "60 kg", ("10 kg", "30 kg")),
            "What one person should lift.",
            "50 lb",
            default="50 lb",
        ),
        Key("material_lift", YesNo(), "A material lift is there or can be hired.", "no", default="yes"),
    )
)

PRICES = MapOf(Number(0.0, 1e6, money=True))
ON_HAND = MapOf(Number(0.0, 1e6))
BUY_AT = MapOf(OwnText(120))
MONEY = OwnText(8)
