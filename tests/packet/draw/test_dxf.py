"""Our DXF text against ezdxf, a general-purpose library: its own frame, the entities it would write."""

from __future__ import annotations

import io
from typing import Any

import ezdxf
import pytest

from calc.geometry.shapes import Arc, Box, Circle, Line, Path, Point
from packet.draw.dxf import write_dxf
from packet.draw.model import Dimension, Drawing, Pen, Stroke, Words
from packet.export import draw_for_machine, draw_sheet
from tests.packet.draw.dxf_by_library import FRAME, LAYERS, write_by_library
from tests.packet.whole_job import load_job

OWN = {"handle", "owner"}


def read(text: str) -> Any:
    return ezdxf.read(io.StringIO(text))


def describe(text: str) -> list[tuple[str, dict[str, Any]]]:
    """Return kind and attributes of every entity, but for its running number."""
    kept = []
    for entity in read(text).modelspace():
        values = {key: value for key, value in entity.dxfattribs().items() if key not in OWN}
        kept.append((entity.dxftype(), values))
    return kept


def round_all(entities: list[tuple[str, dict[str, Any]]]) -> list[Any]:
    def plain(value: Any) -> Any:
        if isinstance(value, float):
            return round(value, 6) + 0.0
        return tuple(round(v, 6) + 0.0 for v in value) if hasattr(value, "xyz") else value

    return [(kind, {key: plain(value) for key, value in values.items()}) for kind, values in entities]


def list_drawings() -> list[Drawing]:
    job = load_job("boatshed")
    parts = {part.number: part for part in job.design.flat_parts}
    drawings = [draw_for_machine(part, "B") for part in job.design.flat_parts if part.cnc and part.features]
    return drawings + [draw_sheet(layout, parts, "B") for plan in job.design.sheets for layout in plan.layouts]


def make_trial() -> Drawing:
    """Every kind of entity; a text in each place and turn; places that want an exponent; angles past the whole turn."""
    entities: list[Any] = [
        Words(Point(1, 2), f'é 1/2" {anchor} 50%% ^J', 2.5, anchor, turn)  # type: ignore[arg-type]
        for anchor in ("start", "middle", "end")
        for turn in (0.0, 90.0)
    ]
    shapes = [Circle(Point(1e-7, -1e-12), 3e5), Arc(Point(3, 4), 9.0, 300.0, 380.0), Line(Point(0, 0), Point(1 / 3, 1))]
    entities += [Stroke(shape, pen) for shape in shapes for pen in Pen]
    entities.append(
        Stroke(Path((Line(Point(0, 0), Point(9, 0)), Arc(Point(9, 5), 5.0, -90.0, 90.0)), closed=False), Pen.CUT)
    )
    entities.append(Dimension(Point(0, 0), Point(10, 0), "ten", 3.0))
    return Drawing("trial", tuple(entities), Box(0, 0, 10, 10))


def test_the_frame_is_an_empty_drawing_of_the_library_with_our_layers() -> None:
    kept = read(FRAME.read_text(encoding="utf-8"))
    assert not kept.audit().has_errors
    assert len(kept.modelspace()) == 0
    found = {each.dxf.name: (each.dxf.color, each.dxf.linetype, bool(each.dxf.plot)) for each in kept.layers}
    assert {name: look for name, look in found.items() if name not in ("0", "Defpoints")} == {
        name: tuple(look) for name, *look in LAYERS
    }
    assert {line.dxf.name for line in kept.linetypes} >= {look for _, _, look, _ in LAYERS} - {"CONTINUOUS"}


def test_every_entity_is_what_the_library_would_write() -> None:
    for drawing in [make_trial(), *list_drawings()]:
        assert round_all(describe(write_dxf(drawing))) == round_all(describe(write_by_library(drawing))), drawing.name


def test_the_library_finds_no_fault_and_no_number_twice() -> None:
    for drawing in [make_trial(), *list_drawings()]:
        text = write_dxf(drawing)
        document = read(text)
        assert not document.audit().has_errors
        lines = text.split("\n")
        handles = [lines[i + 1] for i in range(0, len(lines) - 1, 2) if lines[i] == "  5"]
        seed, *given = handles  # the header's comes first
        assert len(set(given)) == len(given)
        assert max(int(handle, 16) for handle in given) < int(seed, 16)
        assert {entity.dxf.owner for entity in document.modelspace()} == {document.modelspace().layout_key}


def test_numbers_stand_without_an_exponent() -> None:
    """Controllers of small machines read plain decimals only (common practice, no source)."""
    circle = Drawing("c", (Stroke(Circle(Point(1e-7, -1e-12), 3e5), Pen.CUT),), Box(0, 0, 1, 1))
    assert " 10\n0.0000001\n 20\n0.0\n 30\n0.0\n 40\n300000.0\n" in write_dxf(circle)


def test_a_place_that_is_no_number_is_refused() -> None:
    with pytest.raises(ValueError, match="no number"):
        write_dxf(Drawing("c", (Stroke(Circle(Point(float("nan"), 0), 3.0), Pen.CUT),), Box(0, 0, 1, 1)))
