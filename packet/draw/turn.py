"""A drawing turned a quarter, or what of it falls into a window."""

from __future__ import annotations

from dataclasses import replace

from calc.shapes.shapes import Box, Line, Path, Shape, find_bounds, turn_point, turn_shape
from packet.draw.model import Dimension, Drawing, Entity, Fill, Stroke, Words

WORDS_REACH_MM = 60.0


def turn_drawing(drawing: Drawing) -> Drawing:
    """Return the drawing turned a quarter anticlockwise about 0, 0."""
    box = drawing.bounds
    bounds = Box(-box.top, box.left, -box.bottom, box.right)
    return replace(drawing, entities=tuple(_turn(e) for e in drawing.entities), bounds=bounds)


def _turn(entity: Entity) -> Entity:
    if isinstance(entity, Stroke):
        return replace(entity, shape=turn_shape(entity.shape))
    if isinstance(entity, Fill):
        outline = turn_shape(entity.outline)
        assert isinstance(outline, Path)
        return replace(entity, outline=outline)
    if isinstance(entity, Words):
        return replace(entity, at=turn_point(entity.at), turn_deg=entity.turn_deg + 90.0)
    return replace(entity, start=turn_point(entity.start), end=turn_point(entity.end))


def look_through(drawing: Drawing, window: Box) -> Drawing:
    """Return the drawing with the window as its bounds and without what lies wholly outside it."""
    return replace(drawing, entities=tuple(e for e in drawing.entities if _shows(e, window)), bounds=window)


def _shows(entity: Entity, window: Box) -> bool:
    if isinstance(entity, Stroke):
        return _meets(entity.shape, window)
    if isinstance(entity, Fill):
        return _meets(entity.outline, window)
    if isinstance(entity, Words):
        x, y, reach = entity.at.x, entity.at.y, WORDS_REACH_MM
        return window.left - reach < x < window.right + reach and window.bottom - reach < y < window.top + reach
    assert isinstance(entity, Dimension)
    return True


def _meets(shape: Shape, window: Box) -> bool:
    if isinstance(shape, Line):  # by far the most; no box is made for them
        a, b = shape.start, shape.end
        return (
            (a.x > window.left - 1.0 or b.x > window.left - 1.0)
            and (a.x < window.right + 1.0 or b.x < window.right + 1.0)
            and (a.y > window.bottom - 1.0 or b.y > window.bottom - 1.0)
            and (a.y < window.top + 1.0 or b.y < window.top + 1.0)
        )
    box = find_bounds((shape,))
    return not (
        box.right < window.left - 1.0
        or box.left > window.right + 1.0
        or box.top < window.bottom - 1.0
        or box.bottom > window.top + 1.0
    )
