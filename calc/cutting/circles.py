"""Settings for those who cut circles with a jig instead of paper: pivot distances, hole saws, jigsaw guides."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from typing import Literal

from calc.finding import Said
from calc.project import Methods
from calc.shapes.shapes import Circle, Feature, FlatKind, FlatPart, Layer

LEAST_JIG_MM = 40.0
"""Smaller circles are drilled."""

KNIFE_CUT: tuple[FlatKind, ...] = ("gasket", "wrap strip", "test card", "lining")
"""What is cut with a knife along its template needs no jig."""

WISHED: tuple[FlatKind, ...] = ("test disc", "reinforcing ring")
"""What no step makes unless the file asks for it; it has a sheet of its own then."""

HOLE_SAWS_MM: tuple[float, ...] = tuple(25.4 / 16 * n for n in (12, 14, 16, 18, 20, 24, 28, 32, 36, 40, 48, 56, 64))
"""Hole saws commonly sold by sixteenths, 3/4 in to 4 in (common practice, no source)."""


@dataclass(frozen=True)
class Pass:
    """One cut of the sneak-up. radius_mm: of the edge it leaves; pivot_mm: middle of pivot to near edge of bit for a
    hole's inside setting (``near_edge_mm``) and to the bit's middle (``bit_middle_mm``)."""

    name: str
    radius_mm: float
    near_edge_mm: float
    bit_middle_mm: float


@dataclass(frozen=True, kw_only=True)
class CircleSettings:
    """How one circle is cut. keep: ``hole`` (the outside stays) or ``disc`` (the inside stays).

    router, jigsaw: the passes, first cut first
    hole_saw_mm: the nearest common hole saw that does not cut too large, None when there is none within 0.8 mm
    guide_mm: across a round guide that the jigsaw's base runs along on the final pass; None: base not measured, or
    the circle too small for one
    """

    name: str | Said
    keep: Literal["hole", "disc"]
    diameter_mm: float
    router: tuple[Pass, ...]
    jigsaw: tuple[Pass, ...]
    hole_saw_mm: float | None
    guide_mm: float | None = None


def set_pivot(diameter_mm: float, bit_mm: float, keep: Literal["hole", "disc"]) -> tuple[float, float]:
    """Return pivot to the near edge of the bit, and pivot to its middle [mm].

    For a hole the far side of the bit runs on the circle: near edge = r - bit, middle = r - bit/2. For a disc the
    near side does: near edge = r, middle = r + bit/2. Raises ValueError when the bit is wider than the hole.
    """
    radius = diameter_mm / 2
    if keep == "disc":
        return radius, radius + bit_mm / 2
    if bit_mm > diameter_mm:
        raise ValueError(f"a {bit_mm:.1f} mm bit is wider than a {diameter_mm:.1f} mm hole")
    return radius - bit_mm, radius - bit_mm / 2


def set_guide(diameter_mm: float, kerf_mm: float, base_mm: float, keep: Literal["hole", "disc"]) -> float | None:
    """Return how far across a disc is [mm] round which the base's edge runs, blade outside it, to cut a circle.

    base_mm: from the edge of the base to the near side of the blade. For a hole the far side of the cut is the line:
    guide = diameter - 2 (base + kerf); for a disc the near side is: guide = diameter - 2 base. None below 40 mm.
    """
    guide = diameter_mm - 2 * (base_mm + (kerf_mm if keep == "hole" else 0.0))
    return guide if guide >= LEAST_JIG_MM else None


def list_passes(
    diameter_mm: float, bit_mm: float, keep: Literal["hole", "disc"], allowance_mm: float
) -> tuple[Pass, ...]:
    """Return the passes of a sneak-up: the first an allowance [mm on the radius] on the waste side, then halving it,
    then the final line. Without allowance there is one pass."""
    steps = [("first cut", allowance_mm), ("half way", allowance_mm / 2)] if allowance_mm > 0 else []
    passes = []
    for name, short in [*steps, ("final line", 0.0)]:
        diameter = diameter_mm - 2 * short if keep == "hole" else diameter_mm + 2 * short
        near, middle = set_pivot(diameter, bit_mm, keep)
        passes.append(Pass(name, diameter / 2, near, middle))
    return tuple(passes)


def set_circle(
    name: str | Said, diameter_mm: float, keep: Literal["hole", "disc"], methods: Methods, *, sneak: bool = True
) -> CircleSettings:
    """Return all settings of one circle for the bit and blade of the shop. Raises ValueError for a bit too wide."""
    allowance = methods.allowance_mm if sneak else 0.0
    return CircleSettings(
        name=name,
        keep=keep,
        diameter_mm=diameter_mm,
        router=list_passes(diameter_mm, methods.bit_mm, keep, allowance),
        jigsaw=list_passes(diameter_mm, min(methods.kerf_mm, diameter_mm), keep, allowance),
        hole_saw_mm=pick_hole_saw(diameter_mm, HOLE_SAWS_MM) if keep == "hole" else None,
        guide_mm=None if methods.base_mm is None else set_guide(diameter_mm, methods.kerf_mm, methods.base_mm, keep),
    )


def pick_hole_saw(diameter_mm: float, saws_mm: Iterable[float], short_mm: float = 0.8) -> float | None:
    """Return the largest saw that is no larger than the hole and no more than short_mm smaller, or None."""
    fitting = [saw for saw in saws_mm if diameter_mm - short_mm <= saw <= diameter_mm + 1e-9]
    return max(fitting, default=None)


def list_settings(parts: Iterable[FlatPart], methods: Methods) -> tuple[CircleSettings, ...]:
    """Return the settings of every large circle that is cut, one line for circles alike within 0.01 mm."""
    found: dict[tuple[str, str, int], CircleSettings] = {}
    for part in sorted(parts, key=lambda p: not p.full_size):  # a port's own hole gives the name, not its panel
        if part.kind in KNIFE_CUT or (part.kind in WISHED and not part.full_size):
            continue
        firsts = any(f.layer is Layer.FIRST_CUT for f in part.features)
        for feature in part.features:
            if not _is_jig_cut(feature):
                continue
            assert isinstance(feature.shape, Circle)
            diameter = 2 * feature.shape.radius
            keep: Literal["hole", "disc"] = "disc" if feature.waste == "outside" else "hole"
            key = (part.material, keep, round(diameter * 100))
            if key in found:
                continue
            many = sum(_is_jig_cut(f) for f in part.features) > 1
            which = ("_outside" if keep == "disc" else "_hole") if many else ""
            found[key] = set_circle(_name_part(part, which), diameter, keep, methods, sneak=firsts)
    return tuple(found.values())


@dataclass(frozen=True)
class Drilled:
    """Holes of one size in one part, drilled: how many in all pieces of the part."""

    part: Said
    diameter_mm: float
    count: int


def list_drilled(parts: Iterable[FlatPart]) -> tuple[Drilled, ...]:
    """Return the drilled holes of every part that has a template or is cut by hand, by part and size."""
    found: list[Drilled] = []
    for part in parts:
        if not part.full_size:
            continue
        sizes: dict[float, int] = {}
        for feature in part.features:
            if feature.layer is Layer.DRILL and isinstance(feature.shape, Circle):
                diameter = round(2 * feature.shape.radius, 3)
                sizes[diameter] = sizes.get(diameter, 0) + part.quantity
        found += [Drilled(_name_part(part), size, count) for size, count in sorted(sizes.items())]
    return tuple(found)


def _name_part(part: FlatPart, which: str = "") -> Said:
    return Said(f"circles.part{which}", names={"number": part.number, "part": part.called or part.name})


def _is_jig_cut(feature: Feature) -> bool:
    shape = feature.shape
    return feature.layer is Layer.CUT and isinstance(shape, Circle) and 2 * shape.radius >= LEAST_JIG_MM
