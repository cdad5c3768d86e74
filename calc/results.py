"""What the sizing gives back: frozen results, SI units in the names, findings apart.

Pressures are gauge pressures against the room: positive in the box of a pressure system, ``suction`` positive below it.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field, replace
from functools import cached_property
from typing import Literal

from calc.finding import Amount, Band, Finding, Said, Verdict
from calc.project import Appliance, Protector


@dataclass(frozen=True, kw_only=True)
class FilterChoice:
    """The shop with this many filters of the kind there is most of. hours: between cleanings, None when never."""

    count: int
    flow_m3s: float
    face_speed_ms: float
    reading_pa: float
    hours: Band | None
    machines_short: int
    is_design: bool


@dataclass(frozen=True, kw_only=True)
class TrunkChoice:
    """The shop with its main runs at another diameter; worst machine alone.

    runs_settling: main runs in which dust settles with one gate or another open alone
    """

    diameter_m: float
    machine: str
    flow_m3s: float
    needs_m3s: float
    speed_ms: float
    limit_ms: float
    loss_pa: float
    machines_short: int
    runs_settling: int
    is_design: bool


@dataclass(frozen=True)
class HoseChoice:
    """A machine alone with its hose as it is, and with the hose shortened."""

    machine: str
    length_m: float
    shorter_m: float
    flow_m3s: float
    flow_shorter_m3s: float


@dataclass(frozen=True)
class Remedy:
    """A change, or two together, that mends a finding and breaks nothing else, found by running the model again."""

    finding: str
    what: Said
    before: Amount
    after: Amount
    verdict: Verdict


@dataclass(frozen=True, kw_only=True)
class ShopAir:
    """The air in the shop. factor: its density over standard air; standard_pressure_pa: what the altitude alone gives.

    barometer_gap: barometer over standard pressure less one, None when the file gives no barometer.
    """

    density_kgm3: float
    viscosity_pas: float
    pressure_pa: float
    standard_pressure_pa: float
    humidity_ratio: float
    factor: float
    barometer_gap: float | None = None


@dataclass(frozen=True)
class HoodFlow:
    """Flow into one pickup; suction_pa: hood static pressure, just behind the hood."""

    pickup: str
    flow_m3s: float
    suction_pa: float


@dataclass(frozen=True, kw_only=True)
class MachineFlow:
    """Flow at a machine's hoods together, against its need.

    flow_3x_m3s: with the clean filter loss three times; clean_me_m3s: with the filters at *clean me*
    """

    machine: str
    flow: Band
    needs_m3s: float
    flow_3x_m3s: float
    verdict: Verdict
    hoods: tuple[HoodFlow, ...] = ()
    clean_me_m3s: float = 0.0


@dataclass(frozen=True, kw_only=True)
class DuctFlow:
    """Air in a run (or in a machine's own drop), at its widest duct, against the transport velocity of its dust.

    place: name of the run or machine; suction_pa: static, at its downstream end before the join
    loss_pa: along it, join included
    """

    place: str
    kind: Literal["run", "drop"]
    diameter_m: float
    flow: Band
    speed: Band
    limit_ms: float
    suction_pa: float
    loss_pa: float
    verdict: Verdict


@dataclass(frozen=True, kw_only=True)
class LedgerRow:
    """One line of the way from hood to room.

    section: machine, run, ``separator``, ``link``, ``delivery`` or ``filters``
    coefficient: loss over velocity pressure (friction: f L/D); None where the loss was given or measured as pressure
    low_pa, high_pa: the loss at the same flow with the low and the high published coefficient
    """

    what: Said
    section: str
    kind: Literal["hood", "friction", "fitting", "join", "part", "filter"]
    diameter_m: float | None
    flow_m3s: float
    speed_ms: float | None
    velocity_pressure_pa: float | None
    coefficient: float | None
    loss_pa: float
    low_pa: float
    high_pa: float
    total_pa: float
    source: str


@dataclass(frozen=True)
class MachineLedger:
    """The way from one open machine's hood to the room."""

    machine: str
    rows: tuple[LedgerRow, ...]


@dataclass(frozen=True, kw_only=True)
class BlowerPoint:
    """Where the blower works. beyond: not on the curve as given; crossings: every flow where the curves meet.

    shaft_power [W]: its band is that of wheel and efficiency, at this flow
    """

    flow_m3s: float
    static_pa: float
    total_pa: float
    outlet_speed_ms: float
    air_power_w: float
    shaft_power: Band
    beyond: Literal["", "before first point", "past last point"] = ""
    crossings: tuple[float, ...] = ()


@dataclass(frozen=True, kw_only=True)
class Scenario:
    """A set of open gates and all it leads to.

    name: the machine's name when it is open alone, the gate set's name, or ``all gates open``
    reading: box against room with clean filters (what the gauge shows); reading_clean_me_pa: with filters at *clean me*
    flow: through the blower; leak_m3s: part of it that comes in by shut gates and seams
    ledger: from the hood of ledger_machine (the worst off) to the room
    residual_pa: worst pressure imbalance left at any joint
    other_ledgers: of a gate set, those of the other open machines
    """

    name: str
    kind: Literal["alone", "set", "all"]
    open: tuple[str, ...]
    machines: tuple[MachineFlow, ...]
    ducts: tuple[DuctFlow, ...]
    flow: Band
    point: BlowerPoint
    reading: Band
    reading_clean_me_pa: float
    flow_clean_me_m3s: float
    leak_m3s: float
    ledger_machine: str
    ledger: tuple[LedgerRow, ...]
    residual_pa: float
    other_ledgers: tuple[MachineLedger, ...] = ()

    def get_machine(self, name: str) -> MachineFlow:
        """Return the flow of an open machine. Raises KeyError."""
        return {row.machine: row for row in self.machines}[name]

    def rank_losses(self) -> tuple[LedgerRow, ...]:
        """Return the ledger's lines, dearest first."""
        return tuple(sorted(self.ledger, key=lambda row: -row.loss_pa))


@dataclass(frozen=True)
class Plotted:
    """A curve to draw: flows and pressures."""

    name: str
    flow_m3s: tuple[float, ...]
    pressure_pa: tuple[float, ...]


@dataclass(frozen=True)
class SystemCurve:
    """Total pressure the system asks of the blower with a set of gates: best, low and high coefficients."""

    scenario: str
    best: Plotted
    low: Plotted
    high: Plotted


@dataclass(frozen=True, kw_only=True)
class PowerCurve:
    """Power put into the air and power at the shaft, with its band of wheel and efficiency, up to free flow."""

    flow_m3s: tuple[float, ...]
    air_w: tuple[float, ...]
    shaft_low_w: tuple[float, ...]
    shaft_w: tuple[float, ...]
    shaft_high_w: tuple[float, ...]


@dataclass(frozen=True, kw_only=True)
class BlowerCurve:
    """The blower at shop air and its speed: static and total pressure; points: the file's points, corrected.

    power: at the shaft and in the air; power_w: of the motor's plate
    """

    static: Plotted
    total: Plotted
    points: Plotted
    power: PowerCurve
    power_w: float
    shut_off_pa: float
    end_of_curve_m3s: float


@dataclass(frozen=True)
class FilterShare:
    """One kind of filter at the highest flow: flow of one, face speed (air-to-media)."""

    name: str
    count: int
    flow_each_m3s: float
    face_speed_ms: float


@dataclass(frozen=True)
class LoadPoint:
    """A stage of loading, with the gauge's gate open alone. hours: of machines running since new."""

    hours: float
    areal_kgm2: float
    flow_m3s: float
    reading_pa: float


@dataclass(frozen=True)
class Fading:
    """A machine's flow, its gate alone open, at each stage of loading (Filters.loading)."""

    machine: str
    flow_m3s: tuple[float, ...]


@dataclass(frozen=True, kw_only=True)
class CleanMe:
    """When to clean, and why then.

    criterion: which comes first; gate: the machine it happens at; reading_pa, flow_m3s: at the gauge's gate then
    areal_kgm2: dust on the media then, the one value for hours, marks and weights; areal: the same with its band
    rise: reading then over the clean one [Pa], and its band, for what cake and pleats may be
    hours_first: from new; hours_later: between cleanings, as residual dust stays; rounded as a person would say them;
    None when it is never reached
    """

    criterion: Literal["flow drop", "machine need", "transport velocity", "media limit", "dust load", "never"]
    gate: str
    read_at: str
    areal_kgm2: float
    areal: Band
    reading_pa: float
    rise: Band
    flow_m3s: float
    hours_first: Band | None
    hours_later: Band | None
    why: Said


@dataclass(frozen=True, kw_only=True)
class Catching:
    """A catch pail under a filter, or the separator's bin.

    port: whose pail it is, empty for the bin; volume_m3: to the brim; level: share of its height to empty it at
    dust_kg: in it then; hours: of machines running until then, rounded as a person would say them; None: never
    assumed: its size is not in the file
    """

    kind: Literal["pail", "bin"]
    port: str
    volume_m3: float
    level: float
    dust_kg: float
    hours: Band | None
    assumed: bool


@dataclass(frozen=True, kw_only=True)
class Filters:
    """media_m2: of all filters together; face_speed: at the highest flow of any one machine alone or named set.

    clean_loss: media, opening and bore at that flow
    dust_kgs: dust that comes into the box while machines run; pleats_kgs: part of it that clings to the pleats, the one
    that loads them; catching: the pails that the rest falls into, and the separator's bin
    cut_size_m: particle the cyclone catches half of, by the published estimate, None without its sizes
    """

    media_m2: float
    face_speed_ms: float
    at_scenario: str
    shares: tuple[FilterShare, ...]
    clean_loss: Band
    dust_kgs: Band
    pleats_kgs: Band
    catching: tuple[Catching, ...]
    captures: float
    captures_assumed: bool
    loading: tuple[LoadPoint, ...]
    clean_me: CleanMe
    cake_resistance: float
    cake_assumed: bool
    cut_size_m: float | None = None
    fading: tuple[Fading, ...] = ()


@dataclass(frozen=True)
class Pressures:
    """What panels and ducts must stand.

    box_running_pa: highest of any single gate or named set, filters at *clean me* or clean, top of the band
    box_worst_pa: shut-off, filters blocked: the highest the blower can make (positive pushes the panels out)
    duct_suction_pa: shut-off, gates closed, before the blower
    """

    box_running_pa: float
    box_worst_pa: float
    duct_suction_pa: float


@dataclass(frozen=True, kw_only=True)
class SoundBand:
    """One octave band at the ear [dBA]: without the box, with it bare, with it as it is.

    absorbing_m2: the inside as square metres of open window
    filters_db, panels_db, taken_db: what the sound that enters the box loses on its way through the filters, through
    panels and lids, and by both together
    """

    hz: int
    before_db: float
    bare_db: float
    after_db: float
    absorbing_m2: float
    filters_db: float
    panels_db: float
    taken_db: float


@dataclass(frozen=True, kw_only=True)
class Exposure:
    """A level at the ear and the daily hours it allows. share_*: of a day's allowance used by the hours in the file."""

    level_db: float
    sones: float
    niosh_h: float
    osha_h: float
    niosh_share: float
    osha_share: float


@dataclass(frozen=True, kw_only=True)
class Sound:
    """Sound at the operator's ear before and after the box, other machines included (``with_others``).

    box, lining, quieter: what the bare box takes away at the ear, what the lining adds (None: no lining), and both [dB]
    together: level with the other machines, low to high [dBA]
    past_below: how far below the whole is what goes past the box, casing, motor and ducts [dB]; its low is the loudest
    protected: with the protector that the file names, after what it takes away in a shop; None without one
    spectrum_assumed: the file gives one level only and a usual blower spectrum was laid under it
    lowest_hz: below it the lined-plenum equation no longer holds
    """

    bands: tuple[SoundBand, ...]
    before: Exposure
    after: Exposure
    with_others: Exposure
    together: Band
    box: Band
    lining: Band | None
    quieter: Band
    past_below: Band
    past_measured: bool
    hours_a_day: float
    spectrum_assumed: bool
    lowest_hz: float
    protected: Exposure | None = None
    protection_db: float = 0.0
    protector: Protector | None = None


@dataclass(frozen=True)
class Leakage:
    """Leaks with the gauge's gate open: by shut gates and by seams, and their share of the blower's flow."""

    scenario: str
    gates_m3s: float
    seams_m3s: float
    share: float


@dataclass(frozen=True, kw_only=True)
class MakeUpAir:
    """Opening that lets the highest flow in at the room's allowed depression (clean air blown outdoors).

    depression_pa: allowed, the lower of limit_pa (the appliance's) and asked_pa (the project file's)
    given_m2, given_depression_pa: the opening of the project file, and how far the room falls with it
    machines: those that are open at that flow
    """

    flow_m3s: float
    machines: tuple[str, ...]
    depression_pa: float
    opening_m2: float
    needed: bool
    appliance: Appliance
    limit_pa: float
    limit_source: str
    asked_pa: float | None
    given_m2: float | None
    given_depression_pa: float | None


@dataclass(frozen=True, kw_only=True)
class Worked:
    """A calculation to follow with a pencil.

    subject: heading it belongs under; symbol = formula = numbers = value (source)
    numbers: what is put in, to be said in the reader's units; more than one are joined by spaces
    """

    subject: Said
    symbol: Said
    formula: Said
    numbers: tuple[Said, ...]
    value: Amount
    source: str


@dataclass(frozen=True, kw_only=True)
class Considered:
    """What else could be built, what mends a finding, and calculations to follow with a pencil.

    untried: keys of the findings for which no change was tried, as there are worse ones enough of their kind
    """

    filter_choices: tuple[FilterChoice, ...]
    trunk_choices: tuple[TrunkChoice, ...]
    hose_choices: tuple[HoseChoice, ...]
    remedies: tuple[Remedy, ...]
    worked: tuple[Worked, ...]
    untried: tuple[str, ...]


class Later:
    """What is worked out once, when it is first asked for; all that it took is let go then."""

    __slots__ = ("_made", "_make")

    def __init__(self, make: Callable[[Sizing], Considered]) -> None:
        self._make: Callable[[Sizing], Considered] | None = make
        self._made: Considered | None = None

    def take(self, sizing: Sizing) -> Considered:
        if self._make is not None:
            self._made, self._make = self._make(sizing), None
        assert self._made is not None
        return self._made


@dataclass(frozen=True, kw_only=True)
class Sizing:
    """All of it. gauge_at: machine whose gate alone is open when the gauge is read; worst: machine worst off alone.

    judged: the findings, without the mends that are found by running the model again
    consider: runs the model again for what else could be built; asked once, and only when somebody wants to know
    """

    air: ShopAir
    scenarios: tuple[Scenario, ...]
    gauge_at: str
    worst: str
    blower: BlowerCurve
    systems: tuple[SystemCurve, ...]
    filters: Filters
    pressures: Pressures
    leakage: Leakage
    sound: Sound | None
    make_up_air: MakeUpAir
    judged: tuple[Finding, ...]
    consider: Later = field(repr=False, compare=False)

    @cached_property
    def considered(self) -> Considered:
        return self.consider.take(self)

    @property
    def filter_choices(self) -> tuple[FilterChoice, ...]:
        return self.considered.filter_choices

    @property
    def trunk_choices(self) -> tuple[TrunkChoice, ...]:
        return self.considered.trunk_choices

    @property
    def hose_choices(self) -> tuple[HoseChoice, ...]:
        return self.considered.hose_choices

    @property
    def remedies(self) -> tuple[Remedy, ...]:
        return self.considered.remedies

    @property
    def worked(self) -> tuple[Worked, ...]:
        return self.considered.worked

    @property
    def untried(self) -> tuple[str, ...]:
        return self.considered.untried

    @cached_property
    def findings(self) -> tuple[Finding, ...]:
        """The findings with every mend."""
        mends: dict[str, list[Said]] = {}
        for remedy in self.remedies:
            mends.setdefault(remedy.finding, []).append(remedy.what)
        return tuple(
            replace(one, mends=(*mends[one.key], *one.mends)) if one.key in mends else one for one in self.judged
        )

    def get_alone(self, machine: str) -> Scenario:
        """Return the scenario with only this machine's gate open. Raises KeyError."""
        return {s.open[0]: s for s in self.scenarios if s.kind == "alone"}[machine]

    @property
    def at_gauge(self) -> Scenario:
        """The scenario under which the gauge is read."""
        return self.get_alone(self.gauge_at)
