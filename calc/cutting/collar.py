"""The strip that wraps round a tapered pail and marks a square cut: the true development of a cone."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

from calc.box.ports import CollarDesign
from calc.finding import Amount, Said
from calc.project import Panel
from calc.shapes.shapes import Arc, Feature, FlatPart, Layer, Line, Path, Point, Size, move_shape

STRIP_SPARE_MM = 10.0
"""What sticks out inside the box before it is trimmed flush."""

RING_EDGE, SAW_EDGE = Said("collar.ring_edge"), Said("collar.saw_edge")

TAB_MM = 10.0
APART_MM = 6.0
STRAIGHT_MM = 1e6
"""A pail whose slant radius is longer than this counts as straight."""


@dataclass(frozen=True)
class WrapStrip:
    """A developed band of a pail between the ring's lower edge and the cut line, all in millimetres.

    ring_radius_mm, cut_radius_mm: slant radii of the two edges from the cone's tip; the cut's is the smaller on a
    pail that narrows toward its bottom, the larger on one that widens. sweep_deg: the angle a full turn takes.
    ring_edge_mm: true length of the ring's edge, the pail's girth there. width_mm: along the slant.
    A straight pail has no tip: its radii are infinite and its sweep is 0.
    """

    ring_radius_mm: float
    cut_radius_mm: float
    sweep_deg: float
    ring_edge_mm: float
    width_mm: float


def develop_strip(ring_mm: float, top_mm: float, bottom_mm: float, height_mm: float, width_mm: float) -> WrapStrip:
    """Return the strip for a pail `ring_mm` across under the ring, tapering from top_mm to bottom_mm over height_mm.

    A cone's surface unrolls without stretch into a sector: slant radius R = r / sin(a) and angle 360 sin(a), where
    tan(a) = (r_top - r_bottom) / height (plane geometry, any text on sheet-metal development). Raises ValueError for
    a pail without height.
    """
    if height_mm <= 0:
        raise ValueError("the pail's height must be more than 0")
    sine = math.sin(math.atan2((top_mm - bottom_mm) / 2, height_mm))
    if abs(sine) * STRAIGHT_MM < ring_mm / 2:
        girth = math.pi * ring_mm
        return WrapStrip(math.inf, math.inf, 0.0, girth, width_mm)
    ring = ring_mm / 2 / abs(sine)
    cut = ring - math.copysign(width_mm, sine)
    sweep = 360.0 * abs(sine)
    turn = math.radians(sweep)
    return WrapStrip(ring, cut, sweep, ring * turn, width_mm)


def design_strip(design: CollarDesign, panel: Panel) -> WrapStrip:
    """Return the strip of a port: as wide as the panel is thick and a spare that is trimmed flush later."""
    pail = design.port.pail
    return develop_strip(
        design.mean_mm, pail.top_mm, pail.bottom_mm, pail.height_mm, panel.thickness_mm + STRIP_SPARE_MM
    )


def make_strip(strip: WrapStrip, design: CollarDesign, number: str, ports: str = "") -> FlatPart:
    """Return the whole strip in one piece, its middle at 0, 0 and the ring's edge up; ports: all that share it."""
    return FlatPart(
        number=number,
        name=f"wrap strip {ports or design.name}",
        features=_draw_piece(strip, -0.5, 0.5, "", ""),
        quantity=1,
        material="paper",
        thickness_mm=0.1,
        face=Said("collar.face"),
        kind="wrap strip",
        full_size=False,
        assumed=tuple(dict.fromkeys((*design.assumed, *design.taper_assumed))),
        sizes=_list_sizes(strip, design),
        called=Said("collar.wrap_strip", names={"ports": ports or design.name}),
    )


def make_strip_pieces(
    strip: WrapStrip, design: CollarDesign, number: str, longest_mm: float, ports: str = ""
) -> FlatPart:
    """Return the strip in equal pieces, none longer than longest_mm with its tab, stacked to share one sheet of paper.

    ports: names of all ports that share it, if several. Raises ValueError when longest_mm leaves no room for a tab.
    """
    if longest_mm <= 2 * TAB_MM:
        raise ValueError("the sheet is too narrow for a wrap strip")
    count = max(1, math.ceil(strip.ring_edge_mm / (longest_mm - TAB_MM)))
    features: list[Feature] = []
    drop = 0.0
    for index in range(count):
        first, last = str(index + 1), str((index + 1) % count + 1)
        piece = _draw_piece(strip, -0.5 / count, 0.5 / count, first, last)
        rise = max(_find_rise(strip, count), 0.0)
        features += [_move(feature, 0.0, drop) for feature in piece]
        drop -= strip.width_mm + rise + APART_MM
    return FlatPart(
        number=number,
        name=f"wrap strip {ports or design.name}",
        features=tuple(features),
        quantity=1,
        material="paper",
        thickness_mm=0.1,
        face=Said("collar.face"),
        kind="wrap strip",
        cnc=False,
        assumed=tuple(dict.fromkeys((*design.assumed, *design.taper_assumed))),
        sizes=_list_sizes(strip, design),
        notes=(Said("collar.note", {"count": Amount(count, "count")}),),
        called=Said("collar.wrap_strip", names={"ports": ports or design.name}),
    )


def _list_sizes(strip: WrapStrip, design: CollarDesign) -> tuple[Size, ...]:
    pail = design.port.pail
    return (
        Size(Said("collar.across"), design.mean_mm),
        Size(Said("collar.round_it"), strip.ring_edge_mm),
        Size(Said("collar.pail_top"), pail.top_mm),
        Size(Said("collar.pail_bottom"), pail.bottom_mm),
        Size(Said("collar.pail_height"), pail.height_mm),
    )


def _find_rise(strip: WrapStrip, count: int) -> float:
    """Return how far a piece bows beyond its width."""
    if not strip.sweep_deg:
        return 0.0
    return max(strip.ring_radius_mm, strip.cut_radius_mm) * (1 - math.cos(math.radians(strip.sweep_deg / count / 2)))


def _draw_piece(strip: WrapStrip, start: float, end: float, first: str, last: str) -> tuple[Feature, ...]:
    """Return one piece between two fractions of a turn (-0.5 .. 0.5), ring edge up, with a tab at its right end."""
    if not strip.sweep_deg:
        return _draw_straight(strip, start, end, first, last)
    side = 1.0 if strip.cut_radius_mm < strip.ring_radius_mm else -1.0  # the tip lies below, or above
    tip = Point(0.0, -side * strip.ring_radius_mm)  # the ring's edge passes through 0, 0
    left, right = 90.0 * side - side * start * strip.sweep_deg, 90.0 * side - side * end * strip.sweep_deg
    tab_deg = right - side * math.degrees(TAB_MM / strip.ring_radius_mm)
    lean = 3.0 if side > 0 else -3.0
    tab = Line(_find_on(tip, strip.ring_radius_mm - lean, tab_deg), _find_on(tip, strip.cut_radius_mm + lean, tab_deg))

    def edge(radius: float) -> Arc:
        return Arc(tip, radius, min(left, right), max(left, right))

    corners = [
        _find_on(tip, radius, angle)
        for radius, angle in (
            (strip.cut_radius_mm, left),
            (strip.ring_radius_mm, left),
            (strip.ring_radius_mm, right),
            (strip.cut_radius_mm, right),
        )
    ]
    return (
        Feature(
            shape=edge(strip.ring_radius_mm),
            layer=Layer.CUT,
            label=RING_EDGE,
            waste="outside" if side > 0 else "inside",
        ),
        Feature(
            shape=edge(strip.cut_radius_mm), layer=Layer.CUT, label=SAW_EDGE, waste="inside" if side > 0 else "outside"
        ),
        *_draw_ends(corners[0], corners[1], corners[2], corners[3], tab, first, last),
    )


def _find_on(centre: Point, radius: float, angle_deg: float) -> Point:
    return Arc(centre, radius, angle_deg, angle_deg + 1.0).at(angle_deg)


def _draw_straight(strip: WrapStrip, start: float, end: float, first: str, last: str) -> tuple[Feature, ...]:
    left, right, deep = start * strip.ring_edge_mm, end * strip.ring_edge_mm, -strip.width_mm
    a, b, c, d = Point(left, deep), Point(left, 0.0), Point(right, 0.0), Point(right, deep)
    tab = Line(Point(right + TAB_MM, -3.0), Point(right + TAB_MM, deep + 3.0))
    return (
        Feature(shape=Line(b, c), layer=Layer.CUT),
        Feature(shape=Line(Point(left, -4.6), Point(right, -4.6)), layer=Layer.GHOST, label=RING_EDGE),
        Feature(shape=Line(a, d), layer=Layer.CUT, label=SAW_EDGE),
        *_draw_ends(a, b, c, d, tab, first, last),
    )


def _draw_ends(
    left_low: Point, left_up: Point, right_up: Point, right_low: Point, tab: Line, first: str, last: str
) -> tuple[Feature, ...]:
    """Return both ends, the tab, and the numbers that say which piece meets which."""
    tongue = Path((Line(right_up, tab.start), tab, Line(tab.end, right_low)), closed=False)
    features = [
        Feature(shape=Line(left_low, left_up), layer=Layer.CUT),
        Feature(shape=Line(right_low, right_up), layer=Layer.CUT),
        Feature(shape=tongue, layer=Layer.MARK),
    ]
    for corner, text, inward in ((left_low, first, 5.0), (right_low, last, TAB_MM / 2)):
        if text:
            spot = Point(corner.x + inward, corner.y + 7.0)
            features.append(
                Feature(
                    shape=Line(Point(spot.x - 1.5, spot.y), Point(spot.x + 1.5, spot.y)), layer=Layer.MARK, label=text
                )
            )
    return tuple(features)


def _move(feature: Feature, right: float, up: float) -> Feature:
    return replace(feature, shape=move_shape(feature.shape, right, up))
