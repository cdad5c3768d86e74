"""A user's text where it is shown: what does not print is written as its code."""

from __future__ import annotations

import re

ODD_SIGNS = re.compile(
    "[\x00-\x08\x0b-\x1f\x7f-\x9f\u200b-\u200f\u2028-\u202e\u2060-\u2069\ufeff\ud800-\udfff\ufffe\uffff]"
)


def make_visible(text: str) -> str:
    """Return text with control signs and direction marks written as their code, tabs as spaces."""
    return ODD_SIGNS.sub(lambda sign: f"<U+{ord(sign.group()):04X}>", text.replace("\t", " "))
