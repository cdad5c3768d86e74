"""The box's drawings tell the truth: every written dimension is the length it stands on, every part is there."""

from __future__ import annotations

import math
import re
from collections import Counter

import pytest

from calc.box.standing import CASTER_MM
from calc.measures.quantity import Reader, read_amount
from calc.project import Face
from calc.shapes.faces import find_flat
from calc.shapes.shapes import Circle, Line, find_bounds, make_rectangle
from packet.bill.cuts import list_cuts
from packet.draw.model import Dimension, Drawing, Fill, Pen, Stroke, Words
from packet.draw.rings import spread_apart
from packet.draw.seen import find_seen, list_covers
from packet.draw.views.elevation import draw_elevation
from packet.draw.views.exploded import Sight, draw_exploded
from packet.draw.views.layouts import draw_layout, list_strips
from packet.draw.views.panels import draw_panel, list_worked
from packet.draw.views.section import draw_section
from packet.draw.views.view_mounts import CASTER_WHEEL_MM, draw_blower, draw_mount, find_extent
from packet.draw.views.views import draw_views, measure_views, needs_back
from packet.job import Job
from tests.shop import load_job

JOBS = ("boatshed", "schoolroom")


def draw_all(job: Job) -> list[Drawing]:
    project, design, reader = job.project, job.design, job.reader
    drawings = [draw_views(project, design, reader, 1 / 16), draw_elevation(project, design, reader, 1 / 24)]
    drawings += [draw_section(project, port, reader, 0.5) for port in design.ports]
    drawings += [draw_panel(panel, reader, 1 / 16) for panel in list_worked(design)]
    drawings += [draw_layout(layout, reader, 1 / 20, grain=True) for plan in design.sheets for layout in plan.layouts]
    return drawings


@pytest.mark.parametrize("name", JOBS)
def test_every_dimension_says_its_own_length(name: str) -> None:
    job = load_job(name)
    # the distance of two rounded places: half a mark of the tape off at each end, at most
    near = 25.4 / job.reader.fraction if job.reader.system == "inch" else 0.5
    counted = 0
    for drawing in draw_all(job):
        for entity in drawing.entities:
            if isinstance(entity, Dimension):
                number = entity.text.split(" ", 1)[1] if entity.text[0].isalpha() else entity.text
                number = number.removeprefix("pail ")
                length = math.dist((entity.start.x, entity.start.y), (entity.end.x, entity.end.y))
                assert read_amount(number, "length_mm") == pytest.approx(length, abs=near + 1e-6), drawing.name
                counted += 1
    assert counted > 15


@pytest.mark.parametrize("name", ["schoolroom", "outdoor"])
def test_metric_dimensions_are_whole_or_half_millimetres(name: str) -> None:
    """A metric rule has marks at whole millimetres, and the eye halves them (common practice, no source)."""
    job = load_job(name)
    texts = [e.text for drawing in draw_all(job) for e in drawing.entities if isinstance(e, Dimension)]
    for row in list_cuts(job.design, job.reader):
        texts += re.findall(r"[\d.]+ mm", f"{row.holes}; {row.joints}")
    assert len(texts) > 30
    for text in texts:
        assert re.search(r"(?<![\d.])\d+(\.5)? mm$", text), text


@pytest.mark.parametrize("name", ["boatshed", "schoolroom", "cart", "outdoor", "minimal"])
def test_dimensions_of_a_chain_add_up_as_printed(name: str) -> None:
    """Walk along the dimensions of a drawing: whichever way a place is come to, the printed figures give one place."""
    job = load_job(name)
    walked = 0
    for drawing in draw_all(job):
        if drawing.name.startswith("section"):
            continue
        for axis in ("x", "y"):
            walked += walk_dimensions(drawing, axis)
    assert walked > 20


def walk_dimensions(drawing: Drawing, axis: str) -> int:
    """Return how many dimensions were followed from place to place along an axis; they must agree."""
    ways: dict[float, list[tuple[float, float]]] = {}
    for e in drawing.entities:
        if isinstance(e, Dimension):
            a, b = round(getattr(e.start, axis), 3), round(getattr(e.end, axis), 3)
            number = re.search(r"[\d/. -]+ (in|mm)$", e.text)
            if a != b and number:
                long = read_amount(number[0].strip(), "length_mm") * (1 if b > a else -1)
                ways.setdefault(a, []).append((b, long))
                ways.setdefault(b, []).append((a, -long))
    places: dict[float, float] = {}
    for start in ways:
        if start in places:
            continue
        places[start], left = 0.0, [start]
        while left:
            here = left.pop()
            for there, long in ways[here]:
                if there not in places:
                    places[there] = places[here] + long
                    left.append(there)
                assert places[there] == pytest.approx(places[here] + long, abs=1e-6), (drawing.name, here, there)
    return sum(map(len, ways.values())) // 2


@pytest.mark.parametrize("name", [*JOBS, "cart"])
@pytest.mark.parametrize("scale", [1 / 20, 1 / 32])
def test_every_part_and_cut_of_a_sheet_is_numbered_or_listed(name: str, scale: float) -> None:
    job = load_job(name)
    for layout in (layout for plan in job.design.sheets for layout in plan.layouts):
        strips = list_strips(layout, scale)
        words = [e for e in draw_layout(layout, job.reader, scale, grain=False).entities if isinstance(e, Words)]
        written = [w.text.split("  ")[0] for w in words if w.bold]
        wanted = [placed.blank.number for placed in layout.placed] + [str(cut.number) for cut in layout.cuts]
        listed = [number for parts, cuts in strips for number in (*parts, *map(str, cuts))]
        assert sorted(written + listed) == sorted(wanted)
        assert min(w.size_mm for w in words) >= 1.9


@pytest.mark.parametrize("name", JOBS)
def test_lines_stay_inside_their_sheet(name: str) -> None:
    for drawing in draw_all(load_job(name)):
        drawn = find_bounds(tuple(e.shape for e in drawing.entities if isinstance(e, Stroke)))
        assert drawing.bounds.left <= drawn.left + 1e-6, drawing.name
        assert drawing.bounds.right >= drawn.right - 1e-6, drawing.name
        assert drawing.bounds.bottom <= drawn.bottom + 1e-6, drawing.name
        assert drawing.bounds.top >= drawn.top - 1e-6, drawing.name


@pytest.mark.parametrize("name", JOBS)
def test_views_show_each_port_once_with_its_hole(name: str) -> None:
    job = load_job(name)
    drawing = draw_views(job.project, job.design, job.reader, 1 / 16)
    circles = Counter(
        round(e.shape.radius * 2, 3) for e in drawing.entities if isinstance(e, Stroke) and isinstance(e.shape, Circle)
    )
    shown = {"front", "top", "bottom", "left" if job.project.box.inlet.face == "left" else "right"}
    shown |= {"back"} if needs_back(job.project) else set()
    wanted: Counter[float] = Counter()
    for port in job.design.ports:
        if port.port.face in shown:
            wanted[round(port.hole_mm, 3)] += 1
            wanted[round(port.flange_mm, 3)] += 1
    wanted[round(job.project.box.inlet.diameter_mm, 3)] += 1
    for row in job.design.rows:
        if row.face in shown and not row.from_inside:
            wanted[4.5] += len(row.spots)
    assert circles == wanted
    wide, high = measure_views(job.project, job.design, 1 / 16)
    assert drawing.bounds.width / 16 == pytest.approx(wide, abs=0.01)
    assert drawing.bounds.height / 16 == pytest.approx(high, abs=0.01)


@pytest.mark.parametrize(("name", "face"), [
    ("boatshed", "top"), ("boatshed", "left"), ("schoolroom", "back"), ("outdoor", "top"), ("outdoor", "right"),
    ("cart", "front"), ("cart", "left"), ("cart", "bottom"),
])  # fmt: skip
def test_views_show_every_edge_of_what_carries_the_box(name: str, face: Face) -> None:
    """Each rail and each part of a cart is outlined once, all round, where the design has it."""
    design = load_job(name).design
    drawn = sum(
        math.dist((e.shape.start.x, e.shape.start.y), (e.shape.end.x, e.shape.end.y))
        for e in draw_mount(design, face, 0.0, 0.0)
        if isinstance(e, Stroke) and isinstance(e.shape, Line)
    )
    wanted = 0.0
    for part in design.mount.parts:
        left, low, right, top = find_flat(face, part.block, design.box.outside)
        wanted += 2 * (right - left + top - low)
        if face in ("left", "right") and part.name in (
            "box rail",
            "wall rail",
        ):  # one edge at 45 degrees
            wanted += (right - left) * (math.sqrt(2) - 2)
    if design.mount.wheels_mm is not None and face != "bottom":
        wanted += 2 * (CASTER_MM - CASTER_WHEEL_MM / 2)
    assert drawn == pytest.approx(wanted, abs=1e-6)
    extent = find_extent(design, face)
    for e in draw_mount(design, face, 0.0, 0.0):
        assert isinstance(e, Stroke)
        box = find_bounds((e.shape,))
        assert box.bottom >= extent.bottom - 1e-6
        assert box.top <= extent.top + 1e-6


@pytest.mark.parametrize("face", ["front", "left", "top", "bottom"])
def test_a_blower_on_the_cart_is_drawn_where_it_stands(face: Face) -> None:
    """By the file: 14 x 16 in and 16 in high, left of the box, on the base."""
    design = load_job("cart").design
    outline, name = draw_blower(design, face, 0.0, 0.0, "blower")
    assert isinstance(outline, Stroke)
    assert isinstance(name, Words)
    box = find_bounds((outline.shape,))
    across, up = {"front": (14, 16), "left": (16, 16), "top": (14, 16), "bottom": (14, 16)}[face]
    assert (box.width, box.height) == (pytest.approx(across * 25.4), pytest.approx(up * 25.4))
    if face != "left":
        assert box.right < 0.0
    extent = find_extent(design, face)
    assert extent.left <= box.left
    drawing = draw_elevation(load_job("cart").project, design, Reader("inch"), 1 / 24)
    assert any(isinstance(e, Words) and e.text == "blower" for e in drawing.entities)


def test_what_the_box_covers_is_dashed() -> None:
    """Rails on a wall are in full from behind and from the side, dashed from the front, where the box covers them."""
    design = load_job("boatshed").design
    outside = design.box.outside
    cases: tuple[tuple[Face, float, set[Pen]], ...] = (
        ("front", outside.width, {Pen.HIDDEN}),
        ("left", outside.depth, {Pen.OUTLINE}),
    )
    for face, wide, wanted in cases:
        pens = set()
        for e in draw_mount(design, face, 0.0, 0.0):
            assert isinstance(e, Stroke)
            box = find_bounds((e.shape,))
            x, y = (box.left + box.right) / 2, (box.bottom + box.top) / 2
            on_edge = face == "front" and (min(abs(x), abs(x - wide)) < 1e-6 or min(y, outside.height - y) < 1e-6)
            pens |= set() if on_edge else {e.pen}
        assert pens == wanted, face
    behind = {e.pen for e in draw_mount(design, "back", 0.0, 0.0) if isinstance(e, Stroke)}
    assert behind == {Pen.OUTLINE}


@pytest.mark.parametrize("name", [*JOBS, "cart"])
def test_exploded_view_numbers_every_part(name: str) -> None:
    job = load_job(name)
    drawing = draw_exploded(job.project, job.design, 1 / 16)
    words = Counter(e.text for e in drawing.entities if isinstance(e, Words))
    for part in job.design.parts:
        assert words[part.number] == 1
    for port in job.design.ports:
        assert words[port.name] == 1


def test_numbers_of_a_crowded_view_stand_apart_and_point_at_what_is_seen() -> None:
    """The cart's 22 numbers: none touches another, and each line ends on its own part where nothing covers it."""
    job = load_job("cart")
    scale = 1 / 16
    drawing = draw_exploded(job.project, job.design, scale)
    numbers = {part.number for part in job.design.parts}
    rings = [e for e in drawing.entities if isinstance(e, Words) and e.text in numbers]
    assert len(rings) == len(numbers) == 22
    for i, one in enumerate(rings):
        for two in rings[i + 1 :]:
            assert math.dist((one.at.x, one.at.y), (two.at.x, two.at.y)) * scale > 5.0, (one.text, two.text)
    low, high = min(r.at.x for r in rings), max(r.at.x for r in rings)
    assert {round(r.at.x, 3) for r in rings} == {round(low, 3), round(high, 3)}  # two columns
    fills = [e for e in drawing.entities if isinstance(e, Fill)]
    dots = [find_bounds((e.outline,)) for e in fills if e.tone == 0.0]
    assert len(dots) == 22
    assert all(low < (dot.left + dot.right) / 2 < high for dot in dots)


def test_what_is_covered_later_is_not_seen() -> None:
    square = Fill(make_rectangle(0.0, 0.0, 10.0, 10.0))
    covers = list_covers([square])
    assert find_seen([(5.0, 5.0), (12.0, 5.0)], covers) == (12.0, 5.0)
    assert find_seen([(5.0, 5.0)], covers) is None
    assert find_seen([(5.0, 5.0)], []) == (5.0, 5.0)


def test_rings_are_moved_no_more_than_they_must() -> None:
    assert spread_apart([30.0, 20.0, 10.0], 5.0) == [30.0, 20.0, 10.0]
    assert spread_apart([10.0, 10.0], 4.0) == pytest.approx([12.0, 8.0])
    assert spread_apart([50.0, 10.0, 10.0, 10.0], 4.0) == pytest.approx([50.0, 14.0, 10.0, 6.0])


def test_isometric_shortens_all_axes_alike() -> None:
    """Isometric projection: each axis at sqrt(2/3) of its true length, 120 degrees apart (ISO 5456-3, from memory)."""
    for sight in (Sight(True), Sight(False)):
        ends = [sight.see(axis) for axis in ((1.0, 0.0, 0.0), (0.0, 1.0, 0.0), (0.0, 0.0, 1.0))]
        assert [math.hypot(*end) for end in ends] == pytest.approx([math.sqrt(2 / 3)] * 3)
        turns = sorted(math.degrees(math.atan2(y, x)) % 60 for x, y in ends)
        assert turns == pytest.approx([30.0] * 3)
        # a point straight toward the eye does not move on the paper
        assert sight.see(sight.toward) == pytest.approx((0.0, 0.0))


@pytest.mark.parametrize("name", JOBS)
def test_layouts_draw_what_was_nested(name: str) -> None:
    job = load_job(name)
    for plan in job.design.sheets:
        for layout in plan.layouts:
            drawing = draw_layout(layout, job.reader, 1 / 20, grain=True)
            outlines = Counter(
                (round(b.left, 1), round(b.bottom, 1), round(b.width, 1), round(b.height, 1))
                for b in (find_bounds((e.shape,)) for e in drawing.entities if isinstance(e, Stroke))
            )
            for p in layout.placed:
                assert outlines[(round(p.x_mm, 1), round(p.y_mm, 1), round(p.along_mm, 1), round(p.across_mm, 1))] >= 1
            numbers = {e.text for e in drawing.entities if isinstance(e, Words)}
            assert {str(cut.number) for cut in layout.cuts} <= numbers


def test_the_section_shows_what_seals_and_what_holds() -> None:
    """Sealant, gasket, screws, lid and hook clip: each named once, and drawn where the design has it."""
    job = load_job("boatshed")
    port = next(port for port in job.design.ports if port.port.kind == "filter")
    drawing = draw_section(job.project, port, job.reader, 0.5)
    words = [e.text for e in drawing.entities if isinstance(e, Words)]
    for part in ("sealant, ", "gasket on ", " screws", "screw lid", "hook clip", "ring", "collar: "):
        assert sum(part in each for each in words) >= 1, part
    clip = next(each for each in words if each.startswith("hook clip"))
    assert clip == f"hook clip, {port.port.closure.hooks} a lid"
    # the hook's hole stands where the lid's template has it: tangent inside to the hook edge
    edge, wide = port.port.closure.hook_edge_mm / 2, port.port.closure.hook_hole_mm
    boxes = [find_bounds((e.shape,)) for e in drawing.entities if isinstance(e, Stroke)]
    assert any(box.right == pytest.approx(edge) and box.width == pytest.approx(wide) for box in boxes)
    plain = next(port for port in job.design.ports if port.port.kind != "filter")
    lid = draw_section(job.project, plain, job.reader, 0.5)
    assert not [e for e in lid.entities if isinstance(e, Words) and "clip" in e.text]
