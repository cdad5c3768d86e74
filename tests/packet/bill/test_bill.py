"""The bill against the drawings: screws, metres and squares counted again from what is drawn."""

from __future__ import annotations

import csv
import io
import math
from collections import Counter
from dataclasses import replace
from functools import cache

import pytest

from calc.box.box import settle_box
from calc.box.lining import count_washers
from calc.box.parts import SCREW_DRILL_MM
from calc.box.ports import PILOT_MM
from calc.design import Design, design_box
from calc.finding import Band
from calc.gauges.gauge_design import GaugeDesign, design_gauge
from calc.gauges.gauge_parts import list_boards
from calc.measures.quantity import Reader, read_amount
from calc.project import FACES, Hose, Pipe, Project
from calc.results import Sizing
from calc.shapes.shapes import Circle, Layer, find_bounds
from packet.bill.bill import make_bill, merge_wants, price_want
from packet.bill.box import list_beads
from packet.bill.cuts import list_cuts
from packet.bill.model import Bill, Want
from packet.files.bill_csv import write_bill_csv
from packet.files.cuts_csv import write_cuts_csv
from packet.files.tables_csv import MARK, guard_cell, write_csv
from tests.shop import load_job, make_job, make_project, make_sizing, size


@cache
def make_gauge() -> GaugeDesign:
    """Return one U-tube on the wall with 2 m of tube: the gauge's own design is tested in its room."""
    gauge = design_gauge(make_project(), make_sizing(clean=1.2, clean_me=2.4))
    assert (gauge.boards, gauge.on_lid, gauge.card.instrument.kind) == ((gauge.card,), False, "u-tube")
    tube = replace(gauge.card.tube, length_mm=2000.0, liquid_m3=3e-5)
    return replace(gauge, card=replace(gauge.card, tube=tube))


def wear_out(hours: float) -> Sizing:
    """Return a sizing whose filters want cleaning every so many hours."""
    filters, later = size().filters, Band(hours / 2, hours, hours * 2)
    return replace(size(), filters=replace(filters, clean_me=replace(filters.clean_me, hours_later=later)))


def build(project: Project | None = None) -> tuple[Project, Design, Bill]:
    settled = settle_box(project or make_project())
    design = design_box(settled, 800.0, 2800.0)
    return settled, design, make_bill(settled, wear_out(40.0), design, make_gauge())


def count_drills(design: Design, diameter: float) -> int:
    """Return how many holes of a drill the drawings of the panels show."""
    return sum(
        isinstance(feature.shape, Circle) and feature.layer is Layer.DRILL and feature.shape.radius * 2 == diameter
        for part in design.flat_parts
        if part.name.endswith("panel")
        for feature in part.features
    )


@pytest.mark.parametrize("joint", ["butt", "rabbet", "dado"])
def test_screws_are_those_drawn(joint: str) -> None:
    project = make_project()
    _, design, bill = build(replace(project, box=replace(project.box, joint=joint)))  # type: ignore[arg-type]
    assert bill.get_line("No. 8 x 3/4 in pan head screw").needed == count_drills(design, PILOT_MM)
    assert bill.get_line("No. 8 x 1-1/2 in flat head screw").needed == count_drills(design, SCREW_DRILL_MM)


def test_cleats_have_screws_of_their_own() -> None:
    project = make_project()
    _, design, bill = build(replace(project, box=replace(project.box, joint="cleat")))
    inside = sum(len(row.spots) for row in design.rows if row.from_inside)
    screws = sum(line.needed for line in bill.lines if "flat head" in line.item)
    assert inside > 0
    assert screws == count_drills(design, SCREW_DRILL_MM) + inside
    for row in design.rows:
        assert row.spacing_mm <= 150.0 + 1e-6
    # every cleat is screwed to the two panels it lies in the corner of
    for name in {part.name for part in design.parts if part.kind == "cleat"}:
        assert sum(row.through == name for row in design.rows) == 2


def test_a_cart_is_screwed_where_its_parts_touch() -> None:
    """Screws counted again from the bricks: a row along every line where a side of the cart meets another part."""
    project = make_project()
    box = replace(project.box, hung="cart", underside_mm=None)
    _, design, bill = build(replace(project, box=box))
    parts = {part.name: part for part in design.mount.parts}
    count = 0
    for side in ("cart left side", "cart right side"):
        for name, other in parts.items():
            a, b = parts[side].block, other.block
            shared = sorted(min(a.high[i], b.high[i]) - max(a.low[i], b.low[i]) for i in range(3))
            if name != side and shared[0] > -1e-6 and shared[1] > 1e-6:  # face to face, along the longest of the three
                count += math.ceil((shared[2] - 2 * 40.0) / 150.0 - 1e-9) + 1
    assert count > 20
    inside = sum(len(row.spots) for row in design.rows if row.from_inside)
    flat = sum(line.needed for line in bill.lines if "flat head" in line.item)
    assert flat == count_drills(design, SCREW_DRILL_MM) + inside + count
    pan = sum(line.needed for line in bill.lines if "pan head" in line.item)
    assert pan == count_drills(design, PILOT_MM) + 4 * bill.get_line("caster").needed
    assert bill.get_line("caster").needed == 4
    (bolt,) = [line for line in bill.lines if line.item.endswith(" bolt")]
    assert bolt.needed == 4
    length = read_amount(bolt.item.split(" x ")[1].removesuffix(" bolt"), "length_mm")
    assert length > 3 * project.box.panel.thickness_mm  # through the bottom and two layers of cleat


def test_beads_grow_with_the_filters() -> None:
    project, _, _ = build()
    one = project.filters[0]
    for count in (1, 3):
        hung = [p for p in project.ports if p.kind == "filter"]
        others = [p for p in project.ports if p.kind != "filter"]
        ports = (*(replace(hung[0], name=f"f{n}", across_mm=None, up_mm=None) for n in range(count)), *others)
        settled, design, _ = build(
            replace(project, filters=(replace(one, count=count),), ports=ports,
                    box=replace(project.box, width_mm=None, depth_mm=None, height_mm=None))
        )  # fmt: skip
        ends = dict(list_beads(settled, design))["lower ends of the filters"]
        assert ends == pytest.approx(count * math.pi * one.outside_mm)


def test_no_screw_runs_into_another_or_into_a_ring() -> None:
    _, design, _ = build()
    for part in design.parts:
        spots = [s for row in design.rows if row.through == part.name and not row.from_inside for s in row.spots]
        for i, a in enumerate(spots):
            for b in spots[i + 1 :]:
                assert math.dist((a.x, a.y), (b.x, b.y)) > 12.0
            for hole in part.holes:
                middle = (hole.across_mm + part.left_mm, hole.up_mm + part.bottom_mm)
                assert math.dist((a.x, a.y), middle) > hole.flange_mm / 2


def test_metres_are_those_drawn() -> None:
    """Gasket, seams and beads measured again on the outlines and holes of the flat parts."""
    project, design, bill = build()
    flat = {part.name: part for part in design.flat_parts}
    front = find_bounds(tuple(f.shape for f in flat["front panel"].features if f.layer is Layer.CUT))
    t = project.box.panel.thickness_mm
    around = 2 * (front.width - t) + 2 * (front.height - t)  # middle line of the panel edges behind it
    assert bill.get_line("closed-cell gasket tape").needed == pytest.approx(around / 1000)
    beads = dict(list_beads(project, design))
    inside = design.box.inside
    assert beads["inner seams"] == pytest.approx(4 * inside.depth + 2 * inside.width + 2 * inside.height)
    for port in design.ports:
        circles = [
            f.shape.radius for part in design.flat_parts if part.name == f"{port.port.face} panel"
            for f in part.features if isinstance(f.shape, Circle) and f.layer is Layer.CUT
        ]  # fmt: skip
        assert any(beads[f"ring of {port.name}"] == pytest.approx(2 * math.pi * radius) for radius in circles)
    volume = math.pi / 4 * 0.006**2 * sum(beads.values()) / 1000
    assert bill.get_line("silicone cartridge").needed == pytest.approx(volume / 298.6926485812499e-6)


def test_duct_metres_are_those_of_the_file() -> None:
    project, _, bill = build()
    pieces = [*project.delivery, *project.link]
    pieces += [p for run in project.runs for p in run.pieces]
    pieces += [p for machine in project.machines for p in machine.pieces]
    pipe = sum(p.length_m for p in pieces if isinstance(p, Pipe))
    hose = sum(p.length_m for p in pieces if isinstance(p, Hose))
    assert any(isinstance(p, Hose) and p.left_out for p in project.delivery)  # the flexible piece at the blower
    assert sum(line.needed for line in bill.lines if line.item.endswith(" pipe")) == pytest.approx(pipe)
    assert sum(line.needed for line in bill.lines if line.item.endswith(" hose")) == pytest.approx(hose)
    sticks = bill.get_line("6 in pipe")
    assert sticks.buy == math.ceil(52 * 1.1 / 5)


def test_squares_are_those_drawn() -> None:
    _, design, bill = build()
    area = 0.0
    for part in design.flat_parts:
        if part.name.startswith("lining"):
            outline = find_bounds((part.features[0].shape,))
            area += outline.width * outline.height
            area -= sum(math.pi * f.shape.radius**2 for f in part.features if isinstance(f.shape, Circle))
    assert bill.get_line("lining adhesive").needed == pytest.approx(area / 1e6)
    laid = Counter(p.blank.number for plan in design.sheets for layout in plan.layouts for p in layout.placed)
    rows = list_cuts(design, Reader("inch"))
    assert laid == Counter(row.number for row in rows)
    assert bill.get_line("birch plywood").needed == design.sheets[0].to_buy


def test_rings_lids_pails() -> None:
    _, design, bill = build()
    filters = sum(port.port.kind == "filter" for port in design.ports)
    assert bill.get_line("screw lid").needed == len(design.ports) + filters
    assert bill.get_line("pail").needed == len(design.ports) + filters
    assert bill.get_line("hook clip").needed == 2 * 4 * filters
    assert bill.get_line("filter cartridge").needed == 2


def test_stock_on_hand_waste_and_price() -> None:
    project = replace(
        make_project(), prices={"Screw  Lid": 9.5, "birch plywood": 78.0}, on_hand={"pail": 4, "gizmo": 1},
        buy_at={"pail": "farm"},
    )  # fmt: skip
    _, _, bill = build(project)
    assert bill.get_line("pail").buy == 2
    assert bill.get_line("pail").place == "farm"
    assert bill.get_line("screw lid").cost == pytest.approx(6 * 9.5)
    assert bill.get_line("pail").cost is None
    assert "pail" in bill.missing
    assert bill.unknown == ("gizmo",)
    assert bill.total == pytest.approx(sum(s.cost for s in bill.subtotals))
    assert bill.total == pytest.approx(57.0 + 78.0 * bill.get_line("birch plywood").buy)
    want = Want(
        group="g", item="rope", detail="", needed=9.2, unit="m", place="shop", waste=0.1, pack=10.0, sold="coil"
    )
    assert price_want(project, want).buy == 2
    assert price_want(replace(project, on_hand={"rope": 2}), want).buy == 0
    assert price_want(replace(project, on_hand={"rope": 2}), want).cost == 0.0


def test_lines_merge_only_when_all_else_agrees() -> None:
    a = Want(group="g", item="screw", detail="8 x 1", needed=3, unit="screw", place="shop", where_used="lid")
    b = Want(group="g", item="screw", detail="8 x 1", needed=4, unit="screw", place="shop", where_used="box")
    c = Want(group="g", item="screw", detail="8 x 2", needed=4, unit="screw", place="shop")
    merged = merge_wants([a, b, c, replace(a, needed=0.0)])
    assert [w.needed for w in merged] == [7, 4]
    assert merged[0].where_used == "lid, box"


def test_no_helper_halves_the_gloves() -> None:
    project = make_project()
    _, _, alone = build(project)
    _, _, two = build(replace(project, methods=replace(project.methods, helper=True)))
    assert two.get_line("cut-resistant gloves").needed == 2 * alone.get_line("cut-resistant gloves").needed


@pytest.mark.parametrize("joint", ["butt", "cleat"])
@pytest.mark.parametrize("removable", FACES)
def test_every_box_has_a_bill(joint: str, removable: str) -> None:
    project = make_project()
    box = replace(project.box, joint=joint, removable=removable)  # type: ignore[arg-type]
    _, design, bill = build(replace(project, box=box, lining=None))
    assert bill.get_line("birch plywood").buy >= 1
    assert all(line.needed > 0 for line in bill.lines)
    assert len({part.number for part in design.parts}) == len(design.parts)


@pytest.mark.parametrize(("hours", "sets"), [(600.0 / 451, 9), (600.0 / 50, 1), (600.0 / 49, 0), (0.0, 0)])
def test_filters_of_a_year_are_the_sets_worn_out(hours: float, sets: int) -> None:
    """3 h a day on 200 days are 600 h. A set stands 50 cleanings: of 451, the ninth ends at the 450th."""
    project = settle_box(make_project())
    design = design_box(project, 800.0, 2800.0)
    line = next(
        line
        for line in make_bill(project, wear_out(hours), design, load_job("boatshed").gauge).yearly
        if line.name == "filter cartridge"
    )
    assert line.buy == sets * 2


def test_a_year_takes_only_what_the_job_leaves() -> None:
    project = make_project()
    _, _, none = build(project)
    job = none.get_line("silicone cartridge").buy
    for there, bought in ((job, 1), (job + 1, 0)):
        _, _, bill = build(replace(project, on_hand={"silicone cartridge": there}))
        assert bill.get_line("silicone cartridge").buy == 0
        assert next(line.buy for line in bill.yearly if line.name == "silicone cartridge") == bought


def test_washers_of_the_lining_counted_by_hand() -> None:
    """A piece of 450 x 190 mm takes three by one at 200 mm: 150 mm apart, 75 mm from the ends."""
    _, design, bill = build()
    assert design.lining is not None
    by_hand = 0
    for piece in design.lining.pieces:
        across, up = piece.width_mm / 203.2, piece.height_mm / 203.2
        rows = [next(n for n in range(1, 99) if n >= side - 1e-9) for side in (across, up)]
        by_hand += rows[0] * rows[1]
    assert bill.get_line("lining screw").needed == by_hand
    one = replace(design.lining, pieces=(replace(design.lining.pieces[0], width_mm=450.0, height_mm=190.0),))
    assert count_washers(one, 200.0) == 3


def test_rails_on_a_wall_are_locked_foam_is_bought_and_glue_always() -> None:
    project = make_project()
    _, _, bill = build(project)
    assert bill.get_line("locking screw").needed == 2
    assert bill.get_line("closed-cell foam").needed == 2  # one a filter
    assert bill.get_line("wood glue").buy == 1  # a butt joint is glued too
    ceiling = replace(project.box, hung="ceiling", underside_mm=None)
    assert "locking screw" not in {line.name for line in build(replace(project, box=ceiling))[2].lines}


def test_boards_of_the_gauge_are_bought_as_they_are_drawn(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.undo()
    job = load_job("schoolroom")
    boards = [part for part in job.design.flat_parts if part.number.startswith("M")]
    line = job.bill.get_line("gauge board stock")
    assert line.needed == sum(part.quantity for part in boards)
    assert all(part.number in line.detail for part in boards)
    brackets = sum(part.quantity for part in boards if part.name == "gauge bracket")
    assert job.bill.get_line("gauge screw").needed == 3 * brackets > 0  # two into the wall, one into the board


# --- CSV --------------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize("bad", ["=1+1", "+cmd", "-2", "@SUM(A1)", "\t=1", " =1", "\r=1", "＝1"])
def test_formulas_are_defused(bad: str) -> None:
    guarded = guard_cell(bad)
    assert isinstance(guarded, str)
    assert guarded.startswith("'")
    assert guard_cell(-2.5) == -2.5
    assert guard_cell("6 in pipe") == "6 in pipe"
    assert guard_cell("a\x00b\nc") == "a b c"


def test_csv_opens_as_it_was_written() -> None:
    text = write_csv([["name", "n"], ['say "hé", twice', 3], [None, 1.5]])
    assert text.startswith(MARK)
    assert text.encode("utf-8").startswith(b"\xef\xbb\xbf")
    rows = list(csv.reader(io.StringIO(text.removeprefix(MARK), newline="")))
    assert rows == [["name", "n"], ['say "hé", twice', "3"], ["", "1.5"]]


def test_bill_and_cuts_as_csv() -> None:
    project = make_project()
    panel = replace(project.box.panel, stock="=HYPERLINK(1)")
    settled, design, bill = build(replace(project, box=replace(project.box, panel=panel)))
    rows = list(csv.reader(io.StringIO(write_bill_csv(bill).removeprefix(MARK), newline="")))
    assert len(rows[0]) == 14
    assert all(len(row) == 14 for row in rows[1 : 1 + len(bill.lines) + len(bill.yearly)])
    assert rows[-1][0] == "total USD"
    assert float(rows[-1][10]) == bill.total
    cuts = list(csv.reader(io.StringIO(write_cuts_csv(design, Reader("inch")).removeprefix(MARK), newline="")))
    assert cuts[1][9] == "'=HYPERLINK(1)"
    assert [float(row[6]) for row in cuts[1:7]] == [pytest.approx(p.width_mm, abs=0.006) for p in design.parts[:6]]
    assert settled.box.panel.stock == "=HYPERLINK(1)"


def test_every_clip_hole_of_the_gauge_has_its_clip() -> None:
    job = load_job("boatshed")
    drilled = [f for part in list_boards(job.design.flat_parts) for f in part.features if f.layer is Layer.DRILL]
    holes = [f for f in drilled if isinstance(f.shape, Circle) and f.shape.radius < 2.0]
    assert job.bill.get_line("pipe clip").needed == len(holes) >= 3


def test_two_gauges_on_one_hose_have_their_jar_and_tee() -> None:
    """An upright tube for the highest pressure hangs beside a sloping one: two tubes, one jar, one tee."""
    job = make_job(sizing=make_sizing(0.1, 1.8))
    assert [card.instrument.kind for card in job.gauge.boards] == ["u-tube", "inclined"]
    assert job.bill.get_line("jar").needed == 1
    assert job.bill.get_line("hose tee").needed == 1
    tubes = sum(card.tube.length_mm for card in job.gauge.boards) / 1000
    assert job.bill.get_line("clear tube").needed > tubes
