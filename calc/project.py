"""What a project file means: the typed, frozen project.

No YAML, no file, no reader's units. Air, ducts and heat are in SI (``_m``, ``_m3s``, ``_pa`` ...); sizes that are
measured with a tape and cut with a saw are in millimetres (``_mm``). Fractions such as a capture of 98 % are 0.98.
A value of None means the file does not say; the docstring tells what happens then.
"""

from __future__ import annotations

import datetime
from collections.abc import Mapping
from dataclasses import dataclass, field
from types import MappingProxyType
from typing import Literal

from calc.measures.kinds import Reader

System = Literal["inch", "metric"]
Face = Literal["top", "bottom", "front", "back", "left", "right"]
FACES: tuple[Face, ...] = ("top", "bottom", "front", "back", "left", "right")
Appliance = Literal[
    "unknown", "natural draught", "water heater", "solid fuel", "boiler", "furnace", "induced draught", "power vented",
    "sealed", "none",
]  # fmt: skip
"""A heater with a flue in the room's air, the most easily drawn back first; ``unknown``: its kind is not told."""


# --- the sheet itself -------------------------------------------------------------------------------------------------


@dataclass(frozen=True)
class Title:
    title: str
    revision: str
    date: datetime.date
    drawn_by: str
    notes: tuple[str, ...] = ()


@dataclass(frozen=True)
class Paper:
    """One sheet of paper, upright. margin_mm: what the printer cannot reach plus room to trim."""

    name: str
    width_mm: float
    height_mm: float
    margin_mm: float = 9.0
    overlap_mm: float = 10.0


@dataclass(frozen=True, kw_only=True)
class Display:
    """How the reader wants to see things.

    system: how the shop measures and buys: sizes of ducts, screws and sheets are chosen by it
    shown_in: units that this print is written in, where others are asked for; nothing but words hangs on it
    fraction: smallest fraction of an inch, as its denominator (32 means 1/32 in)
    language: as the project file calls it; empty: that of the house
    printer_x, printer_y: what the printer makes of a length of 1, across and down the sheet (0.97 .. 1.03)
    most_sheets: a drawing that needs more template sheets than this is refused
    extra_templates: test discs and reinforcing rings get sheets of their own, else they share the holes' sheets; holes
    and lids that a jig or a machine cuts are printed too
    """

    system: System
    paper: Paper
    fraction: int = 32
    language: str = ""
    printer_x: float = 1.0
    printer_y: float = 1.0
    most_sheets: int = 24
    extra_templates: bool = False
    shown_in: System | None = None

    @property
    def reader(self) -> Reader:
        """The units, fractions and language that words are written in."""
        return Reader(self.shown_in or self.system, self.fraction, self.language)

    @property
    def buyer(self) -> Reader:
        """The same for what is bought: sizes as sold, by which things are known and priced."""
        return Reader(self.system, self.fraction, self.language)


# --- the shop ---------------------------------------------------------------------------------------------------------


@dataclass(frozen=True, kw_only=True)
class Shop:
    """The room. clean_air: where the filtered air goes; flued_appliance: the heater with a flue that shares its air.

    appliance_draught_pa: how far below outdoors the file lets the room fall, e.g. 2 Pa
    make_up_opening_m2: free area of the opening to outdoors that is there
    """

    altitude_m: float
    temperature_k: float
    humidity: float
    ceiling_mm: float | None = None
    doorway_width_mm: float | None = None
    doorway_height_mm: float | None = None
    room_width_m: float | None = None
    room_depth_m: float | None = None
    barometer_pa: float | None = None
    clean_air: Literal["indoors", "outdoors"] = "indoors"
    flued_appliance: Appliance = "none"
    appliance_draught_pa: float | None = None
    make_up_opening_m2: float | None = None

    @property
    def has_flue(self) -> bool:
        """Whether a heater with a flue shares the room's air."""
        return self.flued_appliance != "none"

    @property
    def draws_on_flue(self) -> bool:
        """Whether the collector blows air outdoors that a flue in the same room can give back."""
        return self.has_flue and self.clean_air == "outdoors"


@dataclass(frozen=True, kw_only=True)
class Room(Shop):
    """A shop whose ceiling [mm] is known: there a box can be hung."""

    ceiling_mm: float = field()


@dataclass(frozen=True, kw_only=True)
class Dust:
    """What is made and how it travels.

    made_kgs: dust and chips made while machines run; hours_a_day: hours of machine running a working day
    branch_speed_ms, main_speed_ms: transport velocity to keep
    bulk_kgm3: how heavy it lies; to_pleats: share of what comes into the box that clings to the pleats, the rest
    falls into the pails. None of these: as usual, with a wide band
    """

    made_kgs: float
    hours_a_day: float
    branch_speed_ms: float
    main_speed_ms: float
    woods: tuple[Literal["softwood", "hardwood", "cedar", "mdf", "plywood", "green wood"], ...] = ("hardwood",)
    speed_source: str = ""
    bulk_kgm3: float | None = None
    to_pleats: float | None = None


@dataclass(frozen=True)
class NoiseSource:
    name: str
    level_db: float


@dataclass(frozen=True)
class Protector:
    """Hearing protection that is worn at the machines: its kind, and the rating [dB] on its pack, NRR or SNR."""

    kind: Literal["earmuffs", "formable plugs", "other plugs"]
    rating_db: float
    rating_is: Literal["NRR", "SNR"]


@dataclass(frozen=True)
class Noise:
    """Other noise at the operator's ear, and the hours a day in it. ear_m: from blower or box to the ear."""

    ear_m: float = 2.0
    hours_a_day: float = 4.0
    others: tuple[NoiseSource, ...] = ()
    protector: Protector | None = None


# --- the air mover ----------------------------------------------------------------------------------------------------


@dataclass(frozen=True)
class CurvePoint:
    flow_m3s: float
    pressure_pa: float


@dataclass(frozen=True)
class PowerPoint:
    """A point of a maker's power curve: power at the shaft, what makers call brake horsepower."""

    flow_m3s: float
    power_w: float


WheelKind = Literal["radial", "forward", "backward"]


@dataclass(frozen=True, kw_only=True)
class Blower:
    """The blower and its curve (points by rising flow).

    curve_is: pressure of the curve, ``static`` or ``total``
    curve_density: density [kg/m3] the curve is drawn for; standard air unless the file says otherwise
    curve_speed, runs_at: speeds [1/s] of the curve and of the motor as built, when both are known
    from_rating: the curve was drawn between free flow and shut-off as a stated assumption, not measured
    sound_db at sound_at_m: level [dBA] with plain duct; sound_bands_db: unweighted, at the same place
    past_box_db at past_box_at_m: level [dBA] of casing, motor and ducts alone, which no box takes away
    wheel: how its blades lean, which decides how shaft power runs with flow; None: not known
    efficiency: air power over shaft power, where on the curve it is best
    power_curve: the maker's, by rising flow, at the curve's density and speed; then wheel and efficiency decide nothing
    """

    curve: tuple[CurvePoint, ...]
    curve_is: Literal["static", "total"]
    outlet_m: float
    power_w: float
    inlet_m: float | None = None
    curve_density: float = 1.2013847530470112
    curve_speed: float | None = None
    runs_at: float | None = None
    from_rating: bool = False
    sound_db: float | None = None
    sound_at_m: float | None = None
    sound_bands_db: Mapping[int, float] = field(default_factory=lambda: MappingProxyType({}))
    wheel: WheelKind | None = None
    past_box_db: float | None = None
    past_box_at_m: float | None = None
    efficiency: float = 0.55
    power_curve: tuple[PowerPoint, ...] = ()
    weight_kg: float | None = None
    motor_top_mm: float | None = None  # floor to the top of the motor, for the ceiling check
    stands_on: Literal["floor", "wall", "cart"] = "floor"  # cart: on the base of the box's cart, beside the box
    footprint_mm: tuple[float, float] | None = None  # what it takes there, across and deep; None: by its outlet
    height_mm: float | None = None  # of blower and motor; None: by its outlet


@dataclass(frozen=True, kw_only=True)
class Separator:
    """Cyclone, drop box or none. Loss as pressure at a flow (at standard air) or as coefficient on its inlet."""

    kind: Literal["cyclone", "drop box", "none"]
    captures: float | None = None
    loss_pa: float | None = None
    loss_at_m3s: float | None = None
    coefficient: float | None = None
    inlet_width_m: float | None = None
    inlet_height_m: float | None = None
    inlet_diameter_m: float | None = None
    body_diameter_m: float | None = None
    turns: float | None = None  # effective turns, for the cut size estimate
    bin_m3: float | None = None  # what its bin holds to the brim


# --- ducts ------------------------------------------------------------------------------------------------------------

DuctMaterial = Literal["galvanised", "spiral", "steel", "aluminium", "pvc"]
ElbowMake = Literal["smooth", "5-piece", "4-piece", "3-piece", "pleated", "mitred", "pvc short"]


@dataclass(frozen=True)
class Pipe:
    diameter_m: float
    length_m: float
    material: DuctMaterial = "galvanised"


@dataclass(frozen=True)
class Hose:
    """diameter_m is the inside; stretched_m is its length stretched out straight (None: it is installed so).

    left_out: the file lists none where one must be (see calc.airflow.completing)
    """

    diameter_m: float
    length_m: float
    stretched_m: float | None = None
    wall: Literal["smooth", "ribbed"] = "ribbed"
    left_out: bool = False


@dataclass(frozen=True)
class Elbow:
    """radius_ratio: centreline radius over diameter."""

    diameter_m: float
    turn_deg: float = 90.0
    radius_ratio: float = 1.5
    make: ElbowMake = "5-piece"
    count: int = 1


@dataclass(frozen=True)
class Taper:
    """A change of diameter in the direction of the air; angle is the full included angle (None: sudden).

    left_out: pieces of unlike size meet here and the file lists nothing between them (see calc.airflow.completing)
    """

    from_m: float
    to_m: float
    angle_deg: float | None = 30.0
    left_out: bool = False


@dataclass(frozen=True)
class Throat:
    """The machine's own port, when it is narrower than the duct behind it."""

    diameter_m: float
    length_m: float = 0.1


@dataclass(frozen=True)
class OpenGate:
    """A gate in the piece list: what it costs when open. (The gate that closes the machine is Machine.gate.)"""

    diameter_m: float


@dataclass(frozen=True)
class OtherPart:
    """Silencer, screen, spark trap ...: loss at a flow (standard air), or a coefficient on diameter_m."""

    name: str
    diameter_m: float
    loss_pa: float | None = None
    loss_at_m3s: float | None = None
    coefficient: float | None = None


Piece = Pipe | Hose | Elbow | Taper | Throat | OpenGate | OtherPart


@dataclass(frozen=True)
class Join:
    """How a run or machine enters the upstream end of the run it joins. ``straight`` is the through way."""

    kind: Literal["wye", "tee", "straight"] = "wye"
    angle_deg: float = 45.0


@dataclass(frozen=True)
class Run:
    """A stretch of duct with the same air all along it; pieces from the machines' end to the blower's end.

    into: name of the run it joins, or ``separator``
    leakage_class: duct seams, ASHRAE/SMACNA leakage class (cfm per 100 ft2 at 1 inH2O); 0 is sealed
    """

    name: str
    into: str
    pieces: tuple[Piece, ...]
    join: Join = Join()
    leakage_class: float = 0.0


HoodKind = Literal["plain", "flanged", "bellmouth", "tapered", "booth", "slot", "cabinet", "given"]


@dataclass(frozen=True, kw_only=True)
class Hood:
    """Where the air enters.

    kind: ``plain`` duct end, ``flanged``, ``bellmouth``, ``tapered``, ``booth``, ``slot``, ``cabinet`` (machine
    housing: air must first get in through an opening), or ``given`` with its own coefficient on diameter_m
    opening_m2: free inlet area of a cabinet or slot; angle_deg: included angle of a tapered hood
    """

    kind: HoodKind
    diameter_m: float
    angle_deg: float | None = None
    rectangular: bool = False
    opening_m2: float | None = None
    coefficient: float | None = None


@dataclass(frozen=True)
class Pickup:
    """One of a machine's collecting points: hood, then pieces in the direction of the air."""

    name: str
    hood: Hood
    pieces: tuple[Piece, ...] = ()


@dataclass(frozen=True)
class Gate:
    """The gate that closes a machine. leak_m2: effective leak area when shut (gap area times 0.6)."""

    diameter_m: float
    leak_m2: float = 0.0


@dataclass(frozen=True, kw_only=True)
class Machine:
    """A machine: pickups join, then pieces (shared), then the gate, then the run it is on.

    gate: None: nothing closes it, it draws air whatever else is open
    moved: it has the hose that is moved by hand among all machines of its run that are so marked, one at a time
    pickups_join: how all its pickups but the widest, which goes straight on, enter where they meet
    behind_gate: the reducer between gate and run that the file leaves out (see calc.airflow.completing)
    """

    name: str
    on: str
    needs_m3s: float
    pickups: tuple[Pickup, ...]
    pieces: tuple[Piece, ...] = ()
    gate: Gate | None = None
    moved: bool = False
    join: Join = Join()
    pickups_join: Join = Join()
    behind_gate: tuple[Piece, ...] = ()
    dust_kgs: float | None = None
    fine_dust: bool = False  # sanders: lighter dust, lower transport velocity is enough
    speed_ms: float | None = None  # own transport velocity

    @property
    def all_pieces(self) -> tuple[Piece, ...]:
        """The pieces of the drop, those of its pickups among them."""
        own = (piece for pickup in self.pickups for piece in pickup.pieces)
        return (*self.pieces, *self.behind_gate, *own)


@dataclass(frozen=True)
class GateSet:
    name: str
    open: tuple[str, ...]


# --- filters and the box ----------------------------------------------------------------------------------------------


@dataclass(frozen=True, kw_only=True)
class Cartridge:
    """One kind of cartridge, `count` of them, as it is held in the hand: what box and lids need of it."""

    count: int
    outside_mm: float
    bore_mm: float
    height_mm: float
    weight_kg: float
    gasket_outside_mm: float | None = None
    gasket_inside_mm: float | None = None
    gasket_thick_mm: float = 6.0
    name: str = "filter"


@dataclass(frozen=True, kw_only=True)
class Filter(Cartridge):
    """A cartridge with what its media do to the air.

    Clean loss: permeability_ms [m/s] at permeability_pa (ASTM D737 meaning), or loss_pa at loss_at_m3s (one filter)
    cake_resistance [1/s]: specific resistance K2 of the dust cake, pressure per (face velocity x areal load)
    residual: share of the areal load that stays after cleaning; most_pa: media limit
    working_area: share of the pleated area that air and dust reach; dust_fills: share of the ring between bore and
    outside that dust may fill. None of these: as usual, with a band
    """

    media_m2: float
    permeability_ms: float | None = None
    permeability_pa: float | None = None
    loss_pa: float | None = None
    loss_at_m3s: float | None = None
    cake_resistance: float | None = None
    residual: float = 0.2
    most_pa: float | None = None
    working_area: float | None = None
    dust_fills: float | None = None
    grade: str = ""


@dataclass(frozen=True)
class Sheet:
    """A whole sheet as bought, or an offcut on hand."""

    length_mm: float
    width_mm: float


@dataclass(frozen=True, kw_only=True)
class Panel:
    """Panel stock. thickness_mm as measured (nominal_mm as sold). None of the moduli: by stock name.

    bending_pa, across_pa: in bending, along and across the face grain
    """

    stock: str
    thickness_mm: float
    nominal_mm: float
    sheet: Sheet = Sheet(2440.0, 1220.0)
    bending_pa: float | None = None
    across_pa: float | None = None
    density: float | None = None
    grain_matters: bool = True
    offcuts: tuple[Sheet, ...] = ()


@dataclass(frozen=True)
class Inlet:
    """Duct into the box; across_mm, up_mm from the face's lower left corner (seen from outside), None: centred."""

    face: Face
    diameter_mm: float
    across_mm: float | None = None
    up_mm: float | None = None


@dataclass(frozen=True, kw_only=True)
class FilterBox:
    """Inside sizes before lining; None on all three: the smallest box that holds everything (``inside: auto``).

    hung: how it is held; underside_mm: floor to the underside of the box (None: ceiling less box less gap)
    removable: the face that screws on last, with a gasket
    most_pa: the highest pressure in it, where no blower says so
    """

    width_mm: float | None
    depth_mm: float | None
    height_mm: float | None
    panel: Panel
    inlet: Inlet
    hung: Literal["wall", "ceiling", "cart"] = "wall"
    joint: Literal["butt", "rabbet", "dado", "cleat"] = "butt"
    removable: Face = "front"
    underside_mm: float | None = None
    ceiling_gap_mm: float = 25.0
    cart_wheelbase_mm: float | None = None
    cart_weight_kg: float | None = None
    most_pa: float | None = None


@dataclass(frozen=True)
class Lining:
    stock: str
    thickness_mm: float
    faces: tuple[Face, ...]
    piece: Sheet | None = None  # roll or sheet as bought
    absorption: Mapping[int, float] = field(default_factory=lambda: MappingProxyType({}))  # octave band Hz -> 0..1


@dataclass(frozen=True, kw_only=True)
class Pail:
    """A pail as measured at the collar, outside, just below the ring: across (several angles), around, or both.

    Around gives the mean of an oval collar and is cut to where it is given; across tells how far it is out of round.

    top_mm, bottom_mm, height_mm: outside diameters of the whole pail, for its taper; wall_mm: plastic thickness
    """

    across_mm: tuple[float, ...] = ()
    around_mm: float | None = None
    top_mm: float = 302.0
    bottom_mm: float = 267.0
    height_mm: float = 368.0
    wall_mm: float = 2.3


@dataclass(frozen=True, kw_only=True)
class Closure:
    """The ring that snaps on a pail rim and the screw lid that turns into it.

    flange_mm: outside diameter of the ring's flange; screws on screw_circle_mm (None: midway hole to flange edge)
    lid_mm: lid outside; land_mm: flat width at the lid's rim for a gasket, measured inward from land_outside_mm
    hooks: hook holes in a filter lid, each hook_hole_mm, tangent to the edge at hook_edge_mm (diameter)
    grip_mm: clear space wanted round a lid to turn it by hand
    """

    flange_mm: float = 330.0
    flange_thick_mm: float = 4.0
    ring_height_mm: float = 38.0
    screws: int = 8
    screw_circle_mm: float | None = None
    lid_mm: float = 311.0
    lid_thick_mm: float = 3.0
    lid_height_mm: float = 25.0
    land_outside_mm: float = 268.0
    land_mm: float = 12.7
    hooks: int = 4
    hook_hole_mm: float = 15.9
    hook_edge_mm: float = 300.0
    rib_relief_mm: float = 8.0
    grip_mm: float = 60.0


@dataclass(frozen=True, kw_only=True)
class Opening:
    """A screw-on opening by itself: what it is for, its pail, its ring and lid; in which panel is not said.

    filter: which kind of filter hangs here, by its name; None: there is but one kind
    """

    name: str
    kind: Literal["filter", "inspection", "gauge"]
    pail: Pail
    closure: Closure = Closure()
    filter: str | None = None


@dataclass(frozen=True, kw_only=True)
class Port(Opening):
    """An opening in a face of the box. across_mm, up_mm from the face's lower left corner seen from outside."""

    face: Face
    across_mm: float | None = None
    up_mm: float | None = None


@dataclass(frozen=True, kw_only=True)
class Gauge:
    """The water gauge. read_at: machine whose gate alone is open (None: the one the sizing picks).

    clean_flow_drop: *clean me* when flow has dropped by this share, or when a machine's need, a transport velocity, the
    media's limit or the most dust pleats hold is met before, whichever comes first; None: the latter
    alone. slope: rise over length of an inclined tube.
    clean_pa, clean_me_pa, most_pa: readings at a box that stands: clean, *clean me*, and with all gates shut
    """

    kind: Literal["u-tube", "u-tube one leg", "inclined", "well"] = "u-tube"
    fluid: Literal["water", "dyed water", "glycol mix", "light oil"] = "dyed water"
    read_at: str | None = None
    clean_flow_drop: float | None = 0.12
    slope: float | None = None
    tube_bore_mm: float = 6.0
    well_bore_mm: float | None = None
    mount: Literal["wall", "lid"] = "wall"
    fitting_hole_mm: float = 9.5
    tube_length_mm: float | None = None
    clean_pa: float | None = None
    clean_me_pa: float | None = None
    most_pa: float | None = None


# --- making and buying ------------------------------------------------------------------------------------------------


@dataclass(frozen=True, kw_only=True)
class Methods:
    """How the shop works.

    allowance_mm: first cut stays this far (on the radius) inside the final line; about 1/16 in, so that the two lines
    stand clear of each other (common practice, no source)
    material_lift: one is there or can be hired
    base_mm: the jigsaw's own measure, from the edge of its base to the near side of its blade; None: not measured
    """

    holes: Literal["jigsaw", "router", "trammel", "hole saw", "cnc"] = "jigsaw"
    lids: Literal["hand", "cnc"] = "hand"
    panels: Literal["track saw", "table saw", "circular saw"] = "track saw"
    seal: Literal["sealant", "gasket"] = "sealant"
    helper: bool = False
    kerf_mm: float = 3.0
    bit_mm: float = 6.35
    allowance_mm: float = 1.6
    base_mm: float | None = None
    bead_mm: float = 6.0
    screw_spacing_mm: float = 150.0
    lift_limit_kg: float = 22.7
    material_lift: bool = True


@dataclass(frozen=True, kw_only=True)
class Given:
    """What the file says: a title, and of the job whatever parts are there. None, or nothing in a list: left out.

    Nothing stands in for a part that is left out: what needs it takes a type that has it, as ``Project`` does.

    panel: what the holes are cut into, where no box says it
    prices, on_hand, buy_at: by the name of an item in the bill, in the user's own words
    assumed: dotted paths of values that were assumed, not measured (``ports.filter A.pail``)
    """

    title: Title
    display: Display
    shop: Shop | None = None
    dust: Dust | None = None
    blower: Blower | None = None
    separator: Separator | None = None
    runs: tuple[Run, ...] = ()
    machines: tuple[Machine, ...] = ()
    filters: tuple[Cartridge, ...] = ()
    box: FilterBox | None = None
    panel: Panel | None = None
    ports: tuple[Opening, ...] = ()
    gauge: Gauge | None = None
    methods: Methods = Methods()
    noise: Noise | None = None
    lining: Lining | None = None
    link: tuple[Piece, ...] = ()
    delivery: tuple[Piece, ...] = ()
    gate_sets: tuple[GateSet, ...] = ()
    prices: Mapping[str, float] = field(default_factory=lambda: MappingProxyType({}))
    on_hand: Mapping[str, float] = field(default_factory=lambda: MappingProxyType({}))
    buy_at: Mapping[str, str] = field(default_factory=lambda: MappingProxyType({}))
    money: str = "USD"
    assumed: tuple[str, ...] = ()

    def find_filter(self, port: Opening) -> Cartridge | None:
        """Return the kind of filter that hangs at a filter port; None where the file has none."""
        if not self.filters:
            return None
        if port.filter is None and len(self.filters) == 1:
            return self.filters[0]
        return {each.name: each for each in self.filters}[port.filter or ""]

    @property
    def board(self) -> Panel | None:
        """What the holes are cut into: the box's panel, else the one that the file says by itself."""
        return self.panel if self.box is None else self.box.panel

    def is_assumed(self, path: str) -> bool:
        """Tell whether the value at a dotted path, or anything it belongs to, was assumed."""
        return any(path == known or path.startswith(known + ".") for known in self.assumed)

    def list_assumed(self, whole: str, *keys: str) -> tuple[str, ...]:
        """Return what of some keys was assumed, as dotted paths; the whole alone where it was assumed whole."""
        if self.is_assumed(whole):
            return (whole,)
        return tuple(f"{whole}.{key}" for key in keys if self.is_assumed(f"{whole}.{key}"))


@dataclass(frozen=True, kw_only=True)
class Aired(Given):
    """A file with the air of a shop, with or without a box. ``field()`` takes away the default of a lacking part.

    link: ducts between separator and blower; delivery: blower to filter box, or to the filters where there is no box
    """

    shop: Shop = field()
    dust: Dust = field()
    blower: Blower = field()
    separator: Separator = field()
    runs: tuple[Run, ...] = field()
    machines: tuple[Machine, ...] = field()
    filters: tuple[Filter, ...] = field()
    gauge: Gauge = field()
    noise: Noise = Noise()

    @property
    def all_pieces(self) -> tuple[Piece, ...]:
        """The pieces of all ducting: runs, what joins separator, blower and box, and every machine's drop."""
        runs = (piece for run in self.runs for piece in run.pieces)
        return (*runs, *self.link, *self.delivery, *(p for machine in self.machines for p in machine.all_pieces))

    @property
    def has_gates(self) -> bool:
        """Whether any machine has a gate; where none has, one hose is moved from machine to machine."""
        return any(machine.gate is not None for machine in self.machines)

    @property
    def unclosed(self) -> tuple[str, ...]:
        """The machines that no gate closes beside those that have one: they draw air whatever else is open."""
        return tuple(each.name for each in self.machines if each.gate is None) if self.has_gates else ()

    @property
    def by_hose(self) -> str:
        """The end of keys of phrases that speak of the hose of a shop without gates; empty where there are gates."""
        return "" if self.has_gates else "_hose"

    @property
    def inlet_m(self) -> float | None:
        """The diameter [m] by which the air enters the box; None where there is none, and the duct itself ends so."""
        return None if self.box is None else self.box.inlet.diameter_mm / 1000

    def get_machine(self, name: str) -> Machine:
        """Return the machine of that name. Raises KeyError."""
        return {machine.name: machine for machine in self.machines}[name]

    def get_filter(self, port: Opening) -> Filter:
        """Return the kind of filter that hangs at a filter port. Raises KeyError where several might."""
        if port.filter is None and len(self.filters) == 1:
            return self.filters[0]
        return {each.name: each for each in self.filters}[port.filter or ""]

    def get_run(self, name: str) -> Run:
        """Return the run of that name. Raises KeyError."""
        return {run.name: run for run in self.runs}[name]


@dataclass(frozen=True, kw_only=True)
class Boxed(Given):
    """A file with a box and the filters that hang under it, with or without the air that goes through them."""

    shop: Room = field()
    filters: tuple[Filter, ...] = field()
    box: FilterBox = field()
    ports: tuple[Port, ...] = field()

    def get_filter(self, port: Opening) -> Filter:
        """Return the kind of filter that hangs at a filter port. Raises KeyError where several might."""
        if port.filter is None and len(self.filters) == 1:
            return self.filters[0]
        return {each.name: each for each in self.filters}[port.filter or ""]


@dataclass(frozen=True, kw_only=True)
class Project(Aired, Boxed):
    """A file with every part of a shop: air and box."""

    shop: Room = field()
    box: FilterBox = field()
    ports: tuple[Port, ...] = field()
