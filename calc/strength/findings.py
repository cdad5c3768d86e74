"""Findings on strength and handling: bow, stress, screws, hanging, lifting, the door, the cart."""

from __future__ import annotations

from dataclasses import replace

from calc.box.joints import BoxShape
from calc.finding import Amount, Finding, Limit, Said, Subject, hold, tell
from calc.settled import Settled
from calc.shapes.judge import keep_telling, say_with
from calc.shapes.part_names import say_face
from calc.strength.fasteners import LAG_SOLD_MM
from calc.strength.handling import BARE, BOX, TIP_DEG, Handling, Load
from calc.strength.lifting import CREW, plan_lift
from calc.strength.panels import PanelStrength
from calc.strength.rib_places import HOLE_GAP_MM
from calc.strength.structure import STRESS_FACTOR, ScrewStrength, Strength
from calc.strength.tipping import PULL_N
from calc.trade import PRACTICE

PLATES = "plate theory (Timoshenko and Woinowsky-Krieger); limit: "
LIFT = "project file; the NIOSH lifting equation starts from 23 kg (51 lb), from memory"


def judge_strength(project: Settled, shape: BoxShape, strength: Strength) -> tuple[Finding, ...]:
    """Return the findings about panels and screws."""
    found = list(keep_telling([judge_bow(shape, panel) for panel in strength.panels]))
    worst = max(strength.panels, key=lambda panel: panel.stress_pa / panel.breaking_pa)
    found.append(
        hold(
            "stress.panel",
            Said("strength_findings.stress_what", names={"face": say_face(worst.face)}),
            worst.stress_pa,
            Limit(worst.breaking_pa / STRESS_FACTOR, "at most", source=strength.stock.source),
            Said("strength_findings.stress_why"),
            topic="strength",
            kind="stress_pa",
            subjects=(Subject("panel", worst.face),),
            mends=(Said("strength_findings.stress_mend"),),
        )
    )
    held = [(group, judge_screws(group)) for group in strength.screws if group.load_each_n > 0]
    for kind in ("ring", "thread", "lags"):
        found += keep_telling([finding for group, finding in held if group.kind == kind])
    found += [finding for group, finding in held if group.kind == "panel" and group.face in ("bottom", shape.removable)]
    if strength.hang_fasteners:
        found.append(_say_hang(project, strength))
    return tuple(found)


def judge_screws(group: ScrewStrength) -> Finding:
    """Return the finding on what one group of screws holds over what pulls at it."""
    names = {"group": group.what, "basis": Said(f"strength_findings.{group.basis}")}
    more = -(-group.count * group.wanted // group.factor) if group.factor > 0 else group.count * 2
    return hold(
        f"screws.{group.name}",
        Said("strength_findings.screws_what", names=names),
        group.factor,
        Limit(group.wanted, "at least", source=group.source),
        Said("strength_findings.screws_why"),
        topic="strength",
        kind="ratio",
        subjects=((Subject("port", group.port),) if group.port else ())
        + ((Subject("panel", group.face),) if group.face else ()),
        mends=(Said("strength_findings.screws_mend", {"count": Amount(more, "count")}),),
    )


def judge_bow(shape: BoxShape, panel: PanelStrength) -> Finding:
    """Return the finding about one panel: how far it bows, what the ribs do for it, what else would."""
    names = {"face": say_face(panel.face)}
    removable = panel.face == shape.removable
    why = Said("strength_findings.bow_why")
    thicker = panel.thick_enough_mm
    span = panel.long_mm if panel.lengthwise else panel.short_mm
    extra = (thicker - panel.thickness_mm) * panel.short_mm * panel.long_mm
    more = "more" if extra > panel.ribs * span * panel.rib_high_mm * panel.thickness_mm else "less"
    way = "along" if panel.lengthwise else "across"
    if panel.ribs:
        why = Said(
            f"strength_findings.ribs_{way}_{more}",
            {
                "bare": Amount(panel.bow_bare_mm, "length_mm", fine=True),
                "ribs": Amount(panel.ribs, "count"),
                "high": Amount(panel.rib_high_mm, "length_mm"),
                "thick": Amount(thicker, "length_mm"),
            },
        )
    mends = [say_with("strength_findings.bow_mend", names, thick=thicker)]
    if panel.ribs_barred:
        why = Said("strength_findings.ribs_barred", names=names)
        wide = panel.thickness_mm + 2 * HOLE_GAP_MM
        mends.append(say_with("strength_findings.ribs_room_mend", names, wide=wide))
    if panel.past_theory:
        why = Said("strength_findings.past_theory", names={"why": why})
    source = PLATES + ("what a 6 mm gasket forgives, " if removable else "short side / 240, ") + PRACTICE
    return hold(
        f"bow.{panel.name}",
        Said("strength_findings.bow_what", names=names),
        panel.bow_out_mm,
        Limit(panel.limit_mm, "at most", tight=0.1 * panel.limit_mm if not panel.ribs else 0.0, source=source),
        why,
        topic="strength",
        subjects=(Subject("panel", panel.face),),
        mends=tuple(mends),
        fine=True,
    )


def _say_hang(project: Settled, strength: Strength) -> Finding:
    size = LAG_SOLD_MM[project.display.system]
    return tell(
        "hang.load",
        Said(
            "strength_findings.hang_joists" if project.box.hung == "ceiling" else "strength_findings.hang_studs",
            {"count": Amount(strength.hang_fasteners, "count"), "size": Amount(size, "length_mm")},
        ),
        Said("strength_findings.hang_why"),
        topic="strength",
        value=strength.hang_load_n,
        kind="force_n",
        source="timber design tables, from memory; local code comes first",
    )


def judge_handling(project: Settled, handling: Handling) -> tuple[Finding, ...]:
    """Return the findings about lifting, the door and the cart."""
    found: list[Finding] = []
    lift = plan_lift(project, handling)
    for load in handling.loads:
        if load.name == BOX and lift.way == "lift":
            found.append(_tell_box_lift(load))
        elif load.name == BOX and lift.way == "parts":
            found.append(
                _judge_lift(
                    project, replace(load, name=BARE, weight_kg=lift.weight_kg, people=CREW, what=Said("handling.bare"))
                )
            )
        elif load.people > 1 or load is max(handling.loads, key=lambda one: one.weight_kg):
            found.append(_judge_lift(project, load))
        if load.through_door is False:
            found.append(_judge_door(project, load))
    if handling.loads and all(load.through_door for load in handling.loads):
        box = next(load for load in handling.loads if load.name == BOX)
        found.append(_judge_door(project, box))
    if project.box.hung == "cart" and handling.tip_deg is not None:
        found.append(
            hold(
                "cart.tip",
                Said("strength_findings.tip_what"),
                handling.tip_deg,
                Limit(TIP_DEG, "at least", tight=2.0, source="IEC 60335-1 clause 20.1, from memory"),
                Said("strength_findings.tip_why"),
                topic="strength",
                kind="angle_deg",
                mends=(Said("strength_findings.tip_mend"),),
            )
        )
        found.append(_judge_pull(handling))
    return tuple(found)


def _judge_lift(project: Settled, load: Load) -> Finding:
    """Return the finding on one weight: what those who are there may lift; alone, what one may."""
    limit, helper = project.methods.lift_limit_kg, project.methods.helper
    several = load.people > 1
    hands = CREW if helper and several else 1
    names = {"thing": load.what}
    what = Said("strength_findings.lift_one_what", names=names)
    if several:
        what = Said("strength_findings.lift_what", {"people": Amount(load.people, "count")}, names)
    return hold(
        f"lift.{load.name}",
        what,
        load.weight_kg,
        # what is too large for one pair of arms is not lifted alone, light as it is
        Limit(limit * hands, "at most", tight=limit if several and hands == 1 else 0.0, source=LIFT),
        Said("strength_findings.lift_why" if several else "strength_findings.lift_one_why"),
        topic="strength",
        kind="mass_kg",
        eases=(Said("strength_findings.lift_mend" if helper else "strength_findings.lift_mend_alone"),),
    )


def _tell_box_lift(load: Load) -> Finding:
    """Say that the box goes up on a material lift: no pair of hands carries it."""
    return tell(
        f"lift.{load.name}",
        Said("strength_findings.box_lift_what"),
        Said("strength_findings.lift_why"),
        topic="strength",
        value=load.weight_kg,
        kind="mass_kg",
        source=LIFT,
    )


def _judge_pull(handling: Handling) -> Finding:
    """Return whether a tug at the hose tips the cart: pull and limit at the inlet, casters locked."""
    at = Amount(handling.pull_at_mm, "length_mm")
    short = PULL_N / handling.pull_n - 1 if handling.pull_n else 1.0
    return hold(
        "cart.pull",
        Said("strength_findings.pull_what", {"height": at}),
        handling.pull_n,
        Limit(PULL_N, "at least", tight=0.1 * PULL_N),
        Said("strength_findings.pull_why"),
        topic="strength",
        kind="force_n",
        mends=(say_with("strength_findings.pull_mend", by=2 * handling.steady_mm * short),),
    )


def _judge_door(project: Settled, load: Load) -> Finding:
    """Return whether something passes the doorway: its middle size against the door's, on the side that is short."""
    small, middle, _ = sorted(load.sizes_mm)
    wide = min(project.shop.doorway_width_mm or 0.0, project.shop.doorway_height_mm or 0.0)
    high = max(project.shop.doorway_width_mm or 0.0, project.shop.doorway_height_mm or 0.0)
    value, limit = (small, wide) if small - wide >= middle - high else (middle, high)
    return hold(
        f"door.{load.name}",
        Said("strength_findings.door_what", names={"thing": load.what}),
        value,
        Limit(limit, "at most", source="project file"),
        Said("strength_findings.door_why"),
        topic="reach",
        mends=(Said("strength_findings.door_mend"),),
    )
