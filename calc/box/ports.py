"""The hole for a screw-on port: from the pail as measured to the lines that are cut and drilled."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, field, replace
from typing import Any

from calc.finding import Amount, Finding, Limit, Said, Subject, Verdict, hold
from calc.project import Face, Given, Opening, Pail
from calc.settled import PlacedPort
from calc.shapes.shapes import Circle, Feature, Layer, Line, Point, move_shape
from calc.trade import RING_SCREW_EDGE_MM, ROUND_ENOUGH_MM, TAPE_APART_MM, TYPING_ERROR_MM

PILOT_MM = 3.2
"""Pilot hole for a No. 8 screw in plywood (common practice, no source)."""


INDEX_SIDE: dict[Face, Face] = {
    "front": "top", "back": "top", "left": "top", "right": "top", "bottom": "front", "top": "back",
}  # fmt: skip
"""Which edge of the box the index points to, on each face seen from outside."""

_MIDDLE = Point(0.0, 0.0)


@dataclass(frozen=True, kw_only=True)
class CollarDesign:
    """One opening, all sizes in millimetres; circles are given by diameter and share the hole's centre.

    mean_mm: outside of the collar, mean of the readings
    hole_mm, first_cut_mm: final line, and the first saw line a stated allowance inside it
    bore_mm: clear opening inside the collar; flange_mm: outside of the ring's flange; lid_mm: outside of the lid
    grip_mm: circle to keep free so that a hand can turn the lid
    pilot_mm: drill; pilots: the screw holes seen from the outside face, from the port's centre
    index_deg: where the reference line crosses ring and panel; no screw stands on it
    assumed, ring_assumed, taper_assumed: the collar, the ring, or the pail's taper was assumed, not measured
    """

    port: Opening
    mean_mm: float
    hole_mm: float
    first_cut_mm: float
    bore_mm: float
    wall_mm: float
    flange_mm: float
    lid_mm: float
    grip_mm: float
    screw_circle_mm: float
    pilot_mm: float
    pilots: tuple[Point, ...]
    index_deg: float
    assumed: tuple[str, ...]
    findings: tuple[Finding, ...]
    ring_assumed: tuple[str, ...] = ()
    taper_assumed: tuple[str, ...] = ()

    @property
    def name(self) -> str:
        return self.port.name

    @property
    def index_side(self) -> Face | None:
        """Which edge of the box the index points to; None where no box is known."""
        return None


@dataclass(frozen=True, kw_only=True)
class PortDesign(CollarDesign):
    """An opening at its place on the box."""

    port: PlacedPort = field()

    @property
    def index_side(self) -> Face:
        """Which edge of the box the index points to."""
        return INDEX_SIDE[self.port.face]


def measure_pail(pail: Pail) -> tuple[float, float | None]:
    """Return the mean outside diameter [mm] of a pail, and widest less narrowest reading where there are several.

    Around wins over across: a tape gives the mean diameter of an oval collar, a rule only the width it lies on.
    Raises ValueError when the pail was not measured at all.
    """
    spread = max(pail.across_mm) - min(pail.across_mm) if len(pail.across_mm) > 1 else None
    if pail.around_mm is not None:
        return pail.around_mm / math.pi, spread
    if not pail.across_mm:
        raise ValueError("pail: neither across nor around is given")
    return sum(pail.across_mm) / len(pail.across_mm), spread


def design_port(project: Given, port: PlacedPort) -> PortDesign:
    """Return the hole, screws and clearances of one port. Raises ValueError when the pail was not measured at all."""
    return PortDesign(port=port, **_work_out(project, port))


def design_collar(project: Given, opening: Opening) -> CollarDesign:
    """Return the same of an opening whose panel is not known. Raises ValueError as ``design_port``."""
    return CollarDesign(port=opening, **_work_out(project, opening))


def _work_out(project: Given, port: Opening) -> dict[str, Any]:
    closure = port.closure
    mean, spread = measure_pail(port.pail)
    circle = closure.screw_circle_mm or (mean + closure.flange_mm) / 2
    half_step = 180.0 / closure.screws if closure.screws else 0.0
    index = 90.0
    return {
        "mean_mm": mean,
        "hole_mm": mean,
        "first_cut_mm": mean - 2 * project.methods.allowance_mm,
        "bore_mm": mean - 2 * port.pail.wall_mm,
        "wall_mm": port.pail.wall_mm,
        "flange_mm": closure.flange_mm,
        "lid_mm": closure.lid_mm,
        "grip_mm": closure.lid_mm + 2 * closure.grip_mm,
        "screw_circle_mm": circle,
        "pilot_mm": PILOT_MM,
        "pilots": place_on_circle(circle, closure.screws, index + half_step),
        "index_deg": index,
        "assumed": project.list_assumed(f"ports.{port.name}.pail", "across", "around"),
        "findings": _judge_pail(port, mean, spread) + _judge_ring(port, mean, circle),
        "ring_assumed": list_ring_assumed(project, port, ("flange", "screw_circle")),
        "taper_assumed": project.list_assumed(f"ports.{port.name}.pail", "top", "bottom", "height"),
    }


def list_ring_assumed(project: Given, port: Opening, keys: tuple[str, ...]) -> tuple[str, ...]:
    """Return which of these sizes of a port's ring or lid were assumed, for this port or for all of them."""
    places = ("closure", f"ports.{port.name}.closure")
    return tuple(dict.fromkeys(path for place in places for path in project.list_assumed(place, *keys)))


def place_on_circle(diameter_mm: float, count: int, start_deg: float) -> tuple[Point, ...]:
    """Return `count` points evenly round a circle about 0, 0 [mm], the first at an angle [deg]."""
    turns = [math.radians(start_deg + index * 360.0 / count) for index in range(count)]
    return tuple(Point(diameter_mm / 2 * math.cos(t), diameter_mm / 2 * math.sin(t)) for t in turns)


def draw_hole(
    design: CollarDesign, centre: Point, *, ghosts: bool = True, others: Sequence[Feature] = ()
) -> tuple[Feature, ...]:
    """Return the lines of a port on its panel, seen from outside: first cut, final cut, pilots, index, ghosts.

    ghosts: also the flange's edge and the circle a hand needs, which nobody cuts; others: further circles about
    0, 0 that belong to other pieces.
    """

    def circle(diameter: float, layer: Layer, label: str | Said = "", at: Point = _MIDDLE, waste: str = "") -> Feature:
        return Feature(
            shape=Circle(Point(centre.x + at.x, centre.y + at.y), diameter / 2), layer=layer, label=label, waste=waste
        )

    features = [
        circle(design.first_cut_mm, Layer.FIRST_CUT, Said("ports.cut_first"), waste="inside"),
        circle(design.hole_mm, Layer.CUT, Said("ports.final_line")),
    ]
    features += [circle(design.pilot_mm, Layer.DRILL, at=pilot) for pilot in design.pilots]
    features += mark_quadrants(design, centre)
    if ghosts:
        features.append(circle(design.flange_mm, Layer.GHOST, Said("ports.ring_edge")))
        features.append(circle(design.grip_mm, Layer.GHOST, Said("ports.keep_free")))
    features += [replace(other, shape=move_shape(other.shape, centre.x, centre.y)) for other in others]
    return tuple(features)


def mark_quadrants(design: CollarDesign, centre: Point) -> list[Feature]:
    """Return the centre cross, the index line across the ring, and ticks for the layout lines at the other quarters.

    The ticks beyond the flange are ghosts: they are worth no sheet of paper of their own.
    """

    def ray(angle_deg: float, near: float, far: float, layer: Layer = Layer.MARK, label: str | Said = "") -> Feature:
        turn = math.radians(angle_deg)
        ends = [Point(centre.x + r * math.cos(turn), centre.y + r * math.sin(turn)) for r in (near, far)]
        return Feature(shape=Line(ends[0], ends[1]), layer=layer, label=label)

    inner, outer = design.hole_mm / 2 + 3.0, design.flange_mm / 2
    side = design.index_side
    toward = Said(f"ports.to_{side}") if side else ""
    marks = [
        ray(design.index_deg, inner, outer, Layer.MARK, Said("ports.index")),
        ray(design.index_deg, outer, outer + 9.0, Layer.MARK, toward),
    ]
    for quarter in (1, 2, 3):
        angle = design.index_deg + 90.0 * quarter
        marks += [ray(angle, inner, inner + 6.0), ray(angle, outer + 3.0, outer + 12.0, Layer.GHOST)]
    for x, y in ((8.0, 0.0), (0.0, 8.0)):
        marks.append(
            Feature(shape=Line(Point(centre.x - x, centre.y - y), Point(centre.x + x, centre.y + y)), layer=Layer.MARK)
        )
    return marks


# --- findings -------------------------------------------------------------------------------------------------------


def _mm(value: float) -> Amount:
    return Amount(value, "length_mm")


def _judge_pail(port: Opening, mean: float, spread: float | None) -> tuple[Finding, ...]:
    """Hold the readings against each other, and against the ring the collar has to carry."""
    name = {"port": port.name}
    subjects = (Subject("pail", port.name), Subject("port", port.name))
    found: list[Finding] = []
    if spread is not None:
        found.append(
            hold(
                f"round.{port.name}",
                Said("ports.round_what", names=name),
                spread,
                Limit(TYPING_ERROR_MM, "at most", tight=TYPING_ERROR_MM - ROUND_ENOUGH_MM),
                Said("ports.round_why"),
                topic="pails",
                subjects=subjects,
                eases=(Said("ports.round_mend", names=name),),
                fine=True,
            )
        )
    both = port.pail.around_mm is not None and len(port.pail.across_mm) > 0
    if both:
        across = sum(port.pail.across_mm) / len(port.pail.across_mm)
        found.append(
            hold(
                f"tape.{port.name}",
                Said("ports.tape_what", names=name),
                abs(across - mean),
                Limit(ROUND_ENOUGH_MM, "at most", tight=ROUND_ENOUGH_MM - TAPE_APART_MM),
                Said("ports.tape_why"),
                topic="pails",
                subjects=subjects,
                eases=(Said("ports.tape_mend"),),
                fine=True,
            )
        )
    return tuple(found)


def _judge_ring(port: Opening, mean: float, circle: float) -> tuple[Finding, ...]:
    """Hold the hole and the screws against the ring's flange."""
    name = {"port": port.name}
    subjects = (Subject("pail", port.name), Subject("port", port.name))
    limit = Limit(RING_SCREW_EDGE_MM, "at least")
    cover = (port.closure.flange_mm - mean) / 2
    covered = hold(
        f"hole.{port.name}",
        Said("ports.cover_what", names=name),
        cover,
        limit,
        Said("ports.cover_why", {"mean": _mm(mean), "flange": _mm(port.closure.flange_mm)}),
        topic="pails",
        subjects=subjects,
        mends=(Said("ports.cover_mend", names=name),),
    )
    if covered.verdict is Verdict.DOES_NOT_FIT:
        return (covered,)
    return (
        hold(
            f"screws.{port.name}",
            Said("ports.screws_what", names=name),
            min(circle - mean, port.closure.flange_mm - circle) / 2,
            limit,
            Said("ports.screws_why"),
            topic="pails",
            subjects=subjects,
            mends=(Said("ports.screws_mend", {"circle": _mm((mean + port.closure.flange_mm) / 2)}),),
        ),
    )
