"""The duct tree: every machine and run is there, trouble is told without colour, big trees are refused."""

from __future__ import annotations

from calc.finding import Verdict
from calc.measures.quantity import to_reader
from packet.draw.model import Fill, Pen, Stroke, Words
from packet.draw.views.duct_tree import Duct, can_draw, count_leaves, draw_duct_tree, find_depth
from packet.pages.report.air import make_tree
from tests.shop import load_job


def make_small(state: str = "fits") -> Duct:
    drops = tuple(
        Duct(title="5 in drop", words=("600 cfm",), diameter_mm=127.0, state="fits", machine=name)
        for name in ("planer", "saw")
    )
    return Duct(
        title="trunk · 6 in", words=("600 cfm", "3100 fpm"), diameter_mm=152.4, state=state, machine="", feeds=drops
    )  # type: ignore[arg-type]


def test_every_name_is_drawn() -> None:
    drawing = draw_duct_tree([make_small()], [("cyclone", "separator"), ("blower", "3 hp")], 182.0)
    words = {e.text for e in drawing.entities if isinstance(e, Words)}
    assert {"planer", "saw", "trunk · 6 in", "3100 fpm", "cyclone", "blower"} <= words
    assert drawing.bounds.width == 182.0


def test_trouble_is_hatched_dashed_and_heavy() -> None:
    fits = draw_duct_tree([make_small()], [], 182.0)
    tight = draw_duct_tree([make_small("tight")], [], 182.0)
    slow = draw_duct_tree([make_small("does not fit")], [], 182.0)
    assert not [e for e in fits.entities if isinstance(e, Fill) and e.hatch]
    assert [e for e in slow.entities if isinstance(e, Fill) and e.hatch]
    assert [e for e in slow.entities if isinstance(e, Stroke) and e.pen is Pen.CUT]
    assert [e for e in tight.entities if isinstance(e, Stroke) and e.pen is Pen.HIDDEN]


def test_ducts_are_as_wide_as_they_are() -> None:
    drawing = draw_duct_tree([make_small()], [], 182.0)
    heights = sorted({round(_height(e), 3) for e in drawing.entities if isinstance(e, Stroke) and e.pen is Pen.DRILL})
    assert round(152.4 / 127.0, 3) in {round(b / a, 3) for a in heights for b in heights}


def _height(stroke: Stroke) -> float:
    ys = [p.y for piece in stroke.shape.pieces for p in (piece.start, piece.end)]  # type: ignore[union-attr]
    return max(ys) - min(ys)


def test_a_tree_too_big_to_read_is_refused() -> None:
    wide = Duct(
        title="trunk",
        words=(),
        diameter_mm=150.0,
        state="fits",
        machine="",
        feeds=tuple(Duct(title="d", words=(), diameter_mm=100.0, state="fits", machine=f"m{n}") for n in range(40)),
    )
    deep = Duct(title="a", words=(), diameter_mm=150.0, state="fits", machine="m")
    for _ in range(9):
        deep = Duct(title="a", words=(), diameter_mm=150.0, state="fits", machine="", feeds=(deep,))
    assert count_leaves(wide) == 40
    assert find_depth(deep) == 10
    assert not can_draw([wide], 182.0)
    assert not can_draw([deep], 182.0)
    assert can_draw([make_small()], 182.0)


def test_the_boatshed_tree_shows_what_was_sized() -> None:
    job = load_job("boatshed")
    alone = [s for s in job.sizing.scenarios if s.kind == "alone"]
    (trunk,) = make_tree(job, alone)
    assert count_leaves(trunk) == len(job.project.machines)
    speeds = [d.speed.best for s in alone for d in s.ducts if d.place == "trunk" and d.kind == "run"]
    low, high = (f"{to_reader(v, 'speed_ms', job.reader):.0f}" for v in (min(speeds), max(speeds)))
    assert trunk.words[1] == f"{low}–{high} fpm"
    worst = max((d.verdict for s in alone for d in s.ducts if d.place == "trunk"), key=list(Verdict).index)
    assert trunk.state == worst.value
