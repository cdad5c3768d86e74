"""Findings on strength and handling: bow, stress, screws, hanging, lifting, the door, the cart."""

from __future__ import annotations

import math

from calc.finding import Amount, Finding, Said, Verdict
from calc.geometry.joints import BoxShape
from calc.geometry.judge import hold, keep_telling, say_with
from calc.geometry.part_names import say_face
from calc.geometry.rib_places import HOLE_GAP_MM
from calc.project import Project
from calc.strength.fasteners import LAG_SOLD_MM
from calc.strength.handling import TIP_DEG, Handling, Load
from calc.strength.structure import STRESS_FACTOR, PanelStrength, Strength
from calc.trade import PRACTICE

PLATES = "plate theory (Timoshenko and Woinowsky-Krieger); limit: "
LIFT = "project file; the NIOSH lifting equation starts from 23 kg (51 lb), from memory"


def judge_strength(project: Project, shape: BoxShape, strength: Strength) -> tuple[Finding, ...]:
    """Return the findings about panels and screws."""
    found = list(keep_telling([judge_bow(shape, panel) for panel in strength.panels]))
    worst = max(strength.panels, key=lambda p: max(p.stress_free_pa, p.stress_held_pa))
    found.append(
        hold(
            "stress.panel",
            Said("strength_findings.stress_what", names={"face": say_face(worst.face)}),
            max(worst.stress_free_pa, worst.stress_held_pa),
            strength.stock.breaking_pa / STRESS_FACTOR,
            Said("strength_findings.stress_why"),
            (Said("strength_findings.stress_mend"),),
            kind="stress_pa",
            source=strength.stock.source,
        )
    )
    held: list[Finding] = []
    for screws in strength.screws:
        if screws.load_each_n <= 0:
            continue
        names = {"group": screws.what, "basis": Said(f"strength_findings.{screws.basis}")}
        more = -(-screws.count * screws.wanted // screws.factor) if screws.factor > 0 else screws.count * 2
        held.append(
            hold(
                f"screws.{screws.name}",
                Said("strength_findings.screws_what", names=names),
                screws.factor,
                screws.wanted,
                Said("strength_findings.screws_why"),
                (Said("strength_findings.screws_mend", {"count": Amount(more, "count")}),),
                kind="ratio",
                sense="at least",
                source=screws.source,
                part=screws.port,
            )
        )  # fmt: skip
    for group in ("screws.ring screws of", "screws.lid thread of", "screws.lag screws"):
        found += keep_telling([each for each in held if each.key.startswith(group)])
    found += [
        each for each in held if each.key in ("screws.bottom panel screws", f"screws.{shape.removable} panel screws")
    ]
    if strength.hang_fasteners:
        found.append(_say_hang(project, strength))
    return tuple(found)


def judge_bow(shape: BoxShape, panel: PanelStrength) -> Finding:
    """Return the finding about one panel: how far it bows, what the ribs do for it, what else would."""
    names = {"face": say_face(panel.face)}
    removable = panel.face == shape.removable
    why = Said("strength_findings.bow_why")
    thicker = panel.thickness_mm * (panel.bow_bare_mm / panel.limit_mm) ** (1 / 3) if panel.limit_mm else 0.0
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
    return hold(
        f"bow.{panel.name}",
        Said("strength_findings.bow_what", names=names),
        panel.bow_out_mm,
        panel.limit_mm,
        why,
        tuple(mends),
        tight=0.1 * panel.limit_mm if not panel.ribs else 0.0,
        source=PLATES + ("what a 6 mm gasket forgives, " if removable else "short side / 240, ") + PRACTICE,
        fine=True,
    )


def _say_hang(project: Project, strength: Strength) -> Finding:
    size = LAG_SOLD_MM[project.display.system]
    return Finding(
        "hang.load",
        Said(
            "strength_findings.hang_joists" if project.box.hung == "ceiling" else "strength_findings.hang_studs",
            {"count": Amount(strength.hang_fasteners, "count"), "size": Amount(size, "length_mm")},
        ),
        Verdict.FITS,
        Said("strength_findings.hang_why"),
        value=Amount(strength.hang_load_n, "force_n"),
        source="timber design tables, from memory; local code comes first",
    )


def judge_handling(project: Project, handling: Handling) -> tuple[Finding, ...]:
    """Return the findings about lifting, the door and the cart."""
    found: list[Finding] = []
    limit = project.methods.lift_limit_kg
    for load in handling.loads:
        names = {"thing": load.what}
        if load.people > 1 or load is max(handling.loads, key=lambda one: one.weight_kg):
            alone = load.people > 1 and not project.methods.helper
            verdict = Verdict.TIGHT if alone else Verdict.FITS
            may = limit if alone else limit * max(load.people, math.ceil(load.weight_kg / limit))
            what = Said("strength_findings.lift_what", {"people": Amount(load.people, "count")}, names)
            found.append(
                Finding(
                    f"lift.{load.name}",
                    what if load.people > 1 else Said("strength_findings.lift_one_what", names=names),
                    verdict,
                    Said("strength_findings.lift_why" if load.people > 1 else "strength_findings.lift_one_why"),
                    value=Amount(load.weight_kg, "mass_kg"),
                    limit=Amount(may, "mass_kg"),
                    mends=(Said("strength_findings.lift_mend"),) if verdict is Verdict.TIGHT else (),
                    source=LIFT,
                )
            )
        if load.through_door is False:
            found.append(_judge_door(project, load))
    if handling.loads and all(load.through_door for load in handling.loads):
        box = next(load for load in handling.loads if load.name == "box, empty")
        found.append(_judge_door(project, box))
    if project.box.hung == "cart" and handling.tip_deg is not None:
        found.append(
            hold(
                "cart.tip",
                Said("strength_findings.tip_what"),
                handling.tip_deg,
                TIP_DEG,
                Said("strength_findings.tip_why"),
                (Said("strength_findings.tip_mend"),),
                kind="angle_deg",
                sense="at least",
                tight=2.0,
                source="IEC 60335-1 clause 20.1, from memory",
            )
        )
    return tuple(found)


def _judge_door(project: Project, load: Load) -> Finding:
    """Return whether something passes the doorway: its middle size against the door's, on the side that is short."""
    small, middle, _ = sorted(load.sizes_mm)
    wide = min(project.shop.doorway_width_mm or 0.0, project.shop.doorway_height_mm or 0.0)
    high = max(project.shop.doorway_width_mm or 0.0, project.shop.doorway_height_mm or 0.0)
    value, limit = (small, wide) if small - wide >= middle - high else (middle, high)
    return hold(
        f"door.{load.name}",
        Said("strength_findings.door_what", names={"thing": load.what}),
        value,
        limit,
        Said("strength_findings.door_why"),
        (Said("strength_findings.door_mend"),),
        source="project file",
        worst=Verdict.TIGHT,
    )
