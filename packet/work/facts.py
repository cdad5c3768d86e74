"""What the word files may put in: the project's sizes, readings and options, already in the reader's units."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from calc.airflow.takeoff import list_meetings
from calc.box.lining import WASHERS_APART_MM
from calc.box.ports import PortDesign
from calc.box.standing import RAIL_OVER_MM
from calc.cutting.collar import design_strip
from calc.cutting.sheets import TRIM_MM
from calc.design import Design
from calc.gauges.cards import name_kind
from calc.project import Aired, Elbow, Gauge, Given, Panel, Pipe
from calc.settled import Settled, SettledShop
from calc.sizing.appliances import is_fine
from calc.strength.handling import find_blower_weight
from calc.strength.lifting import plan_lift
from calc.strength.tipping import PULL_N
from calc.trade import EMPTY_AT
from packet.bill.cuts import say_joints, say_strip
from packet.bill.fixings import find_ring_screw, write_caster_load
from packet.bill.gauge_fill import write_fill
from packet.words.amounts import full_band
from packet.words.catching import say_level
from packet.words.safe_work import tell_safe_work
from packet.words.say import say
from packet.words.word_files import clean_text
from packet.work.ducts import is_flexible, tell_flexible, tell_machines, tell_pieces, tell_runs
from packet.work.lift import tell_lift
from packet.work.paper import tell_boards, tell_paper
from packet.work.screws import tell_screws
from packet.work.writer import Writer

if TYPE_CHECKING:
    from calc.box.panel_facts import PanelFacts
    from calc.design import Made
    from calc.gauges.gauge_design import GaugeDesign
    from calc.results import Sizing


@dataclass(frozen=True, kw_only=True)
class Options:
    """The choices that steer which steps and cautions there are; the words of the project file.

    box, air: the job has that part; filters: openings for filters; gaskets: the filters that lie on them are known
    """

    holes: str
    lids: str
    panels: str
    seal: str
    joint: str
    hung: str
    box: bool
    air: bool
    helper: bool
    lined: bool
    inspection: bool
    gauge: bool
    gauges: tuple[str, ...]
    gauge_read: str
    two_gauges: bool
    gauge_mount: str
    filters: int
    gaskets: bool
    outdoors: bool
    flued: bool
    appliance: str
    plastic_duct: bool
    metal_duct: bool
    woods: tuple[str, ...]
    ladder: bool
    platform: bool
    separator: bool
    stiffened: bool
    gates: int
    rings: bool


@dataclass(frozen=True, kw_only=True)
class PortFacts:
    name: str
    kind: str
    face: str
    collar: str
    around: str
    hole: str
    first: str
    place: str
    circle: str
    pilot: str
    screws: int
    strip: str
    across_short: str
    assumed: bool


@dataclass(frozen=True, kw_only=True)
class PartFacts:
    number: str
    name: str
    kind: str
    size: str
    quantity: int
    place: str = ""


@dataclass(frozen=True)
class PanelSides:
    """A panel with holes, by their names; left, lower: the sides of the box at which those edges stand."""

    number: str
    name: str
    left: str
    lower: str
    holes: str


def gather_facts(project: Given, sizing: Sizing | None, gauge: GaugeDesign | None, design: Made) -> dict[str, Any]:
    """Return all that the word files may name of the parts that this job has."""
    writer = Writer(project.display.reader)
    facts: dict[str, Any] = {
        "options": choose_options(project, gauge, design),
        **tell_safe_work(writer.reader),
        "title": clean_text(project.title.title),
        "drawn_by": clean_text(project.title.drawn_by),
        "revision": clean_text(project.title.revision),
        "metric": writer.reader.system == "metric",
        "length": writer.length,
        "near": writer.near,
        "exact": writer.exact,
        "slack": writer.slack,
        "empty_at": say_level(EMPTY_AT, writer.reader),
        "ports": tuple(_tell_ports(project, design, writer)),
        "paper": tell_paper(design),
        "gauge_boards": tell_boards(design, writer),
    }
    if design.ports and project.board is not None:
        facts |= _tell_openings(project, project.board, design, writer)
    if isinstance(project, Settled) and isinstance(design, Design):
        facts |= {
            "lift": tell_lift(project, design, writer),
            **_tell_box(project, design, writer),
            **_tell_filters(project, design, writer),
        }
    if isinstance(project, Aired) and sizing is not None:
        facts |= _tell_air(project, sizing, gauge, writer)
    if gauge is not None:
        facts |= _tell_gauge(gauge, writer)
    return facts


def choose_options(project: Given, gauge: GaugeDesign | None, design: Made) -> Options:
    """Return the project's choices; of a part that is left out nothing is chosen."""
    kinds = {port.kind for port in project.ports}
    methods, box = project.methods, _choose_box(project, design)
    return Options(
        holes=methods.holes,
        lids=methods.lids,
        panels=methods.panels,
        seal=methods.seal,
        helper=methods.helper,
        inspection="inspection" in kinds,
        gauge="gauge" in kinds or (gauge is not None and not isinstance(project, SettledShop)),
        filters=sum(each.count for each in project.filters) or sum(each.kind == "filter" for each in project.ports),
        gaskets=bool(project.filters),
        rings=project.display.extra_templates,
        **box,
        **_choose_air(project),
        **_choose_gauge(gauge),
    )


def _choose_box(project: Given, design: Made) -> dict[str, Any]:
    if not (isinstance(project, Settled) and isinstance(design, Design)):
        texts = dict.fromkeys(("joint", "hung"), "")
        overhead = isinstance(project, Aired)  # ducts run under the ceiling, box or not
        return {**texts, "ladder": overhead, **dict.fromkeys(("box", "lined", "platform", "stiffened"), False)}
    platform = plan_lift(project, design.handling).deck_mm is not None
    return {
        "box": True,
        "joint": project.box.joint,
        "hung": project.box.hung,
        "lined": design.lining is not None,
        "ladder": not platform and project.box.hung != "cart" and project.box.underside_mm > LADDER_MM,
        "platform": platform,
        "stiffened": any(part.kind == "stiffener" for part in design.parts),
    }


def _choose_air(project: Given) -> dict[str, Any]:
    if not isinstance(project, Aired):
        no = dict.fromkeys(("air", "outdoors", "flued", "plastic_duct", "metal_duct", "separator"), False)
        return {**no, "appliance": "none", "woods": (), "gates": 0}
    pieces = project.all_pieces
    materials = {piece.material for piece in pieces if isinstance(piece, Pipe)}
    short_elbow = any(isinstance(piece, Elbow) and piece.make == "pvc short" for piece in pieces)
    return {
        "air": True,
        "outdoors": project.shop.clean_air == "outdoors",
        "flued": project.shop.has_flue,
        "appliance": project.shop.flued_appliance,
        "plastic_duct": "pvc" in materials or short_elbow,
        "metal_duct": bool(materials - {"pvc"}),
        "woods": project.dust.woods,
        "separator": project.separator.kind != "none",
        "gates": sum(machine.gate is not None for machine in project.machines),
    }


def _choose_gauge(gauge: GaugeDesign | None) -> dict[str, Any]:
    if gauge is None:
        return {"gauges": (), "gauge_read": "", "two_gauges": False, "gauge_mount": ""}
    two = len(gauge.boards) > 1
    return {
        "gauges": tuple(card.instrument.kind for card in gauge.boards),
        "gauge_read": gauge.finest.instrument.kind,
        "two_gauges": two,
        "gauge_mount": "both" if gauge.on_lid and two else "lid" if gauge.on_lid else "wall",
    }


LADDER_MM = 1200.0
"""A box whose underside hangs higher cannot be fastened from the floor (common practice, no source)."""


def _tell_ports(project: Given, design: Made, writer: Writer) -> list[PortFacts]:
    told = []
    for each in design.ports:
        face, place = "", ""
        if isinstance(each, PortDesign) and isinstance(design, Design):
            hole = design.find_hole(each.name)[1]
            face, place = each.port.face, writer.marks(hole.across_mm, hole.up_mm)
        strip = design_strip(each, project.board).width_mm if project.board is not None else 0.0
        told.append(
            PortFacts(
                name=clean_text(each.name),
                kind=each.port.kind,
                face=face,
                collar=writer.exact(each.mean_mm),
                around=writer.length(each.mean_mm * math.pi),
                hole=writer.exact(each.hole_mm),
                first=writer.exact(each.first_cut_mm),
                place=place,
                circle=writer.length(each.screw_circle_mm),
                pilot=writer.length(each.pilot_mm),
                screws=each.port.closure.screws,
                strip=writer.length(strip),
                across_short=writer.length(each.mean_mm),
                assumed=bool(each.assumed),
            )
        )
    return told


def _tell_openings(project: Given, panel: Panel, design: Made, writer: Writer) -> Mapping[str, Any]:
    """Return what collars, holes and lids take, in whatever panel they are."""
    openings, gauge = project.ports, project.gauge or Gauge()
    closure = next((port.closure for port in openings if port.kind == "filter"), openings[0].closure)
    return {
        "panel_stock": clean_text(panel.stock),
        "panel_thick": writer.length(panel.thickness_mm),
        "panel_mm": panel.thickness_mm,
        "lid_opening": writer.length(closure.land_outside_mm - 2 * closure.land_mm),
        "lid_land": writer.length(closure.land_mm),
        "hooks": closure.hooks,
        "hook_hole": writer.length(closure.hook_hole_mm),
        "hook_edge": writer.length(closure.hook_edge_mm),
        "rib_relief": writer.length(closure.rib_relief_mm),
        "fitting_hole": writer.length(gauge.fitting_hole_mm),
        "gasket_thick": " / ".join(
            dict.fromkeys(writer.length(each.gasket_thick_mm) for each in project.filters if each.count)
        ),
        "bead": writer.length(project.methods.bead_mm),
        "bit": writer.length(project.methods.bit_mm),
        "ring_screw_length": writer.length(find_ring_screw(project, design)),
        "ring_screws": sum(port.port.closure.screws for port in design.ports),
        "ring_gasket": writer.amount(design.ring_gasket_mm / 1000, "length_m"),
    }


def _name_holes(panel: PanelFacts) -> str:
    return ", ".join(clean_text(hole.name) for hole in panel.holes)


def _tell_box(project: Settled, design: Design, writer: Writer) -> Mapping[str, Any]:
    box, methods, panel = design.box, project.methods, project.box.panel

    def size(sizes: Any) -> str:
        return writer.size(*(sizes.along(axis) for axis in range(3)))

    lining = design.lining
    inlet_hole = design.find_hole("inlet")[1]
    places = {
        strip.name: say_strip(panel, strip, writer.reader)
        for panel in design.panels
        for strip in panel.strips
        if strip.inside
    }
    return {
        "box_inside": size(box.inside),
        "box_outside": size(box.outside),
        "box_weight": writer.amount(design.handling.box_kg, "mass_kg"),
        "total_weight": writer.amount(design.handling.total_kg, "mass_kg"),
        "wheelbase": writer.mark(min(design.mount.wheels_mm) if design.mount.wheels_mm else box.outside.depth),
        "wheels": " and ".join(writer.mark(mm) for mm in design.mount.wheels_mm or ()),
        "blower_on_cart": design.mount.blower is not None,
        "blower_weight": writer.amount(find_blower_weight(project), "mass_kg"),
        "tip_pull": writer.amount(PULL_N, "force_n"),
        "caster_load": write_caster_load(design, writer.reader),
        "tip": writer.amount(design.handling.tip_deg, "angle_deg") if design.handling.tip_deg else "",
        "tip_third": writer.amount((design.handling.tip_deg or 0.0) / 3, "angle_deg"),
        "lift_limit": writer.amount(methods.lift_limit_kg, "mass_kg"),
        "lift_people": max((load.people for load in design.handling.loads), default=1),
        "removable": project.box.removable,
        "panels": tuple(
            PartFacts(
                number=part.number,
                name=clean_text(part.name),
                kind=part.kind,
                size=writer.marks(part.width_mm, part.height_mm),
                quantity=part.quantity,
                place=places.get(part.name, ""),
            )
            for part in design.parts
        ),
        "lining_stock": clean_text(lining.stock) if lining else "",
        "washers_apart": writer.near(WASHERS_APART_MM[project.display.system]),
        "sheet_size": writer.size(panel.sheet.length_mm, panel.sheet.width_mm),
        "sheets_bought": design.sheets[0].to_buy,
        "sheet_trim": writer.near(TRIM_MM),
        "lining_thick": writer.length(project.lining.thickness_mm) if project.lining else "",
        "lining_holes": any(each.holes for each in (lining.pieces if lining else ())),
        "lining_pieces": tuple(
            PartFacts(
                number=each.number,
                name=clean_text(each.name),
                kind="lining",
                size=writer.marks(each.width_mm, each.height_mm),
                quantity=1,
            )
            for each in (lining.pieces if lining else ())
        ),
        "face_gasket": writer.amount(design.gasket_mm / 1000, "length_m"),
        "seams": writer.amount(design.seams_mm / 1000, "length_m"),
        "hang_fasteners": design.strength.hang_fasteners,
        **tell_screws(project, design, writer),
        "underside": writer.between(0.0, design.stack.box_bottom_mm),
        "rail_over": writer.mark(RAIL_OVER_MM),
        "inlet_face": project.box.inlet.face,
        "inlet_place": writer.marks(inlet_hole.across_mm, inlet_hole.up_mm),
        "jointed": tuple(
            PartFacts(
                number=each.number,
                name=each.name,
                kind="panel",
                size="",
                quantity=1,
                place=say_joints(each, writer.reader),
            )
            for each in design.panels
            if each.joints
        ),
        "holed": tuple(
            PanelSides(each.number, each.name, each.left_wall, each.lower_wall, _name_holes(each))
            for each in design.panels
            if each.holes
        ),
        "inlet_hole": writer.length(project.box.inlet.diameter_mm),
    }


def _tell_filters(project: Settled, design: Design, writer: Writer) -> Mapping[str, Any]:
    stack = design.stack
    return {
        "filter_height": writer.length(max(each.height_mm for each in project.filters)),
        "filter_weight": writer.amount(max(each.weight_kg for each in project.filters), "mass_kg"),
        "filter_full": writer.amount(design.handling.filter_kg, "mass_kg"),
        "pail_full": writer.amount(design.handling.pail_kg, "mass_kg"),
        "hanging": writer.between(stack.box_bottom_mm - stack.hanging_mm, stack.box_bottom_mm),
        "floor_gap": writer.between(stack.stand_mm, stack.stand_mm + stack.floor_gap_mm),
        "unscrew_drop": writer.mark(stack.drop_mm),
    }


def _tell_gauge(gauge: GaugeDesign, writer: Writer) -> Mapping[str, Any]:
    slope = min(card.instrument.slope for card in gauge.boards)
    other = gauge.other
    marks = {mark.key: writer.amount(mark.pressure_pa, "pressure_pa") for mark in gauge.card.marks}
    return {
        "gauge_mark_clean": marks["clean"],
        "gauge_mark_clean_me": marks.get("clean me", ""),
        "gauge_too_high": marks["too high"],
        "gauge_tells": gauge.signal == "gauge",
        "too_high_shown": any(mark.fits for card in gauge.cards for mark in card.marks if mark.key == "too high"),
        "too_high_mark": say(gauge.get_mark("too high").words, writer.reader),
        "gauge_fine": say(name_kind(gauge.finest.instrument.kind), writer.reader),
        "gauge_other": say(name_kind(other.instrument.kind), writer.reader),
        "gauge_slope": f"1 in {1 / slope:.3g}" if slope < 1.0 else "",
        "gauge_fluid": gauge.asked.fluid,
        "gauge_fill": write_fill(gauge, writer.reader),
        "fluid_is_water": gauge.asked.fluid in ("water", "dyed water"),
    }


def _tell_readings(sizing: Sizing, gauge: GaugeDesign | None, writer: Writer) -> Mapping[str, Any]:
    """Return what the sizing says of the readings; with the marks of the gauge where one is built."""
    reading, clean_me = sizing.at_gauge.reading, sizing.filters.clean_me
    if gauge is None:
        marked, marked_me = abs(reading.best), abs(clean_me.reading_pa)
    else:
        marked, marked_me = gauge.get_mark("clean").pressure_pa, abs(gauge.clean_me_pa)

    def pressure(pascal: float) -> str:
        return writer.amount(abs(pascal), "pressure_pa")

    logged = not math.isclose(marked, abs(reading.best), rel_tol=1e-9)

    return {
        "gauge_gate": clean_text(sizing.gauge_at),
        "gauge_halfway": pressure((marked + marked_me) / 2),
        "gauge_clean": pressure(reading.best),
        "gauge_marked": pressure(marked),
        "gauge_logged": logged,
        "gauge_low": pressure(min(reading.low, reading.high)),
        "gauge_high": pressure(max(reading.low, reading.high)),
        "gauge_clean_me": pressure(marked_me),
        "gauge_rise": pressure(marked_me - marked),
        "gauge_rises": clean_me.criterion == "dust load",
        "clean_first": full_band(clean_me.hours_first, "time_h", writer.reader) if clean_me.hours_first else "",
    }


def _tell_sound(project: Aired, sizing: Sizing, writer: Writer) -> Mapping[str, Any]:
    sound = sizing.sound
    told = sound.with_others if sound else None
    return {
        "noise_others": bool(project.noise.others),
        "noise_known": told is not None,
        "noise_alone": writer.amount(sound.after.level_db, "sound_db") if sound else "",
        "noise_least": writer.amount(sound.before.level_db - sound.quieter.high, "sound_db") if sound else "",
        "noise_most": writer.amount(sound.before.level_db - sound.quieter.low, "sound_db") if sound else "",
        "noise_level": writer.amount(told.level_db, "sound_db") if told else "",
        "noise_niosh": writer.amount(min(told.niosh_h, 24.0), "time_h") if told else "",
        "noise_osha": writer.amount(min(told.osha_h, 24.0), "time_h") if told else "",
        "noise_hours": writer.amount(project.noise.hours_a_day, "time_h"),
    }


def _tell_air(project: Aired, sizing: Sizing, gauge: GaugeDesign | None, writer: Writer) -> Mapping[str, Any]:
    make_up, machines = sizing.make_up_air, tuple(tell_machines(project, sizing, writer))
    flexible = tell_flexible(project, writer)
    return {
        "runs": tell_runs(project, writer),
        "link": tell_pieces(project.link, writer),
        "wyes": bool(list_meetings(project)),
        "delivery": tell_pieces(tuple(each for each in project.delivery if not is_flexible(each)), writer),
        "flexible": flexible,
        "machines": machines,
        **_tell_readings(sizing, gauge, writer),
        "worst": next(machine for machine in machines if machine.name == clean_text(sizing.worst)),
        **_tell_sound(project, sizing, writer),
        "altitude": writer.amount(project.shop.altitude_m, "length_m"),
        "high": project.shop.altitude_m > HIGH_M,
        "air_share": writer.amount(sizing.air.factor, "share"),
        "most_open": tuple(clean_text(name) for name in make_up.machines),
        "most_flow": writer.amount(make_up.flow_m3s, "flow_m3s"),
        "make_up_opening": writer.at_least(make_up.opening_m2, "area_m2"),
        "draught_most": writer.amount(make_up.depression_pa, "draught_pa"),
        "draught_fine": is_fine(make_up.depression_pa),
        "flue_limit": writer.amount(make_up.limit_pa, "draught_pa"),
    }


HIGH_M = 600.0
"""From here the air is some 6 % thinner than standard air and blowers lose pressure in step."""
