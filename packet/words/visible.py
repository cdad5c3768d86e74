"""A user's text where it is shown: what does not print is written as its code."""

from __future__ import annotations

import re

ODD_CHARACTERS = re.compile(
    "[\x00-\x08\x0b-\x1f\x7f-\x9f\u200b-\u200f\u2028-\u202e\u2060-\u2069\ufeff\ud800-\udfff\ufffe\uffff]"
)


def make_visible(text: str) -> str:
    """Return text with control characters and direction marks written as their code, tabs as spaces."""
    return ODD_CHARACTERS.sub(lambda character: f"<U+{ord(character.group()):04X}>", text.replace("\t", " "))
