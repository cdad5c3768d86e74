"""All runs of duct at a step as a tree in space, numbered as in the list of ducts: not the plan of the shop.

Widths are in the project's proportion, lengths are not: a run is as long as what joins it needs.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

from calc.project import Aired, Hose, Machine, Piece, Run
from calc.shapes.faces import Block
from packet.draw.model import Drawing, Entity, Fill, Pen, Stroke
from packet.draw.rings import Ring
from packet.draw.steps.solids import FOCUS_TONE, Name, Thing, Vector, close_scene, draw_brick, draw_drum, move_along
from packet.draw.strokes import join_points
from packet.draw.views.exploded import Sight
from packet.words.phrases import take_words
from packet.work.ducts import number_ducts

PITCH, DROP, WIDEST = 42.0, 34.0, 8.0
MACHINE = 9.0
GATE_AT, HOSE_AT = 0.22, 0.5  # of a branch, from the run down
DARK = 0.2
RING_MM = 1.6
SIGHT = Sight(False)
BLOWER_MM = 22.0
MOST_MACHINES = 15


@dataclass(frozen=True, kw_only=True)
class Way:
    """A duct from its upper end to where the air leaves it. axis: 0 along, 1 across, 2 down."""

    key: str
    start: Vector
    end: Vector
    axis: int
    across: float
    machine: Machine | None = None


def show_first(project: Aired, machine: str) -> Aired:
    """Return the project with no more machines than a picture on a card can tell apart, and the runs they need."""
    if len(project.machines) <= MOST_MACHINES:
        return project
    first = [each for each in project.machines if each.name == machine]
    first += [each for each in project.machines if each.name != machine][: MOST_MACHINES - len(first)]
    runs = {run.name: run for run in project.runs}
    needed: set[str] = set()
    for each in first:
        name = each.on
        while name in runs and name not in needed:
            needed.add(name)
            name = runs[name].into
    machines = tuple(each for each in project.machines if each in first)
    return replace(project, machines=machines, runs=tuple(run for run in project.runs if run.name in needed))


class DuctTree:
    """Draws the ducts. focus: ``pipes``, ``gates``, ``wire``, or ``open`` with the machine whose gate is open."""

    def __init__(self, project: Aired, language: str, focus: str, machine: str, scale: float) -> None:
        self.project, self.focus, self.scale = show_first(project, machine), focus, scale
        self.words = take_words("step_pictures", language)
        self.numbers = number_ducts(project)
        project = self.project
        self.widest = max([_measure_run(run) for run in project.runs] + [_measure(each) for each in project.machines])
        self.ways: list[Way] = []
        self.open = self._list_open(machine) if focus == "open" else set[str]()

    def draw(self) -> Drawing:
        """Return the tree with the blower at its root."""
        y = 0.0
        for run in (run for run in self.project.runs if run.into not in {each.name for each in self.project.runs}):
            self._lay_run(run, (0.0, y, 0.0), 0, 1.0)
            y -= PITCH * 2
        things = [self._draw_blower(), *(self._draw_way(way) for way in self.ways)]
        entities = [entity for thing in sorted(things, key=lambda each: each.depth) for entity in thing.entities]
        if self.focus == "wire":
            entities += self._draw_wire()
        rings = [
            Ring(*SIGHT.see(self._find_ring(way)), self.numbers[way.key])
            for way in self.ways
            if way.key in self.numbers and self._is_numbered(way)
        ]
        return close_scene(f"ducts, {self.focus}", SIGHT, entities, rings, self._list_names(), self.scale, RING_MM)

    def _is_numbered(self, way: Way) -> bool:
        """Tell whether a duct shows its number: those that the step touches."""
        return {
            "pipes": True,
            "gates": way.machine is not None and way.machine.gate is not None,
            "open": way.key in self.open,
        }.get(self.focus, False)

    def _find_ring(self, way: Way) -> Vector:
        """Return where a duct's number stands: on a run, or before the machine at the end of a branch."""
        if way.axis != 2:
            return _find_spot(way, 0.55)
        x, y, z = way.end
        return x, y - MACHINE, z - 0.9 * MACHINE

    # --- laying out ---------------------------------------------------------------------------------------------------

    def _list_open(self, machine: str) -> set[str]:
        """Return the ducts that air goes through with one gate open."""
        found = {f"machine {machine}"}
        runs = {run.name: run for run in self.project.runs}
        run = runs.get(next(each.on for each in self.project.machines if each.name == machine))
        while run is not None and f"run {run.name}" not in found:
            found.add(f"run {run.name}")
            run = runs.get(run.into)
        return found

    def _lay_run(self, run: Run, at: Vector, axis: int, sign: float) -> float:
        """Lay a run from its downstream end ``at``, with all that joins it; return how long it came out.

        What joins a run turns off to both its sides by turns; machines hang from it.
        """
        long = 0.6 * PITCH
        sides = {1.0: long, -1.0: long}  # how far along the run each of its sides is taken
        for number, each in enumerate(each for each in self.project.runs if each.into == run.name):
            way = 1.0 if number % 2 == 0 else -1.0
            spot = sides[way]
            reach = self._lay_run(each, move_along(at, axis, sign * spot), 1 - axis, way)
            sides[way] = spot + (PITCH if axis == 0 else reach)
            long = max(long, spot + 0.3 * PITCH)
        if any(machine.on == run.name for machine in self.project.machines):
            long = max(long, *(side for side in sides.values())) if max(sides.values()) > 0.6 * PITCH else long
        hanging = [each for each in self.project.machines if each.on == run.name]
        for machine in sorted(hanging, key=lambda each: each.join.kind == "straight"):  # that one is the run's end
            top = move_along(at, axis, sign * long)
            across = self._scale(_measure(machine))
            self.ways.append(
                Way(
                    key=f"machine {machine.name}",
                    start=top,
                    end=move_along(top, 2, -DROP),
                    axis=2,
                    across=across,
                    machine=machine,
                )
            )
            long += PITCH * 0.8
        long -= 0.6 * PITCH if any(machine.on == run.name for machine in self.project.machines) else 0.0
        end = move_along(at, axis, sign * long)
        self.ways.append(
            Way(key=f"run {run.name}", start=at, end=end, axis=axis, across=self._scale(_measure_run(run)))
        )
        return long

    def _scale(self, across_m: float) -> float:
        return WIDEST * max(across_m / self.widest, 0.3)

    # --- drawing ------------------------------------------------------------------------------------------------------

    def _draw_way(self, way: Way) -> Thing:
        lit = self.focus == "pipes" or way.key in self.open
        entities: list[Entity] = []
        depth = SIGHT.measure_depth(_find_spot(way, 0.5))
        entities += draw_drum(SIGHT, way.start, way.end, way.axis, way.across, FOCUS_TONE if lit else 0.96)
        if way.machine is not None:
            entities += self._draw_branch(way, way.machine)
        return Thing(depth, tuple(entities))

    def _draw_branch(self, way: Way, machine: Machine) -> list[Entity]:
        """Return hose rings, gate and machine of a branch."""
        x, y, z = way.end
        half = MACHINE
        block = Block((x - half, y - half, z - 1.6 * half), (x + half, y + half, z))
        entities = draw_brick(SIGHT, block, None, Pen.OUTLINE)
        if _has_hose(machine):
            for step in range(5):
                at = _find_spot(way, HOSE_AT + step * 0.11)
                entities += draw_drum(SIGHT, at, move_along(at, 2, -1.2), 2, way.across * 1.18, 0.9)
        if machine.gate is not None:
            shut = self.focus == "open" and way.key not in self.open
            tone = DARK if self.focus == "gates" or shut else 0.96
            x, y, z = _find_spot(way, GATE_AT)
            pull = 0.0 if shut or self.focus != "open" else 0.7 * way.across
            wide = way.across * 0.9
            plate = Block((x - wide + pull, y - wide, z - 1.6), (x + wide + pull, y + wide, z + 1.6))
            entities += draw_brick(SIGHT, plate, tone, Pen.OUTLINE)
        return entities

    def _draw_blower(self) -> Thing:
        block = Block((-BLOWER_MM, -BLOWER_MM / 2, -BLOWER_MM), (0.0, BLOWER_MM / 2, BLOWER_MM / 2))
        return Thing(-1e6, tuple(draw_brick(SIGHT, block, None, Pen.OUTLINE)))

    def _draw_wire(self) -> list[Entity]:
        """Return the wire: along each duct over gates and hoses, from the machines' metal to the blower's frame."""
        entities: list[Entity] = []
        for way in self.ways:
            out = way.across * 0.5 + 1.2
            shift = (0.0, 0.0, out) if way.axis != 2 else (out * 0.75, -out * 0.75, 0.0)
            ends = [_add(way.start, shift), _add(way.end, shift)]
            line = join_points([SIGHT.see(end) for end in ends], closed=False)
            entities.append(Stroke(line, Pen.HIGHLIGHT))
        frame, earth = (-BLOWER_MM / 2, -BLOWER_MM / 2, BLOWER_MM / 2), (-BLOWER_MM / 2, -BLOWER_MM / 2, -BLOWER_MM)
        root = (0.0, 0.0, WIDEST / 2 + 1.2)
        path = join_points([SIGHT.see(at) for at in (root, frame, earth)], closed=False)
        x, y = SIGHT.see(earth)
        entities.append(Stroke(path, Pen.HIGHLIGHT))
        for number, half in enumerate((7.0, 4.6, 2.2)):  # the sign for earth, IEC 60417-5017
            entities.append(
                Stroke(
                    join_points([(x - half, y - 3 - 3.2 * number), (x + half, y - 3 - 3.2 * number)], False),
                    Pen.OUTLINE,
                )
            )
        entities.append(Stroke(join_points([(x, y), (x, y - 3)], False), Pen.HIGHLIGHT))
        return [*entities, Fill(join_points([(x - 1, y - 1), (x + 1, y - 1), (x + 1, y + 1), (x - 1, y + 1)]), 0.0)]

    def _list_names(self) -> list[Name]:
        """Return names for the kinds of things, each once, at the branch farthest to the right."""
        branches = [way for way in self.ways if way.machine is not None]
        gated = [way for way in branches if way.machine and way.machine.gate]
        if self.focus == "open":
            gated = [way for way in gated if way.key in self.open] or gated
            branches = [way for way in branches if way.key in self.open] or branches
        right = [max(group, key=lambda way: SIGHT.see(way.end)[0]) for group in (branches, gated) if group]
        names = [] if self.focus == "open" else [Name((-BLOWER_MM / 2, 0.0, BLOWER_MM / 2), self.words("duct_blower"))]
        if gated:
            words = {"open": "duct_gate_open", "wire": "duct_across_gate"}.get(self.focus, "duct_gate")
            names.append(Name(_find_spot(right[1], GATE_AT), self.words(words)))
        if right[0].machine and _has_hose(right[0].machine):
            words = "duct_across_hose" if self.focus == "wire" else "duct_hose"
            names.append(Name(_find_spot(right[0], HOSE_AT + 0.2), self.words(words)))
        return [*names, Name(move_along(right[0].end, 2, -MACHINE), self.words("duct_machine"))] if right else names


def _add(at: Vector, shift: Vector) -> Vector:
    return at[0] + shift[0], at[1] + shift[1], at[2] + shift[2]


def _find_spot(way: Way, share: float) -> Vector:
    x, y, z = (a + share * (b - a) for a, b in zip(way.start, way.end, strict=True))
    return x, y, z


def _measure_piece(piece: Piece) -> float:
    across = getattr(piece, "diameter_m", None) or getattr(piece, "to_m", None)
    return float(across or 0.0)


def _measure_run(run: Run) -> float:
    return max((_measure_piece(piece) for piece in run.pieces), default=0.1)


def _measure(machine: Machine) -> float:
    if machine.gate:
        return machine.gate.diameter_m
    return max((_measure_piece(piece) for piece in machine.all_pieces), default=0.1)


def _has_hose(machine: Machine) -> bool:
    return any(isinstance(piece, Hose) for piece in machine.all_pieces)
