"""The header of a step file: which lines it may have, and what may stand in them."""

from __future__ import annotations

from collections.abc import Collection
from typing import get_args

from packet.words.word_files import WordFile
from packet.work.model import Who

HEAD_KEYS = (
    "stage", "after", "title", "why", "who", "alone", "minutes", "overnight", "when", "tools", "cautions",
    "cautions_hanging", "picture", "needs", "makes", "ends", "bill", "bill_all",
)  # fmt: skip
MARKS = ("", "-", "hold", "part")
WORKED_OUT = ("when", "minutes", "alone")
"""Header lines that are worked out: no braces stand around their names."""


def check_head(words: WordFile, stages: Collection[str], cautions: Collection[str]) -> None:
    """Raise BadWords for a line of the header that means nothing, or holds a word that is not known there."""
    words.refuse_keys(HEAD_KEYS)
    choices = {"stage": stages, "who": get_args(Who), "overnight": ("yes", "no")}
    for key, known in choices.items():
        said = words.head.get(key, "no" if key == "overnight" else "")
        if said not in known:
            raise words.refuse(f"{key} '{said}' is none of {', '.join(known)}", key)
    for caution in (*words.list_ids("cautions"), *words.list_ids("cautions_hanging")):
        if caution not in cautions:
            raise words.refuse(f"caution '{caution}' has no file", "cautions")
    if not words.head.get("title"):
        raise words.refuse("a step has a title", "title")
