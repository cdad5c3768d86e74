"""Template sheets as paper: read back from the PDF; measured in ink, taped, on a good and on a bad printer."""

from __future__ import annotations

import dataclasses
import io
from pathlib import Path
from typing import Any, Literal

import numpy as np
import pypdf
import pytest

from calc.box.box import settle_box
from calc.cutting.templates import PaperLayout, TiledPart, find_diagonals
from calc.cutting.tiles import Tile
from calc.finding import Finding, Limit, Said, Subject, Verdict, hold, tell
from calc.project import Project
from calc.shapes.shapes import Circle, Feature, FlatPart, Layer, Point
from packet.job import Job
from packet.reading.load import load_project
from tests.packet.read_pdf import find_circles, read_lines
from tests.packet.sheets import (
    Print,
    Printer,
    find_cross,
    fit_firmly,
    ink_of_circle,
    make_pdf,
    pick_part,
    print_sheets,
)
from tests.shop import finish_job, make_job, make_project, write_pages

PROJECTS = Path(__file__).parents[3] / "projects"


def load(stem: str) -> Project:
    return settle_box(load_project(PROJECTS / f"{stem}.yaml").project)


def with_display(project: Project, **changes: object) -> Project:
    return dataclasses.replace(project, display=dataclasses.replace(project.display, **changes))  # type: ignore[arg-type]


def change_design(job: Job, **changes: Any) -> Job:
    return dataclasses.replace(job, design=dataclasses.replace(job.design, **changes))


def final_diameter(part: FlatPart) -> float:
    return next(s.mm for s in part.sizes if s.what.phrase == "ports.final")


# --- the PDF read back ----------------------------------------------------------------------------------------------


@pytest.mark.parametrize("name", ["hole for filter A", "hole for inspection"])
def test_circles_read_from_the_pdf_measure_what_was_computed(name: str) -> None:
    job = make_job()
    tiled, layout = pick_part(job, name)
    pdf = make_pdf(job, tiled, layout)
    wanted = {s.what.phrase: s.mm for s in tiled.part.sizes}
    for page in range(len(tiled.tiling.tiles)):
        circles = find_circles(read_lines(pdf, page), 100.0)
        heavy = [2 * r for _, _, r, line in circles if line.width_mm > 0.45 and not line.dash]
        dashed = [2 * r for _, _, r, line in circles if line.dash and line.dash[0] > 5.0]
        assert heavy == [pytest.approx(wanted["ports.final"], abs=0.02)]
        assert dashed == [pytest.approx(wanted["ports.first_cut"], abs=0.02)]


def test_a_six_inch_circle_spans_432_points() -> None:
    """P7: one unit in the renderer."""
    from packet.draw.model import Drawing, Pen, Stroke
    from tests.packet.draw.backends.test_pdf import draw_pdf

    shape = Circle(Point(0.0, 0.0), 3 * 25.4)
    (line,) = read_lines(draw_pdf(Drawing("six inches", (Stroke(shape, Pen.CUT),), bounds_of(shape))))
    assert line.width * 72 / 25.4 == pytest.approx(432.0, abs=0.01)
    assert line.height * 72 / 25.4 == pytest.approx(432.0, abs=0.01)


def bounds_of(shape: Circle) -> object:
    from calc.shapes.shapes import find_bounds

    return find_bounds((shape,))


# --- ink ------------------------------------------------------------------------------------------------------------


@dataclasses.dataclass
class Taping:
    """The sheets of one part as printed, moved one after the other onto the crosses of those already taped."""

    tiled: TiledPart
    layout: PaperLayout
    printer: Printer
    prints: list[Print]
    shifts: dict[Tile, np.ndarray] = dataclasses.field(default_factory=dict)

    def sheet(self, tile: Tile) -> Print:
        return self.prints[self.tiled.tiling.tiles.index(tile)]

    def tape(self, tile: Tile) -> None:
        for side, row, column in (("left", tile.row, tile.column - 1), ("up", tile.row - 1, tile.column)):
            other = self.tiled.tiling.find(row, column)
            if other is not None and other in self.shifts:
                offs = [self.compare(tile, other, side, share) for share in (0.15, 0.85)]
                self.shifts[tile] = self.shifts[other] + np.mean(offs, axis=0)
                return
        assert not self.shifts, f"sheet {tile.name} touches no sheet before it"
        self.shifts[tile] = np.zeros(2)

    def compare(self, tile: Tile, other: Tile, side: str, share: float) -> np.ndarray:
        """Return how far one cross on this sheet must move to lie on the same cross of the other."""
        box = tile.window
        if side == "left":
            spot, arms = (box.left, box.bottom + box.height * share), "ru"
        else:
            spot, arms = (box.left + box.width * share, box.top), "rd"
        seen = [
            np.array(find_cross(self.sheet(one), *self.printer.place(self.layout, one, *spot), arms))
            for one in (other, tile)
        ]
        return seen[0] - seen[1]


def measure_taped(job: Job, tiled: TiledPart, layout: PaperLayout, makes_x: float, makes_y: float) -> float:
    """Print all sheets, tape them by their crosses, and return the diameter of the final line in ink."""
    display = job.project.display
    printer = Printer(makes_x, makes_y, display.printer_x, display.printer_y)
    taping = Taping(tiled, layout, printer, print_sheets(make_pdf(job, tiled, layout), 300.0, makes_x, makes_y))
    radius = final_diameter(tiled.part) / 2 * makes_x / display.printer_x
    points = []
    for tile in tiled.tiling.tiles:
        taping.tape(tile)
        middle = printer.place(layout, tile, 0.0, 0.0)
        points.append(ink_of_circle(taping.sheet(tile), *middle, radius) + taping.shifts[tile])
    return 2 * fit_firmly(np.vstack(points))[2]


@pytest.mark.parametrize("stem", ["boatshed", "schoolroom"])
@pytest.mark.parametrize(("makes_x", "makes_y"), [(1.0, 1.0), (0.991, 1.012)])
def test_taped_ink_measures_true(stem: str, makes_x: float, makes_y: float) -> None:
    """A sheet corrected for a printer that is off comes out true on that printer, across all seams."""
    # the schoolroom cuts by trammel: it gets paper of its holes only when it asks for it
    project = with_display(load(stem), printer_x=makes_x, printer_y=makes_y, extra_templates=True)
    job = make_job(project)
    name = next(f"hole for {port.name}" for port in project.ports if port.kind == "filter")
    tiled, layout = pick_part(job, name)
    assert len(tiled.tiling.tiles) > 1
    assert measure_taped(job, tiled, layout, makes_x, makes_y) == pytest.approx(final_diameter(tiled.part), abs=0.05)


def test_a_print_that_was_scaled_is_seen_by_this_very_measurement() -> None:
    job = make_job()
    tiled, layout = pick_part(job, "hole for filter A")
    measured = measure_taped(job, tiled, layout, 0.99, 0.99)
    assert measured < final_diameter(tiled.part) - 2.0


# --- the rules on every sheet ---------------------------------------------------------------------------------------


def find_rules(pdf: bytes, page: int) -> tuple[set[float], set[float]]:
    """Return lengths [mm] of all long level and upright single lines."""
    level, upright = set(), set()
    for line in read_lines(pdf, page):
        if len(line.points) == 2:
            if line.height < 0.001 and line.width > 90:
                level.add(round(line.width, 2))
            if line.width < 0.001 and line.height > 90:
                upright.add(round(line.height, 2))
    return level, upright


def test_every_sheet_has_rules_in_both_units_both_ways() -> None:
    """P1 and P8: one line a unit, its ends ticked, its name beside it."""
    job = make_job()
    tiled, layout = pick_part(job, "hole for filter A")
    pdf = make_pdf(job, tiled, layout)
    for page in range(len(tiled.tiling.tiles)):
        level, upright = find_rules(pdf, page)
        assert {150.0, 152.4} <= level
        assert {150.0, 152.4} <= upright


def test_rules_of_a_corrected_sheet_are_stretched_like_the_drawing() -> None:
    job = make_job(with_display(make_project(), printer_x=0.98, printer_y=1.02))
    tiled, layout = pick_part(job, "hole for filter A")
    level, upright = find_rules(make_pdf(job, tiled, layout), 0)
    assert any(abs(length - 150 / 0.98) < 0.01 for length in level)
    assert any(abs(length - 150 / 1.02) < 0.01 for length in upright)


def test_the_taping_check_is_the_true_distance_of_its_marks() -> None:
    job = make_job()
    tiled, _ = pick_part(job, "hole for filter A")
    for check in find_diagonals(tiled.tiling):
        assert check.length_mm == pytest.approx(np.hypot(check.end.x - check.start.x, check.end.y - check.start.y))
        for tile, at in ((check.start_tile, check.start), (check.end_tile, check.end)):
            assert tile.window.left < at.x < tile.window.right
            assert tile.window.bottom < at.y < tile.window.top


# --- words ----------------------------------------------------------------------------------------------------------


def read_words(pdf: bytes) -> list[str]:
    import pypdfium2

    document = pypdfium2.PdfDocument(pdf)
    words = [page.get_textpage().get_text_bounded() for page in document]
    document.close()
    return words


def test_stamp_says_what_and_which() -> None:
    job = make_job()
    tiled, layout = pick_part(job, "hole for filter A")
    for tile, words in zip(tiled.tiling.tiles, read_words(make_pdf(job, tiled, layout)), strict=True):
        for part in (
            "H1", "hole for filter A", f"sheet {tile.name}", "of 4", "1 off", "birch plywood",
            "outside of bottom panel",
            "revision B", "2026-03-14", "0123456789ab", "11-7/8 in (11.866)", "Actual size", "Letter", "P to Q",
        ):  # fmt: skip
            assert part in words, part


def test_lines_say_what_they_are_and_neighbours_are_named() -> None:
    job = make_job()
    tiled, layout = pick_part(job, "hole for filter A")
    words = read_words(make_pdf(job, tiled, layout))
    assert all("CUT FIRST" in page for page in words)
    assert all("FINAL LINE: sneak up to here" in page for page in words)
    assert "sheet A2 is laid on this strip" in words[0]
    assert "lay on sheet A1" in words[1]
    assert "lay on sheet A2" in words[3]
    assert "lay on sheet B1" in words[3]


def test_empty_sheets_are_named_and_not_printed() -> None:
    """T2: a ring 23 in outside and 21 in inside leaves sheets in the middle empty."""
    shapes = [Circle(Point(0.0, 0.0), d * 25.4 / 2) for d in (23.0, 21.0)]
    ring = FlatPart(
        number="9",
        name="ring",
        features=tuple(Feature(shape=s, layer=Layer.CUT) for s in shapes),
        quantity=1,
        material="plywood",
        thickness_mm=18.0,
        face="either",
        kind="panel",
    )
    job = change_design(make_job(), flat_parts=(ring,))
    tiled, layout = pick_part(job, "ring")
    skipped = tiled.tiling.skipped
    assert skipped
    words = read_words(make_pdf(job, tiled, layout))
    assert len(words) == tiled.tiling.rows * tiled.tiling.columns - len(skipped)
    assert f"Not printed, empty: {', '.join(skipped)}" in words[0]
    assert any(f"no sheet {skipped[0]}: nothing is drawn there" in page for page in words)


def test_every_sheet_says_how_far_off_is_too_far() -> None:
    """P1."""
    for project, said in (
        (make_project(), "more than 1/64 in"),
        (with_display(make_project(), system="metric"), "0.3 mm"),
    ):
        job = make_job(project)
        tiled, layout = pick_part(job, "filter lid")
        assert all(said in " ".join(page.split()) for page in read_words(make_pdf(job, tiled, layout)))


def test_correction_is_printed_on_corrected_sheets_only() -> None:
    plain, off = make_job(), make_job(with_display(make_project(), printer_x=0.98))
    for job, said in ((plain, False), (off, True)):
        tiled, layout = pick_part(job, "hole for filter A")
        words = [" ".join(page.split()) for page in read_words(make_pdf(job, tiled, layout))]
        assert all(("CORRECTED FOR THIS PRINTER: across 102.04 %" in page) is said for page in words)


def test_assumed_and_misfit_stand_across_the_sheet() -> None:
    narrow, subjects = Limit(5.0, "at least"), (Subject("port", "filter A"),)
    what, why = Said("ports.cover_what", names={"port": "filter A"}), Said("loading.never")
    bad = hold("hole.filter A", what, 2.0, narrow, why, topic="pails", subjects=subjects)
    other = hold("filter.hours", why, 1.0, narrow, why, topic="filters", subjects=(Subject("filters"),))
    job = change_design(make_job(make_project(assumed=("ports.filter A.pail",))), findings=(bad, other))
    tiled, layout = pick_part(job, "hole for filter A")
    words = [" ".join(page.split()) for page in read_words(make_pdf(job, tiled, layout))]
    assert all("DOES NOT FIT: DO NOT CUT" in page and "ASSUMED, MEASURE BEFORE CUTTING" in page for page in words)
    assert all("2 mm" in page or "3/32 in" in page or "1/16 in" in page for page in words)
    tiled, layout = pick_part(job, "hole for filter B")
    words = read_words(make_pdf(job, tiled, layout))
    assert not any("DOES NOT FIT" in page or "ASSUMED" in page for page in words)


def test_a_good_design_has_no_words_across_it() -> None:
    job = make_job()
    tiled, layout = pick_part(job, "hole for filter A")
    assert not any("DOES NOT FIT" in page or "ASSUMED" in page for page in read_words(make_pdf(job, tiled, layout)))


def test_user_words_are_printed_as_typed() -> None:
    project = make_project()
    title = dataclasses.replace(project.title, title="R&D <b>bay</b> Łódź 5⅛")
    job = make_job(dataclasses.replace(project, title=title))
    tiled, layout = pick_part(job, "hole for filter A")
    assert "R&D <b>bay</b> Łódź 5⅛" in read_words(make_pdf(job, tiled, layout))[0]


# --- probes ---------------------------------------------------------------------------------------------------------


def test_kerf_changes_no_template() -> None:
    """K2: a template's line is the finished edge, whatever the blade."""
    pdfs = []
    for kerf in (0.0, 3.175):
        project = make_project()
        project = dataclasses.replace(project, methods=dataclasses.replace(project.methods, kerf_mm=kerf))
        job = make_job(project)
        tiled, layout = pick_part(job, "hole for filter A")
        pdfs.append(make_pdf(job, tiled, layout))
    assert pdfs[0] == pdfs[1]


def test_margin_of_nothing_is_widened_to_what_printers_reach() -> None:
    """T3: no line nearer to the edge of the paper than 1/4 in."""
    paper = dataclasses.replace(make_project().display.paper, margin_mm=0.0)
    job = make_job(with_display(make_project(), paper=paper))
    tiled, layout = pick_part(job, "hole for filter A")
    assert layout.left_mm == pytest.approx(6.35)
    for sheet in print_sheets(make_pdf(job, tiled, layout), 50.0):
        edge = int(6.0 / sheet.mm_x)
        assert sheet.ink[:, :edge].max() == 0
        assert sheet.ink[:, -edge:].max() == 0
        assert sheet.ink[-edge:].max() == 0


@pytest.mark.parametrize(
    ("name", "width", "height"),
    [
        ("letter", 215.9, 279.4),
        ("legal", 215.9, 355.6),
        ("tabloid", 279.4, 431.8),
        ("A4", 210.0, 297.0),
        ("A3", 297.0, 420.0),
    ],
)
def test_every_sheet_is_the_paper_asked_for(name: str, width: float, height: float) -> None:
    """T1, T5: equal sheets, media box = crop box, no turn, origin at 0, 0."""
    import io

    import pypdf

    paper = dataclasses.replace(make_project().display.paper, name=name, width_mm=width, height_mm=height)
    job = make_job(with_display(make_project(), paper=paper))
    tiled, layout = pick_part(job, "hole for filter A")
    for page in pypdf.PdfReader(io.BytesIO(make_pdf(job, tiled, layout))).pages:
        assert [float(v) for v in page.mediabox] == pytest.approx([0, 0, width * 72 / 25.4, height * 72 / 25.4])
        assert list(page.cropbox) == list(page.mediabox)
        assert page.rotation == 0


def test_same_job_same_bytes() -> None:
    pdfs = []
    for _ in range(2):
        job = make_job()
        tiled, layout = pick_part(job, "filter lid")
        pdfs.append(make_pdf(job, tiled, layout))
    assert pdfs[0] == pdfs[1]


def test_a_hole_that_would_need_too_many_sheets_is_refused_not_printed() -> None:
    from calc.cutting.templates import judge_paper, plan_templates

    project = with_display(make_project(), most_sheets=3)
    job = make_job(project)
    plan = plan_templates(project.display, job.design.flat_parts)
    assert {r.part.name for r in plan.refused} >= {"hole for filter A"}
    assert all(r.count == 4 for r in plan.refused)
    finding = next(
        f
        for f in judge_paper(project.display, job.design.flat_parts)
        if Subject("part", "hole for filter A") in f.subjects
    )
    assert finding.verdict is Verdict.DOES_NOT_FIT
    assert finding.value is not None
    assert finding.value.value == 4


def test_a_packet_whose_templates_are_refused_is_built_and_says_so() -> None:
    """One sheet a template: every hole is refused, and contents, bookmarks and pages still agree."""
    project = load_project(PROJECTS / "minimal.yaml").project
    data, pages = write_pages(finish_job(with_display(project, most_sheets=1)))
    first = pages.sections["templates"][0]
    reader = pypdf.PdfReader(io.BytesIO(data))
    text = " ".join(reader.pages[first - 1].extract_text().split())
    assert "Full-size templates" in text
    assert "hole for filter A" in text
    assert "Full-size templates" in [entry.title for entry in reader.outline if not isinstance(entry, list)]


def test_window_is_what_the_pages_frame_leaves() -> None:
    """The sheet layout of calc/ and the frame of the pages are one thing said twice; they must agree."""
    from calc.cutting.templates import lay_sheet
    from packet.pages.kit.style import lay_full_frame

    display = make_project().display
    frame, layout = lay_full_frame(display.paper), lay_sheet(display)
    scale = 72 / 25.4
    assert (frame.left, frame.bottom) == pytest.approx((layout.left_mm * scale, layout.bottom_mm * scale))
    assert (frame.width, frame.height) == pytest.approx((layout.frame_width_mm * scale, layout.frame_height_mm * scale))


def test_first_cut_and_final_line_differ_without_colour() -> None:
    from packet.draw.flat import PEN_OF_LAYER
    from packet.draw.pens import LOOKS

    looks = {layer: LOOKS[PEN_OF_LAYER[layer]] for layer in Layer}
    assert not looks[Layer.CUT].dash_mm
    assert looks[Layer.FIRST_CUT].dash_mm
    assert looks[Layer.CUT].width_mm >= 1.5 * max(looks[k].width_mm for k in Layer if k is not Layer.CUT)
    assert all(look.grey == 0 for look in looks.values())


def test_a_finding_stamps_its_own_port_and_no_other() -> None:
    project = make_project()
    pails, ports = (
        {name: about(kind, name) for name in ("filter A", "filter B", "filter")} for kind in ("pail", "port")
    )
    parts = {part.name: part for part in make_job(project).design.flat_parts}
    strip = next(part for name, part in parts.items() if name.startswith("wrap strip filter A"))
    assert strip.is_about(pails["filter A"])
    assert not strip.is_about(ports["filter A"])  # where its hole stands says nothing about a collar
    hole = parts["hole for filter A"]
    assert hole.is_about(ports["filter A"])
    assert not any(hole.is_about(found[name]) for found in (pails, ports) for name in ("filter B", "filter"))
    assert parts["filter lid"].is_about(about("part", "filter lid"))


def about(kind: Literal["part", "pail", "port"], name: str) -> Finding:
    words = Said("loading.never")
    return tell("a", words, words, Verdict.DOES_NOT_FIT, topic="other", subjects=(Subject(kind, name),))
