"""A step with more on it than a page holds goes on over the page, and nothing of it is lost."""

from __future__ import annotations

import pytest
from reportlab.platypus import Spacer

from packet.draw.fonts import register_fonts
from packet.pages.step_card import ALERT, BODY, BOLD, CardWords, Hold, Labels, StepCard, lay_runs

WIDTH, HEIGHT = 516.0, 700.0


def make_blank(width_mm: float) -> Spacer:
    return Spacer(width_mm, 14.0)


def make_words(lines: int, parts: int, holds: int) -> CardWords:
    return CardWords(
        number="7", title="Cut the rings", about="builder", why="",
        labels=Labels("Tools", "Parts", "HOLD", "Cut the rings (continued)"),
        lines=tuple((True, f"cut ring {n}") for n in range(lines)),
        parts=tuple((f"ring {n}", "1") for n in range(parts)),
        tools="saw",
        holds=tuple(Hold(f"across ring {n}", "300 mm (1 mm)", make_blank) for n in range(holds)),
    )  # fmt: skip


@pytest.mark.parametrize("counts", [(3, 40, 120), (90, 0, 0), (5, 900, 2), (1, 1, 120), (60, 60, 60)])
def test_a_card_taller_than_a_page_is_broken_and_keeps_all_of_it(counts: tuple[int, int, int]) -> None:
    register_fonts()
    whole = make_words(*counts)
    card, cards = StepCard(whole, "steps.rings", "steps"), []
    while card.wrap(WIDTH, HEIGHT)[1] > HEIGHT:
        head, card = card.split(WIDTH, HEIGHT)
        assert head.height <= HEIGHT
        cards.append(head)
    cards.append(card)
    assert len(cards) > 1
    for kind in ("lines", "parts", "holds"):
        assert sum((getattr(each.words, kind) for each in cards), ()) == getattr(whole, kind)
    assert [each.key for each in cards] == ["steps.rings"] + [""] * (len(cards) - 1)


def test_a_card_that_fits_a_page_stays_whole() -> None:
    register_fonts()
    assert StepCard(make_words(6, 4, 2), "steps.rings", "steps").split(WIDTH, 120.0) == []


def test_an_alert_sign_is_never_parted_from_its_signal_word() -> None:
    register_fonts()
    runs = [(BODY, "word")] * 7 + [(ALERT, ""), (BOLD, "CAUTION"), (BODY, "Sheet"), (BODY, "metal")]
    for width in range(100, 260):
        for row in lay_runs(runs, float(width)):
            fonts = [font for _, font, _ in row]
            assert fonts[-1] != ALERT
            assert BOLD not in fonts or fonts[fonts.index(BOLD) - 1] == ALERT
