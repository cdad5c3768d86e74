"""Findings on strength and handling: bow, stress, screws, hanging, lifting, the door, the cart."""

from __future__ import annotations

import math

from calc.finding import Amount, Finding, Said, Verdict
from calc.geometry.joints import BoxShape
from calc.geometry.judge import PRACTICE, hold, keep_telling, say_with
from calc.project import Project
from calc.strength.handling import TIP_DEG, Handling
from calc.strength.structure import STRESS_FACTOR, PanelStrength, Strength

PLATES = "plate theory (Timoshenko and Woinowsky-Krieger); limit: "
LIFT = "project file; the NIOSH lifting equation starts from 23 kg (51 lb), from memory"


def judge_strength(project: Project, shape: BoxShape, strength: Strength) -> tuple[Finding, ...]:
    """Return the findings about panels and screws."""
    found = list(keep_telling([judge_bow(shape, panel) for panel in strength.panels]))
    worst = max(strength.panels, key=lambda p: max(p.stress_free_pa, p.stress_held_pa))
    found.append(
        hold(
            "stress.panel",
            Said("Highest bending stress, {face} panel, at the worst pressure", names={"face": worst.name}),
            max(worst.stress_free_pa, worst.stress_held_pa),
            strength.stock.breaking_pa / STRESS_FACTOR,
            "A quarter of what breaks the board is left as the most it may carry.",
            (Said("Use thicker panels."),),
            kind="stress_pa",
            source=strength.stock.source,
        )
    )
    held: list[Finding] = []
    for screws in strength.screws:
        if screws.load_each_n <= 0:
            continue
        names = {"group": screws.name}
        more = -(-screws.count * screws.wanted // screws.factor) if screws.factor > 0 else screws.count * 2
        held.append(
            hold(
                f"screws.{screws.name}",
                Said("Strength of {group}: what it holds over what pulls ({basis} load)",
                     names=names | {"basis": screws.basis}),
                screws.factor,
                screws.wanted,
                "Counted with the filter full of dust and at the highest pressure the blower can make; dead weight "
                "hangs overhead.",
                (Said("Use at least {count} of them, or larger ones.", {"count": Amount(more, "count")}),),
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
    names = {"face": panel.name}
    removable = panel.face == shape.removable
    why = Said("A panel that bows lifts off its gasket or works its seams open.")
    thicker = panel.thickness_mm * (panel.bow_bare_mm / panel.limit_mm) ** (1 / 3) if panel.limit_mm else 0.0
    span = panel.long_mm if panel.lengthwise else panel.short_mm
    extra = (thicker - panel.thickness_mm) * panel.short_mm * panel.long_mm
    more = "more" if extra > panel.ribs * span * panel.rib_high_mm * panel.thickness_mm else "less"
    way = "along it" if panel.lengthwise else "across it"
    if panel.ribs:
        why = Said(
            f"Bare it would bow {{bare}}; the design adds ribs of panel stock ({{ribs}}), {{high}} high, on edge "
            f"{way}. "
            f"Panels {{thick}} thick would do without, and take {more} wood.",
            {
                "bare": Amount(panel.bow_bare_mm, "length_mm", fine=True),
                "ribs": Amount(panel.ribs, "count"),
                "high": Amount(panel.rib_high_mm, "length_mm"),
                "thick": Amount(thicker, "length_mm"),
            },
        )
    return hold(
        f"bow.{panel.name}",
        Said("Bow of the {face} panel at the worst pressure, edges free to turn", names=names),
        panel.bow_out_mm,
        panel.limit_mm,
        why,
        (say_with("Use panels {thick} thick there.", names, thick=thicker),),
        tight=0.1 * panel.limit_mm if not panel.ribs else 0.0,
        source=PLATES + ("what a 6 mm gasket forgives, " if removable else "short side / 240, ") + PRACTICE,
        fine=True,
    )


def _say_hang(project: Project, strength: Strength) -> Finding:
    return Finding(
        "hang.load",
        Said(
            "Everything full of dust, on {count} lag screws of {size} into {wood}",
            {"count": Amount(strength.hang_fasteners, "count"), "size": Amount(7.94, "length_mm")},
            {"wood": "joists" if project.box.hung == "ceiling" else "studs"},
        ),
        Verdict.FITS,
        Said("Screws must sit in sound framing. What the building carries is for a local builder or engineer to say."),
        value=Amount(strength.hang_load_n, "force_n"),
        source="timber design tables, from memory; local code comes first",
    )


def judge_handling(project: Project, handling: Handling) -> tuple[Finding, ...]:
    """Return the findings about lifting, the door and the cart."""
    found: list[Finding] = []
    limit = project.methods.lift_limit_kg
    for load in handling.loads:
        names = {"thing": load.name}
        if load.people > 1 or load is max(handling.loads, key=lambda one: one.weight_kg):
            alone = load.people > 1 and not project.methods.helper
            verdict = Verdict.TIGHT if alone else Verdict.FITS
            may = limit if alone else limit * max(load.people, math.ceil(load.weight_kg / limit))
            found.append(
                Finding(
                    f"lift.{load.name}",
                    Said("Weight of the {thing}: {people} to lift it", {"people": Amount(load.people, "count")}, names),
                    verdict,
                    Said("Too heavy or too large for one person to lift overhead or steer through a saw."),
                    value=Amount(load.weight_kg, "mass_kg"),
                    limit=Amount(may, "mass_kg"),
                    mends=(Said("Get a helper, a lift or a prop for it."),) if verdict is Verdict.TIGHT else (),
                    source=LIFT,
                )
            )
        if load.through_door is False:
            found.append(_judge_door(project, load.name, load.sizes_mm))
    if handling.loads and all(load.through_door for load in handling.loads):
        box = next(load for load in handling.loads if load.name == "box, empty")
        found.append(_judge_door(project, box.name, box.sizes_mm))
    if project.box.hung == "cart" and handling.tip_deg is not None:
        found.append(
            hold(
                "cart.tip",
                Said("Slope at which the loaded cart tips over"),
                handling.tip_deg,
                TIP_DEG,
                "A cart with a high box falls over a cable or a door sill.",
                (Said("Make the wheelbase wider, hang the box lower, or put weight on the cart's floor."),),
                kind="angle_deg",
                sense="at least",
                tight=2.0,
                source="IEC 60335-1 clause 20.1, from memory",
            )
        )
    return tuple(found)


def _judge_door(project: Project, name: str, sizes: tuple[float, float, float]) -> Finding:
    """Return whether something passes the doorway: its middle size against the door's, on the side that is short."""
    small, middle, _ = sorted(sizes)
    wide = min(project.shop.doorway_width_mm or 0.0, project.shop.doorway_height_mm or 0.0)
    high = max(project.shop.doorway_width_mm or 0.0, project.shop.doorway_height_mm or 0.0)
    value, limit = (small, wide) if small - wide >= middle - high else (middle, high)
    return hold(
        f"door.{name}",
        Said("{thing} through the doorway", names={"thing": name}),
        value,
        limit,
        "It is made in one place and hung in another.",
        (Said("Put it together in the room where it hangs."),),
        source="project file",
        worst=Verdict.TIGHT,
    )
