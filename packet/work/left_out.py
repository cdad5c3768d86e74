"""What a job leaves out, in words: each part with the keys of the file that would bring it."""

from __future__ import annotations

from packet.parts import BROUGHT_BY, PARTS, Part
from packet.reading.parts import list_missing, write_example
from packet.words.phrases import take_words


def tell_left_out(has: frozenset[Part], keys: frozenset[str], language: str = "") -> list[str]:
    """Return one line a part that is not there; keys: of the file's top, that it has."""
    words = take_words("parts", language)
    return [
        words("left_out_line", part=words(f"name_{part}"), keys=", ".join(f"{key}:" for key in list_wanted(part, keys)))
        for part in PARTS
        if part not in has
    ]


def list_wanted(part: Part, keys: frozenset[str]) -> tuple[str, ...]:
    """Return the keys that a part still wants; all of them where the file has them, and one is not whole."""
    return list_missing(keys, part) or BROUGHT_BY[part]


def list_examples(has: frozenset[Part], keys: frozenset[str]) -> list[str]:
    """Return a line of the project file for each key that is wanted, once."""
    wanted = dict.fromkeys(key for part in PARTS if part not in has for key in list_wanted(part, keys))
    return [write_example(key) for key in wanted]
