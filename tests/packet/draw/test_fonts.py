"""The typeface shows every sign we print, and what it cannot show never becomes a black square or nothing."""

from __future__ import annotations

import pytest
from fontTools.ttLib import TTFont

from packet.draw.fonts import BODY, BOLD, CHARACTERS, FACES, clean_text, find_font_file, measure_text

WANTED = "⅛⅜⅝⅞½¼¾°×±≤≥Δ²³″′→☐✓−–—·•…µ" + "ÄÖÜäöüßéèêëçñåøæŁłÓóźżšžřěůğşıőűÞðÅÉ¿¡€£" + "ρηλ"


@pytest.mark.parametrize("font", [BODY, BOLD])
@pytest.mark.parametrize("character", sorted(set(WANTED + CHARACTERS)))
def test_every_character_has_a_glyph(font: str, character: str) -> None:
    assert clean_text(character, font) == character


@pytest.mark.parametrize(("font", "face"), sorted(FACES.items()))
def test_glyphs_agree_with_another_reader_of_the_font(font: str, face: str) -> None:
    with TTFont(find_font_file(face)) as other:
        known = other.getBestCmap()
    assert [s for s in "½A⅛⌀●Ł" if clean_text(s, font) == s] == [s for s in "½A⅛⌀●Ł" if ord(s) in known]


def test_width_agrees_with_the_font_file() -> None:
    with TTFont(find_font_file("Regular")) as other:
        advance = sum(other["hmtx"][other.getBestCmap()[ord(c)]][0] for c in "Hole 5⅛ in")
        assert measure_text("Hole 5⅛ in", 10.0) == pytest.approx(advance / other["head"].unitsPerEm * 10.0, abs=0.02)


@pytest.mark.parametrize(
    ("text", "shown"),
    [
        ("plain", "plain"),
        ("seal\there", "seal here"),  # R7
        ("seal\x00here\x07", "sealhere"),
        ("⌀ 130", "dia.  130"),
        ("木", "?"),
        ("ρₚ", "ρp"),  # a plainer form of the same letter
        ("e\u0301", "é"),  # composed, so that the accent is not lost
        ("soft\u00adhyphen", "softhyphen"),
        ("5⅛″", "5⅛″"),
        ("two\nlines", "two\nlines"),
    ],
)
def test_what_cannot_be_shown_is_spelled(text: str, shown: str) -> None:
    assert clean_text(text) == shown
