"""What the box bears, what is lifted and how far an arm reaches, as tables beside the elevation."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING, Any

from calc.measures.marking import write_mark
from calc.measures.quantity import unit_name, write_amount
from calc.shapes.part_names import say_face
from calc.strength.handling import BOX
from calc.strength.lifting import plan_lift
from packet.words.phrases import Phrases, take_words
from packet.words.say import say

if TYPE_CHECKING:
    from calc.strength.structure import ScrewStrength
    from packet.job import BoxJob
    from packet.pages.kit.kit import Kit

SIZE = 8.0
COLUMNS = ("force", "out_free", "out_held", "in", "allowed")


def make_strength(job: BoxJob, kit: Kit) -> list[Any]:
    """Return the table of the panels and what it stands on."""
    words = take_words("strength_tables", kit.reader.language)
    basis = words("basis", source=job.design.strength.stock.source)
    if any(panel.past_theory for panel in job.design.strength.panels):
        basis = f"{words('past_note')} {basis}"
    return [kit.heading(words("title"), 2), _make_panels(job, kit, words), kit.text(basis, "small")]


def _make_panels(job: BoxJob, kit: Kit, words: Phrases) -> Any:
    reader, strength = kit.reader, job.design.strength
    press, stress = unit_name("pressure_pa", reader), unit_name("stress_pa", reader)
    rows: list[list[Any]] = [
        [
            words("column_panel"), words("running", unit=press), words("shut", unit=press),
            *(words(f"column_{name}") for name in COLUMNS), words("stress", unit=stress), words("column_ribs"),
        ]
    ]  # fmt: skip
    for panel in strength.panels:
        key = "ribs_along" if panel.lengthwise else "ribs_across"
        high, face = write_mark(panel.rib_high_mm, reader), say(say_face(panel.face), reader)
        ribs = words(key, count=panel.ribs, high=high) if panel.ribs else words("ribs_none")
        rows.append(
            [
                words("past_panel", face=face) if panel.past_theory else face,
                write_amount(panel.running_pa, "pressure_pa", reader, unit=False),
                write_amount(panel.worst_pa, "pressure_pa", reader, unit=False),
                write_amount(panel.force_worst_n, "force_n", reader),
                *(_write_bow(mm, kit) for mm in (panel.bow_out_mm, panel.bow_held_mm, panel.bow_in_mm, panel.limit_mm)),
                write_amount(panel.stress_pa, "stress_pa", reader, unit=False),
                ribs,
            ]
        )
    return kit.table(rows, align="lrrrrrrrrl", size=SIZE)


def _write_bow(mm: float, kit: Kit) -> str:
    return f"{mm / 25.4:.3f} in" if kit.reader.system == "inch" else f"{mm:.2f} mm"


def make_screws(job: BoxJob, kit: Kit, width_mm: float) -> Any:
    """Return the groups of screws, their loads and factors."""
    words = take_words("strength_tables", kit.reader.language)
    rows: list[list[Any]] = [[words(f"screws_{name}") for name in ("what", "count", "load", "factor", "least")]]
    for group in pick_weakest(job.design.strength.screws):
        factor = words("over_hundred") if group.factor > 100 else f"{group.factor:.1f}"
        load = write_amount(group.load_each_n, "force_n", kit.reader)
        rows.append([say(group.what, kit.reader), str(group.count), load, factor, f"{group.wanted:g}"])
    return kit.table(rows, align="lrrrr", size=SIZE, width_mm=width_mm)


def pick_weakest(groups: Sequence[ScrewStrength]) -> list[ScrewStrength]:
    """Return the groups in order, of like ones at several ports only the one with the least factor."""
    weakest: dict[tuple[str, str], ScrewStrength] = {}
    for group in groups:
        kind = (group.kind, "" if group.port else group.name)
        if kind not in weakest or group.factor < weakest[kind].factor:
            weakest[kind] = group
    return list(weakest.values())


def make_loads(job: BoxJob, kit: Kit, width_mm: float) -> Any:
    """Return what is lifted or carried, and by how many people."""
    words = take_words("strength_tables", kit.reader.language)
    rows: list[list[Any]] = [[words(f"loads_{name}") for name in ("what", "weight", "people")]]
    lifted = plan_lift(job.project, job.design.handling).way == "lift"
    for load in job.design.handling.loads:
        people = words("on_lift") if lifted and load.name == BOX else str(load.people)
        rows.append([say(load.what, kit.reader), write_amount(load.weight_kg, "mass_kg", kit.reader), people])
    total = job.design.handling.total_kg
    rows.append([words("everything"), write_amount(total, "mass_kg", kit.reader), words("stays_hung")])
    return kit.table(rows, align="lrr", size=SIZE, width_mm=width_mm)


def make_reach(job: BoxJob, kit: Kit, width_mm: float) -> Any:
    """Return how far an arm goes in to every port."""
    reach, words = job.design.reach, take_words("strength_tables", kit.reader.language)
    rows: list[list[Any]] = [[words("reach_from", port=reach.port or ""), words("reach_far"), words("reach_arm")]]
    limit = write_mark(reach.limit_mm, kit.reader)
    short = words("reach_short", arm=limit)
    rows += [[t.name, write_mark(t.reach_mm, kit.reader), limit if t.can else short] for t in reach.targets]
    return kit.table(rows, align="lrr", size=SIZE, width_mm=width_mm)
