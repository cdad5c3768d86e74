"""The packet's one typeface, embedded: Source Sans Pro (SIL Open Font License), from a pip package."""

from __future__ import annotations

import unicodedata
from functools import cache, lru_cache
from importlib.util import find_spec
from pathlib import Path

BODY = "Body"
BOLD = "Body-Bold"
ITALIC = "Body-Italic"

CAPITAL_EM = 0.66
"""Height of a capital over the font size in the embedded fonts (Source Sans: 660 of 1000 units)."""

FACES = {BODY: "Regular", BOLD: "Bold", ITALIC: "It"}

# Every character our own words use beside letters, digits and plain punctuation.
CHARACTERS = "⅛⅜⅝⅞½¼¾°×±≤≥Δ²³″′→☐✓−–—·•≈√πΣ…“”‘’µΩρηλεζΦ¹₀₁₂"

# Signs the typeface lacks, spelled with what it has.
SPELLED = {"⌀": "dia. ", "\u00ad": "", "\u200b": "", "\ufeff": "", "□": "☐", "●": "•", "○": "o", "✗": "x", "☒": "☑"}


def find_font_file(face: str) -> Path:
    """Return the path of a face's TrueType file (``Regular``, ``Bold``, ``It``). Raises LookupError."""
    spec = find_spec("font_source_sans_pro")
    if spec is None or spec.origin is None:
        raise LookupError("the package font-source-sans-pro is not installed")
    return Path(spec.origin).parent / "files" / f"SourceSansPro-{face}.ttf"


@cache
def register_fonts() -> None:
    """Make Body and Body-Bold known to reportlab; Body-Italic follows when it is first measured.

    Every PDF of ours begins here, so here too the library is told to write streams as bytes: smaller, and quicker.
    """
    from reportlab import rl_config
    from reportlab.pdfbase import pdfmetrics

    rl_config.useA85 = 0
    register_face(BODY)
    register_face(BOLD)
    pdfmetrics.registerFontFamily(BODY, normal=BODY, bold=BOLD, italic=BODY, boldItalic=BOLD)


@cache
def register_face(font: str) -> None:
    """Make one face known to reportlab; a file embeds the characters it uses only."""
    from reportlab.pdfbase import pdfmetrics
    from reportlab.pdfbase.ttfonts import TTFont

    pdfmetrics.registerFont(TTFont(font, str(find_font_file(FACES[font]))))


@cache
def _find_characters(font: str) -> frozenset[int]:
    from reportlab.pdfbase import pdfmetrics

    register_fonts()
    register_face(font)
    return frozenset(pdfmetrics.getFont(font).face.charToGlyph)


def clean_text(text: str, font: str = BODY) -> str:
    """Return text that the typeface can show whole.

    Tabs become spaces, other control characters go, and a character without a glyph is spelled out or becomes ``?``:
    a visible mark is better than a black square or a silent gap.
    """
    if text.isascii() and text.isprintable():
        return text
    characters = _find_characters(font)
    return "".join(_show(c, characters) for c in unicodedata.normalize("NFC", text))


def _show(character: str, characters: frozenset[int]) -> str:
    if character == "\n":
        return character
    if character in "\t\v\f\r\u2028\u2029":
        return " "
    if unicodedata.category(character) in ("Cc", "Cf"):
        return SPELLED.get(character, "")
    if ord(character) in characters:
        return character
    plain = "".join(c for c in unicodedata.normalize("NFKD", character) if not unicodedata.combining(c))
    return SPELLED.get(character, plain if plain and all(ord(c) in characters for c in plain) else "?")


@lru_cache(maxsize=50_000)
def measure_text(text: str, size: float, font: str = BODY) -> float:
    """Return the printed width [pt] of one line of text. Kept in mind: the same words are measured again and again."""
    widths, usual = _find_widths(font)
    return sum([widths.get(ord(character), usual) for character in text]) * size / 1000


@cache
def _find_widths(font: str) -> tuple[dict[int, float], float]:
    from reportlab.pdfbase import pdfmetrics

    register_fonts()
    register_face(font)
    face = pdfmetrics.getFont(font).face
    return face.charWidths, face.defaultWidth


def measure_words(text: str, size_mm: float, bold: bool = False) -> float:
    """Return how wide a text is [mm on paper] at a capital height [mm]. Needs the fonts registered."""
    return measure_text(text, size_mm / CAPITAL_EM, BOLD if bold else BODY)
