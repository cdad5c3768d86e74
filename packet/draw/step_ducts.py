"""A run of duct at a step: trunk, branches, gates, hoses and the bonding wire, widths in the project's proportion."""

from __future__ import annotations

from calc.geometry.shapes import Box
from calc.project import Hose, Machine, Piece, Project
from packet.draw.model import Drawing, Entity, Pen
from packet.draw.step_rings import FOCUS, PLAIN, RIGHT_WORDS, name_at
from packet.draw.strokes import close_drawing, draw_line, draw_rectangle, fill_rectangle

WIDE, TALL = 100.0, 76.0
TRUNK_Y, WIDEST, START = 60.0, 11.0, 18.0
GATE_Y, HOSE_TOP, HOSE_LOW = 40.0, 31.0, 15.0
MOST = 4
"""How many branches are drawn: more would run into each other."""


def draw_run(project: Project, focus: str, scale: float) -> Drawing:
    """Return the run with most machines on it, lengths not to scale. focus: ``pipes``, ``gates`` or ``wire``."""
    run = max(project.runs, key=lambda each: sum(machine.on == each.name for machine in project.machines))
    machines = [machine for machine in project.machines if machine.on == run.name][:MOST]
    across = {machine.name: _find_across(machine) for machine in machines}
    trunk = max([*(_measure(piece) for piece in run.pieces), *across.values()])
    half = WIDEST / 2
    entities: list[Entity] = [
        *_draw_block(0.0, TRUNK_Y - 14.0, START, TRUNK_Y + 14.0, PLAIN),
        *_draw_block(START, TRUNK_Y - half, WIDE, TRUNK_Y + half, FOCUS if focus == "pipes" else PLAIN),
    ]
    spots = [START + (WIDE - START) * (i + 0.7) / max(len(machines), 1) - 4.0 for i in range(len(machines))]
    for machine, x in zip(machines, spots, strict=True):
        entities += _draw_branch(machine, x, half * across[machine.name] / trunk, focus)
    if focus == "wire":
        entities += _draw_wire(spots)
    right = WIDE + 1.5 / scale
    names = [(TRUNK_Y, {"pipes": "main duct", "gates": "main duct", "wire": "wire"}[focus])]
    names += [(GATE_Y, "gate" if focus != "wire" else "across gate")] if any(m.gate for m in machines) else []
    hosed = any(_has_hose(machine) for machine in machines)
    names += [(HOSE_LOW + 5.0, "hose" if focus != "wire" else "across hose")] if hosed else []
    names.append((2.0, "machine"))
    entities += [name_at(right, y, text) for y, text in names]
    return close_drawing(f"ducts, {focus}", entities, Box(0.0, 0.0, WIDE, TALL), RIGHT_WORDS, scale)


def _measure(piece: Piece) -> float:
    across = getattr(piece, "diameter_m", None) or getattr(piece, "to_m", None)
    return float(across or 0.0)


def _find_across(machine: Machine) -> float:
    if machine.gate:
        return machine.gate.diameter_m
    pieces = [*machine.pieces, *(piece for pickup in machine.pickups for piece in pickup.pieces)]
    return max((_measure(piece) for piece in pieces), default=0.1)


def _has_hose(machine: Machine) -> bool:
    pieces = [*machine.pieces, *(piece for pickup in machine.pickups for piece in pickup.pieces)]
    return any(isinstance(piece, Hose) for piece in pieces)


def _draw_block(left: float, low: float, right: float, high: float, tone: float) -> list[Entity]:
    return [fill_rectangle(left, low, right, high, tone), draw_rectangle(left, low, right, high)]


def _draw_branch(machine: Machine, x: float, half: float, focus: str) -> list[Entity]:
    tone = FOCUS if focus == "pipes" else PLAIN
    entities = _draw_block(x - half, 10.0, x + half, TRUNK_Y - WIDEST / 2, tone)
    if _has_hose(machine):
        rings = range(int((HOSE_TOP - HOSE_LOW) / 3.0) + 1)
        entities += [draw_line(x - half, HOSE_LOW + 3.0 * i, x + half, HOSE_LOW + 3.0 * i, Pen.MARK) for i in rings]
    if machine.gate:
        dark = 0.2 if focus == "gates" else 0.75
        entities += _draw_block(x - half - 3.0, GATE_Y - 2.0, x + half + 5.0, GATE_Y + 2.0, dark)
    return [*entities, *_draw_block(x - 7.0, 0.0, x + 7.0, 10.0, PLAIN)]


def _draw_wire(spots: list[float]) -> list[Entity]:
    """Return the wire along the trunk to the blower's end, and from it down across each gate and hose."""
    high = TRUNK_Y + WIDEST / 2 + 2.5
    entities: list[Entity] = [draw_line(0.0, high, WIDE, high, Pen.CUT)]
    entities += [draw_line(x - 6.3, high, x - 6.3, 10.0, Pen.CUT) for x in spots]
    return entities
