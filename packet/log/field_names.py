"""Names of form fields in plain letters: pages write them, the record reads them back."""

from __future__ import annotations

import re
import unicodedata

FRACTIONS = {"⅛": "1/8", "⅜": "3/8", "⅝": "5/8", "⅞": "7/8", "½": "1/2", "¼": "1/4", "¾": "3/4", "°": " deg", "ø": "o"}


def spell_plainly(text: str) -> str:
    """Return text in the plain letters that a form's built-in typeface is sure to have."""
    for character, plain in FRACTIONS.items():
        text = re.sub(rf"(\d){character}", rf"\1-{plain}", text) if "/" in plain else text.replace(character, plain)
        text = text.replace(character, plain)
    flat = unicodedata.normalize("NFKD", text.replace("ł", "l").replace("Ł", "L").replace("ß", "ss"))
    return "".join(c for c in flat if c.isascii() and c.isprintable())


def name_field(name: str) -> str:
    """Return a field name in plain letters, digits, ``-`` and ``_``. Raises ValueError when nothing is left."""
    plain = re.sub(r"[^A-Za-z0-9_-]+", "-", spell_plainly(name)).strip("-")
    if not plain:
        raise ValueError(f"a form field needs a name with letters or digits, not {name!r}")
    return plain
