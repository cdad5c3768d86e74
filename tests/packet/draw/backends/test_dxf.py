"""DXF files read back: layers, kinds of entity, numbers a small machine reads, no fault by the library's own audit."""

from __future__ import annotations

import io
from typing import Any

import ezdxf
import pytest

from calc.measures.quantity import Reader
from calc.shapes.shapes import Arc, Box, Circle, Line, Path, Point
from packet.draw.backends.dxf import LAYERS, write_dxf
from packet.draw.model import Dimension, Drawing, Pen, Stroke, Words
from packet.files.export import draw_for_machine, draw_sheet
from tests.shop import load_job

METRIC = Reader("metric")


def read(text: str) -> Any:
    return ezdxf.read(io.StringIO(text))


def list_drawings() -> list[Drawing]:
    job = load_job("boatshed")
    parts = {part.number: part for part in job.design.flat_parts}
    drawings = [draw_for_machine(part, METRIC, "B") for part in job.design.flat_parts if part.cnc and part.features]
    return drawings + [draw_sheet(layout, parts, METRIC, "B") for plan in job.design.sheets for layout in plan.layouts]


def make_trial() -> Drawing:
    """Every kind of entity; a text in each place and turn; places that want an exponent; angles past the whole turn."""
    entities: list[Any] = [
        Words(at=Point(1, 2), text=f'é 1/2" {anchor} 50%% ^J', size_mm=2.5, anchor=anchor, turn_deg=turn)  # type: ignore[arg-type]
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


def test_the_layers_are_ours_and_only_cutting_layers_plot() -> None:
    document = read(write_dxf(make_trial()))
    found = {each.dxf.name: (each.dxf.color, each.dxf.linetype, bool(each.dxf.plot)) for each in document.layers}
    assert {name: look for name, look in found.items() if name not in ("0", "Defpoints")} == {
        name: tuple(look) for name, *look in LAYERS
    }
    assert {line.dxf.name for line in document.linetypes} >= {look for _, _, look, _ in LAYERS} - {"CONTINUOUS"}


def test_kinds_of_entity_are_kept() -> None:
    drawing = make_trial()
    kinds = [entity.dxftype() for entity in read(write_dxf(drawing)).modelspace()]
    pens = len(Pen) - 1  # a hatch is not for machines
    assert kinds.count("CIRCLE") == pens
    assert kinds.count("ARC") == pens + 1
    assert kinds.count("LINE") == pens + 1
    assert kinds.count("TEXT") == 7


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
    for drawing in [make_trial(), *list_drawings()]:
        entities = write_dxf(drawing).partition("ENTITIES\n")[2].partition("ENDSEC")[0]
        lines = entities.split("\n")
        numbers = [value for code, value in zip(lines[::2], lines[1::2], strict=False) if 10 <= int(code or 0) < 60]
        assert numbers
        assert not [value for value in numbers if "e" in value.lower()], drawing.name


def test_a_place_that_is_no_number_is_refused() -> None:
    with pytest.raises(ValueError, match="no number"):
        write_dxf(Drawing("c", (Stroke(Circle(Point(float("nan"), 0), 3.0), Pen.CUT),), Box(0, 0, 1, 1)))
