"""SVG, DXF and PDF of the same part, read back with other libraries: they must agree entity by entity."""

from __future__ import annotations

import dataclasses
import io
import math
import os
import subprocess
import sys
from pathlib import Path
from xml.etree import ElementTree

import ezdxf
import numpy as np
import pytest
import svgelements

from calc.cutting.sheets import Blank, Placed, SheetLayout
from calc.measures.quantity import Reader
from calc.shapes.shapes import (
    Arc,
    Box,
    Circle,
    Feature,
    FlatPart,
    Layer,
    Line,
    Point,
    Shape,
    find_bounds,
    make_rectangle,
)
from calc.shapes.shapes import Path as Outline
from packet.draw.backends.dxf import write_dxf
from packet.draw.backends.svg import write_svg
from packet.draw.flat import draw_flat
from packet.draw.fonts import measure_words
from packet.draw.model import Drawing, Pen, Stroke, Words
from packet.draw.views.part_words import find_warnings
from packet.draw.views.template_sheet import list_lines
from packet.files.export import draw_for_machine, draw_sheet, make_unique, slug, write_parts
from tests.packet.draw.backends.test_pdf import draw_pdf
from tests.packet.read_pdf import fit_circle, read_lines
from tests.shop import load_job, make_job

METRIC = Reader("metric")

NEAR = 0.01  # mm: no saw, knife or router works finer


def slot(x: float, y: float, length: float, radius: float) -> Outline:
    return Outline(
        (
            Line(Point(x, y - radius), Point(x + length, y - radius)),
            Arc(Point(x + length, y), radius, -90.0, 90.0),
            Line(Point(x + length, y + radius), Point(x, y + radius)),
            Arc(Point(x, y), radius, 90.0, 270.0),
        )
    )


def make_part(*shapes: Shape, name: str = "trial") -> FlatPart:
    features = tuple(Feature(shape=shape, layer=Layer.CUT) for shape in shapes)
    return FlatPart(
        number="9",
        name=name,
        features=features,
        quantity=1,
        material="plywood",
        thickness_mm=18.0,
        face="outside",
        kind="panel",
    )


def list_pieces(part: FlatPart) -> list[tuple[Layer, Circle | Line | Arc]]:
    """Return every circle, line and arc of a part by its layer, paths taken apart."""
    found: list[tuple[Layer, Circle | Line | Arc]] = []
    for feature in part.features:
        pieces = feature.shape.pieces if isinstance(feature.shape, Outline) else (feature.shape,)
        found += [(feature.layer, piece) for piece in pieces]
    return found


@pytest.fixture(scope="module")
def parts() -> list[FlatPart]:
    trial = make_part(
        make_rectangle(0, 0, 200, 100), slot(40, 50, 60, 12.5), Circle(Point(150, 50), 20), Arc(Point(3, 4), 9, 20, 310)
    )
    made = (*make_job().design.flat_parts, *load_job("boatshed").design.flat_parts)
    return [*(p for p in made if p.cnc), trial]


# --- DXF ------------------------------------------------------------------------------------------------------------


def read_dxf(text: str) -> ezdxf.document.Drawing:
    return ezdxf.read(io.StringIO(text))


def describe(entity: object) -> tuple[str, str, tuple[float, ...]]:
    """Return layer, kind and numbers of a DXF entity."""
    dxf = entity.dxf  # type: ignore[attr-defined]
    kind = entity.dxftype()  # type: ignore[attr-defined]
    if kind == "CIRCLE":
        return dxf.layer, kind, (dxf.center.x, dxf.center.y, dxf.radius)
    if kind == "ARC":
        return dxf.layer, kind, (dxf.center.x, dxf.center.y, dxf.radius, dxf.start_angle % 360, dxf.end_angle % 360)
    return dxf.layer, kind, (dxf.start.x, dxf.start.y, dxf.end.x, dxf.end.y)


def expect(layer: Layer, piece: Circle | Line | Arc) -> tuple[str, str, tuple[float, ...]]:
    if isinstance(piece, Circle):
        return layer.value, "CIRCLE", (piece.centre.x, piece.centre.y, piece.radius)
    if isinstance(piece, Arc):
        numbers = (piece.centre.x, piece.centre.y, piece.radius, piece.start_deg % 360, piece.end_deg % 360)
        return layer.value, "ARC", numbers
    return layer.value, "LINE", (piece.start.x, piece.start.y, piece.end.x, piece.end.y)


def order(entity: tuple[str, str, tuple[float, ...]]) -> tuple[str, str, tuple[float, ...]]:
    """Sort by what is alike to a hundredth, so that a last digit changes no order."""
    layer, kind, numbers = entity
    return layer, kind, tuple(round(number, 2) + 0.0 for number in numbers)


def test_dxf_holds_every_circle_arc_and_line_on_its_layer(parts: list[FlatPart]) -> None:
    for part in parts:
        space = read_dxf(write_dxf(draw_for_machine(part, METRIC, "B"))).modelspace()
        lines = [e for e in space if e.dxftype() != "TEXT" and e.dxf.layer != "reference"]
        read = sorted(map(describe, lines), key=order)
        wanted = sorted((expect(layer, piece) for layer, piece in list_pieces(part)), key=order)
        assert [(layer, kind) for layer, kind, _ in read] == [(layer, kind) for layer, kind, _ in wanted], part.name
        for (_, _, seen), (_, _, meant) in zip(read, wanted, strict=True):
            assert seen == pytest.approx(meant, abs=NEAR), part.name


def test_dxf_says_millimetres_in_header_and_modelspace() -> None:
    """V4: a file without units is read as inches or metres by someone."""
    document = read_dxf(write_dxf(draw_flat(make_part(Circle(Point(0, 0), 50)), METRIC)))
    assert document.header["$INSUNITS"] == 4
    assert document.header["$MEASUREMENT"] == 1
    assert document.modelspace().units == 4
    assert document.dxfversion == "AC1024"  # R2010: R12 would drop the units


def test_ten_holes_and_a_slot_stay_circles_and_arcs() -> None:
    """V5."""
    holes = [Circle(Point(20.0 * i, 0.0), 4.0) for i in range(10)]
    space = read_dxf(write_dxf(draw_flat(make_part(*holes, slot(0, 40, 100, 6)), METRIC))).modelspace()
    kinds = [e.dxftype() for e in space]
    assert {kind: kinds.count(kind) for kind in set(kinds)} == {"CIRCLE": 10, "ARC": 2, "LINE": 2}


def test_only_what_is_cut_or_marked_is_on_layers_that_plot() -> None:
    hole = next(part for part in make_job().design.flat_parts if part.number == "H1")
    document = read_dxf(write_dxf(draw_for_machine(hole, METRIC, "B")))
    plots = {layer.dxf.name: layer.dxf.plot for layer in document.layers}
    assert {name: plots[name] for name in ("cut", "first-cut", "drill", "mark")} == dict.fromkeys(
        ("cut", "first-cut", "drill", "mark"), 1
    )
    assert {name: plots[name] for name in ("ghost", "words", "reference")} == dict.fromkeys(
        ("ghost", "words", "reference"), 0
    )
    assert document.audit().errors == []


# --- SVG ------------------------------------------------------------------------------------------------------------


def read_svg(text: str) -> svgelements.SVG:
    """Return the file as svgelements sees it, at 25.4 pixels an inch: its numbers are then millimetres."""
    return svgelements.SVG.parse(io.StringIO(text), ppi=25.4)


def test_svg_is_in_millimetres_one_to_one() -> None:
    """V1 and V2."""
    square = Drawing("square", (Stroke(make_rectangle(0, 0, 100, 100), Pen.CUT),), Box(0, 0, 100, 100))
    root = ElementTree.fromstring(write_svg(square))
    assert (root.get("width"), root.get("height"), root.get("viewBox")) == ("100mm", "100mm", "0 0 100 100")
    (shape,) = [e for e in read_svg(write_svg(square)).elements() if isinstance(e, svgelements.Path)]
    assert svgelements.Path(shape).bbox() == pytest.approx((0, 0, 100, 100), abs=NEAR)


def test_svg_holds_every_circle_arc_and_line(parts: list[FlatPart]) -> None:
    for part in parts:
        drawing = draw_for_machine(part, METRIC, "B")
        left, top = drawing.bounds.left, drawing.bounds.top
        found = {"circle": [], "arc": [], "line": []}  # type: ignore[var-annotated]
        for element in read_svg(write_svg(drawing)).elements():
            if isinstance(element, svgelements.Circle):
                found["circle"].append((element.cx + left, top - element.cy, element.rx))
            elif isinstance(element, svgelements.SimpleLine):
                found["line"].append((element.x1 + left, top - element.y1, element.x2 + left, top - element.y2))
            elif isinstance(element, svgelements.Path):
                for segment in svgelements.Path(element):
                    if isinstance(segment, svgelements.Arc):
                        centre = segment.center
                        found["arc"].append(
                            (centre.x + left, top - centre.y, segment.rx, abs(math.degrees(segment.sweep)))
                        )
                    elif isinstance(segment, svgelements.Line):
                        a, b = segment.start, segment.end
                        found["line"].append((a.x + left, top - a.y, b.x + left, top - b.y))
        for _, piece in list_pieces(part):
            if isinstance(piece, Circle):
                assert holds(found["circle"], (piece.centre.x, piece.centre.y, piece.radius)), part.name
            elif isinstance(piece, Arc):
                numbers = (piece.centre.x, piece.centre.y, piece.radius, piece.end_deg - piece.start_deg)
                assert holds(found["arc"], numbers), (part.name, piece, found["arc"][:3])
            else:
                ends = (piece.start.x, piece.start.y, piece.end.x, piece.end.y)
                shortest = math.dist(ends[:2], ends[2:]) < NEAR
                assert shortest or holds(found["line"], ends) or holds(found["line"], ends[2:] + ends[:2]), part.name


def holds(found: list[tuple[float, ...]], wanted: tuple[float, ...]) -> bool:
    return any(np.allclose(one, wanted, rtol=0, atol=NEAR) for one in found)


def test_arcs_turn_the_right_way_up_in_svg() -> None:
    """A quarter from the right to the top must pass up and right of its centre, not through the other three."""
    arc = Arc(Point(0, 0), 10.0, 0.0, 90.0)
    drawing = Drawing("arc", (Stroke(arc, Pen.CUT),), Box(-10, -10, 10, 10))
    (shape,) = [e for e in read_svg(write_svg(drawing)).elements() if isinstance(e, svgelements.Path)]
    middle = svgelements.Path(shape).point(0.5)
    assert (middle.x - 10, 10 - middle.y) == pytest.approx((10 * math.cos(math.pi / 4),) * 2, abs=NEAR)


# --- all three ------------------------------------------------------------------------------------------------------


def test_three_backends_agree_on_every_large_circle(parts: list[FlatPart]) -> None:
    """V3: each file is drawn from the geometry, none from another."""
    for part in parts:
        circles = [f.shape for f in part.features if isinstance(f.shape, Circle) and f.shape.radius > 3.0]
        if not circles:
            continue
        drawing = dataclasses.replace(draw_flat(part, METRIC, words=False))
        left, bottom, top = drawing.bounds.left, drawing.bounds.bottom, drawing.bounds.top
        corner = 20.0 * 25.4 / 72
        from_pdf = []
        for line in read_lines(draw_pdf(drawing)):
            if line.closed and len(line.points) > 30:
                x, y, radius = fit_circle(line.points)
                from_pdf.append((x - corner + left, y - corner + bottom, radius))
        from_svg = [
            (e.cx + left, top - e.cy, e.rx)
            for e in read_svg(write_svg(drawing)).elements()
            if isinstance(e, svgelements.Circle)
        ]
        from_dxf = [
            (e.dxf.center.x, e.dxf.center.y, e.dxf.radius)
            for e in read_dxf(write_dxf(drawing)).modelspace().query("CIRCLE")
        ]
        for circle in circles:
            wanted = (circle.centre.x, circle.centre.y, circle.radius)
            assert holds(from_pdf, wanted), part.name
            assert holds(from_svg, wanted), part.name
            assert holds(from_dxf, wanted), part.name


def test_reference_square_measures_fifty_millimetres_in_both_files(parts: list[FlatPart]) -> None:
    for part in parts:
        drawing = draw_for_machine(part, METRIC, "B")
        dxf = [e for e in read_dxf(write_dxf(drawing)).modelspace() if e.dxf.layer == "reference"]
        assert len(dxf) == 4
        for line in dxf:
            assert (line.dxf.end - line.dxf.start).magnitude == pytest.approx(50.0, abs=NEAR)
        group = next(e for e in read_svg(write_svg(drawing)).elements() if e.values.get("id") == "outline")
        (square,) = [e for e in group if isinstance(e, svgelements.Path)]
        left, low, right, high = svgelements.Path(square).bbox()
        assert (right - left, high - low) == pytest.approx((50.0, 50.0), abs=NEAR)
        cut = find_bounds(tuple(f.shape for f in part.features))
        assert min(line.dxf.start.x for line in dxf) > cut.right  # beside the part, never on it


# --- words, names, bytes --------------------------------------------------------------------------------------------

NASTY = 'R&D <b>"bay"</b> %%c ^J 5⅛ Łódź \x00\n]]>'


def test_user_words_cannot_break_the_files() -> None:
    part = dataclasses.replace(make_part(Circle(Point(0, 0), 50)), name=NASTY, material=NASTY)
    drawing = draw_for_machine(part, METRIC, NASTY)
    root = ElementTree.fromstring(write_svg(drawing))
    words = "".join(root.itertext())
    assert 'R&D <b>"bay"</b>' in words
    assert not root.findall(".//{http://www.w3.org/2000/svg}b")
    document = read_dxf(write_dxf(drawing))
    texts = [e.dxf.text for e in document.modelspace().query("TEXT")]
    assert any('R&D <b>"bay"</b>' in text for text in texts)
    assert not any("%%" in text or "^" in text or "\n" in text for text in texts)
    assert document.audit().errors == []


def test_words_in_dxf_that_dxf_itself_would_change() -> None:
    drawing = Drawing(
        "w",
        (
            Words(at=Point(0, 0), text="50%%d ^M", size_mm=3.0, anchor="end"),
            Words(at=Point(0, 9), text="mid", size_mm=3.0, anchor="middle"),
        ),
        Box(0, 0, 9, 9),
    )
    texts = [e.dxf.text for e in read_dxf(write_dxf(drawing)).modelspace().query("TEXT")]
    assert texts == ["50% % d ˆM", "mid"]


def test_names_are_plain_and_never_twice() -> None:
    taken: set[str] = set()
    assert [make_unique("h1-hole", taken) for _ in range(3)] == ["h1-hole", "h1-hole-2", "h1-hole-3"]
    assert slug("Łódź ⅛ hole/../A & B") == "lodz-1-8-hole-a-b"
    assert slug("∅") == ""


def test_files_carry_part_revision_and_unit(tmp_path: Path) -> None:
    job = make_job()
    write_parts(job, tmp_path)
    names = sorted(path.name for path in (tmp_path / "parts").iterdir())
    assert "h1-hole-for-filter-a-rev-b-mm.dxf" in names
    assert "h1-hole-for-filter-a-rev-b-mm.svg" in names
    sheets = [name for name in names if name.startswith("sheet-")]
    assert len(names) - len(sheets) == 2 * len([p for p in job.design.flat_parts if p.cnc])
    assert len(sheets) == 2 * sum(len(plan.layouts) for plan in job.design.sheets)


def test_nested_sheet_puts_each_part_where_the_cut_list_does() -> None:
    outline, hole = make_rectangle(0, 0, 600, 200), Circle(Point(100, 50), 30)
    part = FlatPart(
        number="2",
        name="side",
        features=(Feature(shape=outline, layer=Layer.CUT), Feature(shape=hole, layer=Layer.CUT)),
        quantity=2,
        material="plywood",
        thickness_mm=18.0,
        face="left",
        kind="panel",
    )
    blank = Blank(number="2", name="side", width_mm=600.0, height_mm=200.0, may_turn=True)
    layout = SheetLayout(
        number=1,
        material="plywood",
        length_mm=2440.0,
        width_mm=1220.0,
        from_hand=False,
        placed=(
            Placed(blank=blank, x_mm=10.0, y_mm=20.0, along_mm=600.0, across_mm=200.0, turned=False),
            Placed(blank=blank, x_mm=700.0, y_mm=20.0, along_mm=200.0, across_mm=600.0, turned=True),
        ),
        cuts=(),
        offcuts=(),
        used=0.1,
    )
    space = read_dxf(write_dxf(draw_sheet(layout, {"2": part}, METRIC, "B"))).modelspace()
    circles = sorted((e.dxf.center.x, e.dxf.center.y) for e in space.query("CIRCLE"))
    # flat: 10 + 100, 20 + 50. Turned a quarter anticlockwise: its height runs to the left from 700 + 200.
    assert circles == [pytest.approx((110.0, 70.0)), pytest.approx((850.0, 120.0))]
    cuts = [line for line in space.query("LINE") if line.dxf.layer == "cut"]
    turned = [p for line in cuts for p in (line.dxf.start, line.dxf.end) if p.x > 650]
    assert (min(p.x for p in turned), max(p.x for p in turned)) == pytest.approx((700.0, 900.0))
    assert (min(p.y for p in turned), max(p.y for p in turned)) == pytest.approx((20.0, 620.0))
    assert all(line.dxf.layer == "reference" for line in space.query("LINE") if line not in cuts)


def test_same_bytes_in_another_process(tmp_path: Path) -> None:
    """No clock, no random names, no order that depends on the day."""
    code = (
        "import sys; from pathlib import Path; from tests.shop import make_job; "
        "from packet.files.export import write_parts; from packet.files.large import write_large; job = make_job(); "
        "write_parts(job, Path(sys.argv[1])); write_large(job, Path(sys.argv[1]))"
    )
    for seed in ("1", "2", "5"):
        place = tmp_path / seed
        place.mkdir()
        done = subprocess.run(
            [sys.executable, "-c", code, str(place)],
            env={**os.environ, "PYTHONHASHSEED": seed},
            cwd=Path(__file__).parents[3],
            capture_output=True,
            text=True,
            check=False,
        )
        assert done.returncode == 0, done.stderr
    first, *others = (tmp_path / seed for seed in ("1", "2", "5"))
    names = sorted(path.relative_to(first) for path in first.rglob("*.*"))
    assert {name.suffix for name in names} == {".svg", ".dxf", ".pdf"}
    for other in others:
        assert names == sorted(path.relative_to(other) for path in other.rglob("*.*"))
        for name in names:
            assert (first / name).read_bytes() == (other / name).read_bytes(), name


def test_nested_files_of_the_whole_boatshed_hold_every_line_of_their_parts(tmp_path: Path) -> None:
    """Read back by two libraries: each sheet has its parts' lines on their layers, and a square of 50 mm."""
    job = load_job("boatshed")
    write_parts(job, tmp_path)
    parts = {part.number: part for part in reversed(job.design.flat_parts)}
    revision = slug(job.project.title.revision)
    for plan in job.design.sheets:
        for layout in plan.layouts:
            stem = f"sheet-{layout.number}-{slug(plan.material)}-rev-{revision}-mm"
            wanted: dict[str, int] = {}
            for placed in layout.placed:
                for layer, piece in list_pieces(parts[placed.blank.number]):
                    if layer is not Layer.GHOST:
                        kind = f"{layer.value} {type(piece).__name__.upper()}"
                        wanted[kind] = wanted.get(kind, 0) + 1
            document = ezdxf.readfile(tmp_path / "parts" / f"{stem}.dxf")
            assert (document.header["$INSUNITS"], document.modelspace().units) == (4, 4)
            seen: dict[str, int] = {}
            square = []
            for entity in document.modelspace():
                if entity.dxf.layer == "reference":
                    square.append(entity)
                elif entity.dxftype() != "TEXT":
                    kind = f"{entity.dxf.layer} {entity.dxftype()}"
                    seen[kind] = seen.get(kind, 0) + 1
            assert seen == wanted, stem
            sides = [math.dist((e.dxf.start.x, e.dxf.start.y), (e.dxf.end.x, e.dxf.end.y)) for e in square]
            assert sum(side == pytest.approx(50.0, abs=NEAR) for side in sides) == 4, stem
            svg = read_svg((tmp_path / "parts" / f"{stem}.svg").read_text(encoding="utf-8"))
            circles = [e for e in svg.elements() if isinstance(e, svgelements.Circle)]
            assert len(circles) == sum(count for kind, count in wanted.items() if kind.endswith("CIRCLE")), stem


def test_a_machine_file_says_what_was_assumed() -> None:
    part = dataclasses.replace(make_part(Circle(Point(0, 0), 50)), assumed=("ports.left one.pail.across",))
    told = list_lines(find_warnings(make_job(), part))
    drawing = draw_for_machine(part, METRIC, "B", told)
    words = " ".join(e.dxf.text for e in read_dxf(write_dxf(drawing)).modelspace().query("TEXT"))
    assert "ASSUMED, MEASURE BEFORE CUTTING" in words
    assert "left one pail (across)" in words
    right = [e.at.x + measure_words(e.text, e.size_mm) for e in drawing.entities if isinstance(e, Words)]
    assert max(right) <= drawing.bounds.right
