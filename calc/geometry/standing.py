"""How far the box stands off the building or the floor: rails behind or over it, or a cart's base below it."""

from __future__ import annotations

import math

from calc.geometry.joints import BoxShape
from calc.project import Project

RAIL_LEAST_MM = 15.0
"""A rail thinner than this is made of layers (common practice, no source)."""

RAIL_WIDE_MM = 75.0
RAIL_PLAY_MM = 10.0
"""Room between a rail and an opening beside it."""

RAIL_OVER_MM = 50.0
"""What a ceiling rail sticks out beyond the box for its lag screws (common practice, no source)."""

CASTER_MM = 100.0
"""Height over all of a 3 in (75 mm) caster with its plate (common practice, no source: measure yours)."""

CASTER_INSET_MM = 40.0
"""Middle of a caster's plate from the edge of the base (common practice, no source)."""


def count_layers(project: Project) -> int:
    """Return how many layers of panel stock make a rail: two under a ceiling, else enough for the least thickness."""
    t = project.box.panel.thickness_mm
    enough = max(1, math.ceil(RAIL_LEAST_MM / t - 1e-9)) if t > 0 else 1
    return max(2, enough) if project.box.hung == "ceiling" else enough


def find_rail_thickness(project: Project) -> float:
    """Return how thick [mm] a rail is."""
    return count_layers(project) * project.box.panel.thickness_mm


def find_stand_off(project: Project) -> float:
    """Return how far [mm] a box on a wall stands off it: its rail's thickness; 0 elsewhere."""
    return find_rail_thickness(project) if project.box.hung == "wall" else 0.0


def find_rails_high(project: Project) -> float:
    """Return how far [mm] down the back a wall's two rails reach: their bevels let them overlap by their thickness."""
    return 2 * RAIL_WIDE_MM - find_rail_thickness(project)


def find_top_gap(project: Project) -> float:
    """Return the least gap [mm] between box and ceiling: the one asked for, or the rails that lie there."""
    rails = find_rail_thickness(project) if project.box.hung == "ceiling" else 0.0
    return max(project.box.ceiling_gap_mm, rails)


def find_stand(project: Project) -> float:
    """Return how high [mm] the top of a cart's base stands above the floor; 0 elsewhere."""
    return CASTER_MM + project.box.panel.thickness_mm if project.box.hung == "cart" else 0.0


def find_wheels(project: Project, shape: BoxShape) -> tuple[float, float]:
    """Return the spacing [mm] of a cart's wheels, across and deep: as the file says deep, else under the corners."""
    asked = project.box.cart_wheelbase_mm
    across = max(shape.outside.width - 2 * CASTER_INSET_MM, asked or 0.0)
    return across, asked if asked is not None else shape.outside.depth - 2 * CASTER_INSET_MM


def find_base(project: Project, shape: BoxShape) -> tuple[float, float]:
    """Return the width and depth [mm] of a cart's base: room for its wheels, and never smaller than the box."""
    across, deep = find_wheels(project, shape)
    rim = 2 * CASTER_INSET_MM
    return max(shape.outside.width, across + rim), max(shape.outside.depth, deep + rim)
