"""Catch pails and the separator's bin in words: which it is, at what level it is emptied, how often that is."""

from __future__ import annotations

from collections.abc import Sequence

from calc.finding import Band
from calc.measures.kinds import Reader
from calc.measures.quantity import write_amount
from calc.results import Catching
from packet.words.amounts import full_band
from packet.words.phrases import take_words

HALF = 0.5


def say_level(level: float, reader: Reader) -> str:
    """Return a level as a share of the height, in words: ``half full``."""
    if level == HALF:
        phrases = take_words("phrases", reader.language, room="")
        return phrases("half_full")
    words = take_words("catching", reader.language)
    return words("level_share", share=write_amount(level, "share", reader))


def say_catching(catching: Catching, reader: Reader) -> str:
    """Return which pail or bin it is."""
    words = take_words("catching", reader.language)
    return words("bin") if catching.kind == "bin" else words("pail", port=catching.port)


def say_often(catching: Sequence[Catching], reader: Reader) -> str:
    """Return how often each is to be emptied, pails that fill alike named together."""
    words = take_words("catching", reader.language)
    alike: dict[tuple[str, Band | None], list[Catching]] = {}
    for each in catching:
        alike.setdefault((each.kind, each.hours), []).append(each)
    told = []
    for (kind, hours), group in alike.items():
        ports = ", ".join(each.port for each in group)
        several = kind == "pail" and len(group) > 1
        what = words("pails", ports=ports) if several else say_catching(group[0], reader)
        if hours is None:
            told.append(words("never", what=what))
        else:
            told.append(words("every", what=what, hours=full_band(hours, "time_h", reader)))
    return "; ".join(told)
