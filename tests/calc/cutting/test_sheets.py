"""Sheet layouts: kerf between pieces only, grain kept, exact fits taken, and cuts a saw can make."""

from __future__ import annotations

import math
import random

import pytest

from calc.cutting.sheets import Blank, SheetLayout, plan_sheets
from calc.project import Sheet

INCH = 25.4


def lay(sizes: list[tuple[float, float]], sheet: Sheet, kerf: float, turn: bool = False, **more: object):
    blanks = tuple(
        Blank(number=str(i), name=f"part {i}", width_mm=w, height_mm=h, may_turn=turn)
        for i, (w, h) in enumerate(sizes, 1)
    )
    return plan_sheets(blanks, "plywood", 18.0, sheet, kerf, **more)  # type: ignore[arg-type]


def saw(layout: SheetLayout, kerf: float) -> list[tuple[float, float, float, float]]:
    """Saw the sheet up; every cut must run right across one piece. Return the pieces (x, y, along, across)."""
    pieces = [(0.0, 0.0, layout.length_mm, layout.width_mm)]
    for cut in layout.cuts:
        for piece in pieces:
            x, y, along, across = piece
            if cut.kind == "rip":
                whole = abs(cut.start_mm - x) < 1e-6 and abs(cut.end_mm - x - along) < 1e-6
                hit = whole and y < cut.at_mm < y + across
                halves = [(x, y, along, cut.at_mm - y), (x, cut.at_mm + kerf, along, y + across - cut.at_mm - kerf)]
            else:
                whole = abs(cut.start_mm - y) < 1e-6 and abs(cut.end_mm - y - across) < 1e-6
                hit = whole and x < cut.at_mm < x + along
                halves = [(x, y, cut.at_mm - x, across), (cut.at_mm + kerf, y, x + along - cut.at_mm - kerf, across)]
            if hit:
                pieces.remove(piece)
                pieces += [h for h in halves if h[2] > 1e-6 and h[3] > 1e-6]
                break
        else:
            raise AssertionError(f"cut {cut} crosses no single piece")
    return pieces


def check(layout: SheetLayout, kerf: float) -> None:
    pieces = saw(layout, kerf)
    for p in layout.placed:
        assert any(
            abs(x - p.x_mm) < 1e-6
            and abs(y - p.y_mm) < 1e-6
            and abs(a - p.along_mm) < 1e-6
            and abs(c - p.across_mm) < 1e-6
            for x, y, a, c in pieces
        ), f"{p} is not freed by the cuts"
        assert p.x_mm + p.along_mm <= layout.length_mm + 1e-9
        assert p.y_mm + p.across_mm <= layout.width_mm + 1e-9
    for i, a in enumerate(layout.placed):
        for b in layout.placed[i + 1 :]:
            apart = (
                b.x_mm - a.x_mm - a.along_mm, a.x_mm - b.x_mm - b.along_mm,
                b.y_mm - a.y_mm - a.across_mm, a.y_mm - b.y_mm - b.across_mm,
            )  # fmt: skip
            assert max(apart) >= kerf - 1e-6, "two parts closer than the kerf"


def test_kerf_stands_between_pieces_only() -> None:
    """48 in with a 1/8 in blade: 24 and 23-7/8 fill it exactly; 24 and 24 do not go."""
    sheet, kerf = Sheet(48 * INCH, 10 * INCH), INCH / 8
    assert lay([(24 * INCH, 10 * INCH), (23.875 * INCH, 10 * INCH)], sheet, kerf).to_buy == 1
    assert lay([(24 * INCH, 10 * INCH), (24 * INCH, 10 * INCH)], sheet, kerf).to_buy == 2


def test_exact_fits_survive_binary_fractions() -> None:
    """Three 15.9 in strips in 47.7 in, and three of 0.1 in 0.3: all placed on one sheet."""
    assert lay([(15.9 * INCH, 100.0)] * 3, Sheet(47.7 * INCH, 100.0), 0.0).to_buy == 1
    assert lay([(0.1 * INCH, 50.0)] * 3, Sheet(0.3 * INCH, 50.0), 0.0).to_buy == 1
    assert lay([(1220.0, 2440.0)], Sheet(2440.0, 1220.0), 3.0, turn=True).to_buy == 1


def test_grain_is_never_turned() -> None:
    """90 x 20 where only 20 x 90 has room: refused, not turned; allowed to turn, it goes."""
    sheet = Sheet(60.0, 100.0)
    plan = lay([(90.0, 20.0)], sheet, 0.0)
    assert [blank.name for blank in plan.too_large] == ["part 1"]
    assert plan.layouts == ()
    assert lay([(90.0, 20.0)], sheet, 0.0, turn=True).to_buy == 1
    across = plan_sheets(
        (Blank(number="1", name="a", width_mm=20.0, height_mm=90.0, may_turn=False, grain_across=True),),
        "x",
        18.0,
        Sheet(100.0, 60.0),
        0.0,
    )
    assert across.layouts[0].placed[0].along_mm == 90.0


def test_kerf_changes_the_layout_not_the_parts() -> None:
    sizes = [(600.0, 400.0), (500.0, 300.0)]
    thin, thick = lay(sizes, Sheet(2440.0, 1220.0), 0.0), lay(sizes, Sheet(2440.0, 1220.0), 4.0)
    assert {(p.along_mm, p.across_mm) for p in thin.layouts[0].placed} == {
        (p.along_mm, p.across_mm) for p in thick.layouts[0].placed
    }


def test_offcuts_on_hand_go_first() -> None:
    plan = lay([(600.0, 400.0), (2000.0, 900.0)], Sheet(2440.0, 1220.0), 3.0, offcuts=(Sheet(650.0, 450.0),))
    assert plan.to_buy == 1
    assert plan.layouts[0].from_hand
    assert plan.layouts[0].placed[0].along_mm == 600.0


def test_layouts_can_be_sawn() -> None:
    chance = random.Random(5)
    for _ in range(25):
        sizes = [(chance.uniform(80, 1400), chance.uniform(60, 800)) for _ in range(chance.randint(2, 14))]
        plan = lay(sizes, Sheet(2440.0, 1220.0), 3.2, turn=chance.random() < 0.5)
        assert sum(len(layout.placed) for layout in plan.layouts) == len(sizes)
        assert plan.to_buy >= math.ceil(sum(wide * high for wide, high in sizes) / (2440.0 * 1220.0))  # area alone
        for layout in plan.layouts:
            check(layout, 3.2)
        trimmed = lay(sizes, Sheet(2440.0, 1220.0), 3.2, trim_mm=6.0)
        for layout in trimmed.layouts:
            check(layout, 3.2)


def test_a_bought_sheet_is_squared_first() -> None:
    """Of 2440 x 1220 with 6 mm off two edges 2434 x 1214 is left; an offcut of the shop's own is square already."""
    sheet, kerf = Sheet(2440.0, 1220.0), 3.0
    assert lay([(2434.0, 1214.0)], sheet, kerf, trim_mm=6.0).to_buy == 1
    assert [blank.number for blank in lay([(2435.0, 1214.0)], sheet, kerf, trim_mm=6.0).too_large] == ["1"]
    plan = lay([(600.0, 400.0), (2000.0, 900.0)], sheet, kerf, offcuts=(Sheet(650.0, 450.0),), trim_mm=6.0)
    hand, whole = plan.layouts
    assert (hand.placed[0].x_mm, hand.placed[0].y_mm) == (0.0, 0.0)
    assert (whole.placed[0].x_mm, whole.placed[0].y_mm) == (6.0, 6.0)
    assert [(cut.kind, cut.at_mm) for cut in whole.cuts[:2]] == [("rip", 3.0), ("crosscut", 3.0)]
    assert (whole.length_mm, whole.width_mm) == (2440.0, 1220.0)
    assert whole.used == pytest.approx(2000 * 900 / (2440 * 1220))
    check(whole, kerf)


def test_a_sheet_without_size_is_refused() -> None:
    with pytest.raises(ValueError, match="no size"):
        lay([(10.0, 10.0)], Sheet(0.0, 100.0), 3.0)


def test_the_largest_offcut_is_left() -> None:
    """One 600 x 400 part: crosscutting first leaves 1837 x 1220, ripping first only 2440 x 817."""
    plan = lay([(600.0, 400.0)], Sheet(2440.0, 1220.0), 3.0)
    largest = max(plan.layouts[0].offcuts, key=lambda o: o.along_mm * o.across_mm)
    assert (largest.along_mm, largest.across_mm) == (1837.0, 1220.0)
    assert [cut.kind for cut in plan.layouts[0].cuts] == ["crosscut", "rip"]
    assert [cut.number for cut in plan.layouts[0].cuts] == [1, 2]


def test_the_same_parts_give_the_same_layout() -> None:
    chance = random.Random(9)
    sizes = [(chance.uniform(200, 1200), chance.uniform(100, 600)) for _ in range(16)]
    assert lay(sizes, Sheet(2440.0, 1220.0), 3.0) == lay(sizes, Sheet(2440.0, 1220.0), 3.0)


def test_what_only_the_offcut_could_hold_is_named() -> None:
    """Two parts that fit nothing but the one offcut: the second is told as too large, not lost."""
    plan = lay([(300.0, 90.0), (300.0, 90.0)], Sheet(250.0, 250.0), 3.0, offcuts=(Sheet(310.0, 95.0),))
    assert plan.to_buy == 0
    assert [blank.number for blank in plan.too_large] == ["2"]
