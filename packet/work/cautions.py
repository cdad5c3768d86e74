"""The cautions that apply to a project, with its own facts and the limits' sources in them."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from packet.parts import CAUTIONS, NOTHING, WHOLE, Part
from packet.words.word_files import FilledWords, WordFile, fill_words, load_folder, work_out
from packet.work.model import SIGNALS, Caution, Fact

MARKS = ("", "-", "fact")
HEAD_KEYS = ("signal", "title", "short", "when")


def gather_cautions(facts: Mapping[str, Any], language: str = "", has: frozenset[Part] = WHOLE) -> tuple[Caution, ...]:
    """Return the cautions whose condition holds, gravest signal word first; has: the job's parts. Raises BadWords."""
    found = []
    for caution_id, words in load_folder("cautions", language).items():
        if CAUTIONS.get(caution_id, NOTHING).is_met(has) and work_out(words, "when", facts, True):
            found.append(_make_caution(caution_id, words, facts))
    return tuple(sorted(found, key=lambda caution: (SIGNALS.index(caution.signal), caution.id)))


def _make_caution(caution_id: str, words: WordFile, facts: Mapping[str, Any]) -> Caution:
    filled = fill_words(words, facts, ("title", "short"))
    check_signal(words)
    _check_marks(words, filled)
    told = [line for line in filled.lines if line.mark == "fact"]
    return Caution(
        id=caution_id,
        signal=words.head["signal"],
        title=filled.heads[0],
        short=filled.heads[1],
        hazard=" ".join(filled.list_texts("")),
        avoid=filled.list_texts("-"),
        facts=tuple(Fact(line.fields[0], line.fields[1]) for line in told),
    )


def check_signal(words: WordFile) -> None:
    """Raise BadWords when a caution's signal word is none of the standard's."""
    signal = words.head.get("signal", "")
    if signal not in SIGNALS:
        raise words.refuse(f"signal '{signal}' is none of {', '.join(SIGNALS)}", "signal")


def _check_marks(words: WordFile, filled: FilledWords) -> None:
    words.refuse_keys(HEAD_KEYS)
    words.refuse_marks(filled, MARKS)
    for line in filled.lines:
        if line.mark == "fact" and len(line.fields) != 2:
            raise words.refuse(f"a fact needs its source: 'fact: {line.text} | source'", line=line.line)
    if not all(filled.heads):
        missing = "title" if not filled.heads[0] else "short"
        raise words.refuse("a caution has a title, and a short word for the step it stands at", missing)
    if not filled.list_texts("") or not filled.list_texts("-"):
        raise words.refuse("a caution says what can happen, and how to avoid it ('- ' lines)", line=words.first)
