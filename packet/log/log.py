"""The log file ``<project stem>.as-built.yaml``: entries are read back with their places, and added at the end only."""

from __future__ import annotations

import datetime
import os
import re
from pathlib import Path

from calc.measures.quantity import ReadError, read_amount
from calc.record.entries import Answer, Entry, Record
from calc.record.questions import KIND_BY_KEY, KIND_BY_STEM, AnswerKind, find_kind
from packet.disk.held import find_strange_link
from packet.disk.write import CannotWrite, explain_os_error, hold_parent, write_whole
from packet.reading.faults import Faults
from packet.reading.load import read_bytes
from packet.reading.nodes import Listing, Node, Table, Text, compose_nodes
from packet.reading.problem import BadProject, find_nearest, list_words, quote_found
from packet.reading.text import decode_text
from packet.words.visible import ODD_CHARACTERS

BadRecord = BadProject
ENTRY_KINDS = ("test", "as built", "cleaning")
ENTRY_KEYS = ("date", "kind", "by", "revision", "digest", "values", "notes")
NEGATIVE = frozenset({"pressure_pa", "draught_pa"})
HEADER = """\
# As-built log of {stem}. Written by the record command: every entry is added at the end, none is ever changed.
# To correct a value, record it again with a later date.
"""


def find_log(project_path: Path) -> Path:
    """Return where the log of a project file is, or would be."""
    return project_path.with_name(f"{project_path.stem}.as-built.yaml")


def load_record(project_path: Path, today: datetime.date | None = None) -> Record | None:
    """Return the log beside a project file, None when there is none. Raises BadRecord with every fault of the log.

    today: an entry of a later day is a fault; None: nobody knows the day (a build reads no clock).
    """
    log = find_log(Path(project_path))
    if not log.exists():
        return None
    return read_log(read_bytes(log, "the log of a project"), str(log), today)


def read_log(data: bytes, file: str, today: datetime.date | None = None) -> Record:
    """Return the entries of a log's bytes. Raises BadRecord with place and remedy of every fault."""
    faults = Faults(file)
    if not data.strip():
        faults.add(None, "", "the log is empty", expected="entries that begin with '- date:'",
                   mend="bring back a copy of it, or delete the file to begin a new log")  # fmt: skip
        faults.stop_if_any()
    text = decode_text(data, faults)
    root = compose_nodes(text, faults)
    entries: list[Entry] = []
    if not isinstance(root, Listing):
        faults.add(root.place, "", "this is not a list of entries", expected="entries that begin with '- date:'")
    else:
        for index, node in enumerate(root.items):
            entry = _read_entry(node, f"[{index}]", faults, today)
            if entry is not None:
                entries.append(entry)
    faults.stop_if_any()
    return Record(tuple(entries))


def _read_entry(node: Node, path: str, faults: Faults, today: datetime.date | None) -> Entry | None:
    if not isinstance(node, Table):
        faults.add(
            node.place, path, "this is not an entry", expected="date, kind, by and values", example="- date: 2026-03-14"
        )
        return None
    words: dict[str, str] = {}
    answers: dict[str, Answer] = {}
    for each in node.entries:
        key, value = each.key.value, each.value
        if key not in ENTRY_KEYS:
            faults.add(each.key.place, f"{path}.{key}", "this key is not known", nearest=find_nearest(key, ENTRY_KEYS),
                       expected=list_words(ENTRY_KEYS))  # fmt: skip
        elif key == "values":
            answers = _read_values(value, f"{path}.values", faults)
        elif isinstance(value, Text):
            words[key] = value.value
        else:
            faults.add(value.place, f"{path}.{key}", "this is not plain text", expected="one value")
    date = _read_entry_date(node, words.get("date"), path, faults, today)
    kind = words.get("kind", "")
    if kind not in ENTRY_KINDS:
        faults.add(node.place, f"{path}.kind", f"{quote_found(kind)} is no kind of entry",
                   expected=list_words(ENTRY_KINDS), nearest=find_nearest(kind, ENTRY_KINDS))  # fmt: skip
    if date is None:
        return None
    return Entry(
        date=date,
        by=words.get("by", ""),
        kind=kind,
        revision=words.get("revision", ""),
        digest=words.get("digest", ""),
        answers=answers,
        notes=words.get("notes", ""),
    )


def _read_entry_date(
    node: Table, written: str | None, path: str, faults: Faults, today: datetime.date | None
) -> datetime.date | None:
    place = next((e.value.place for e in node.entries if e.key.value == "date"), node.place)
    date = read_date(written or "")
    if date is None:
        found = f"{quote_found(written)} is not a date" if written else "the date is missing"
        faults.add(place, f"{path}.date", found, expected="year-month-day", example="2026-03-14")
    elif today is not None and date > today:
        faults.add(place, f"{path}.date", f"{date.isoformat()} is in the future (today is {today.isoformat()})",
                   expected="the day it was measured", mend="mend the log, or this machine's clock")  # fmt: skip
    return date


def read_date(written: str) -> datetime.date | None:
    """Return a date written as year-month-day; None for anything else (12/11/26 means two things)."""
    match = re.fullmatch(r"\s*(\d{4})-(\d{1,2})-(\d{1,2})\s*", written, re.ASCII)
    try:
        return datetime.date(*(int(part) for part in match.groups())) if match else None
    except ValueError:
        return None


def _read_values(node: Node, path: str, faults: Faults) -> dict[str, Answer]:
    if not isinstance(node, Table):
        if not (isinstance(node, Text) and node.is_empty):
            faults.add(node.place, path, "this is not a table of values", example="'reading.planer': '0.14 inH2O'")
        return {}
    answers = {}
    for each in node.entries:
        key, value = each.key.value, each.value
        kind = find_kind(key)
        if kind is None:
            known = [*KIND_BY_KEY, *(f"{stem}." for stem in KIND_BY_STEM)]
            faults.add(
                each.key.place, f"{path}.{key}", "nothing of that name is recorded", nearest=find_nearest(key, known)
            )
        elif not isinstance(value, Text):
            faults.add(value.place, f"{path}.{key}", "this is not one value")
        else:
            try:
                answers[key] = make_answer(key, value.value, kind)
            except ReadError as error:
                faults.add(value.place, f"{path}.{key}", f"{quote_found(error.found)} {error.wrong}",
                           expected=error.expected, example=error.example, mend=error.hint)  # fmt: skip
    return answers


def make_answer(key: str, written: str, kind: AnswerKind, bare: str | None = None) -> Answer:
    """Return an answer from text; bare: unit of a number without one. Raises ReadError."""
    if kind == "words" or kind == "date":
        return Answer(key, written, kind)
    if kind == "yes no":
        if written not in ("yes", "no"):
            raise ReadError(written, "is neither yes nor no", "yes or no", "'yes'")
        return Answer(key, written, kind, yes=written == "yes")
    value = read_amount(written, kind, negative=kind in NEGATIVE, bare=bare or None)
    check_size(written, kind, value)
    if (
        bare
        and kind != "count"
        and not re.search(r"[^\d\s.,/-]", written.translate({0x2044: "/"}).strip().lstrip("-−"))
    ):
        written = f"{written.strip()} {bare}"
    return Answer(key, written, kind, value=value)


MOST: dict[str, tuple[float, str]] = {
    "pressure_pa": (25_000.0, "more than any shop blower makes (100 inH2O, 25 kPa)"),
    "draught_pa": (500.0, "more than any door can be opened against (2 inH2O, 500 Pa)"),
    "speed_ms": (100.0, "faster than air in any duct (20000 fpm, 100 m/s)"),
    "length_mm": (20_000.0, "longer than a shop is high (65 ft, 20 m)"),
    "length_m": (200.0, "longer than any hose (650 ft, 200 m)"),
    "count": (1000.0, "more than can be hung"),
    "time_h": (100_000.0, "more than eleven years"),
}
"""Largest value of each kind that can be meant, in its base unit (common practice, no source)."""


def check_size(written: str, kind: AnswerKind, value: float) -> None:
    """Raise ReadError for a value that no shop can have measured: a slip of the unit or of the decimal point."""
    most, words = MOST.get(kind, (float("inf"), ""))
    if abs(value) > most:
        raise ReadError(written, f"is {words}", "", "", "check the unit and the decimal point")
    if kind == "temperature_k" and not 233.0 <= value <= 333.0:
        raise ReadError(written, "is no temperature to work in (-40 to 60 °C)", "", "", "check the unit")


def append_entry(project_path: Path, entries: tuple[Entry, ...]) -> Path:
    """Add entries at the end of a project's log and return its path.

    The bytes that were there stay as they are, at the same place; the file is written whole beside the old one and then
    takes its name. Raises BadRecord when the log that is there cannot be read (it is left alone), CannotWrite.
    """
    log = find_log(project_path)
    if (strange := find_strange_link(log)) is not None:
        raise CannotWrite(f"cannot write {log}: {strange} is a link that somebody else made")
    real = Path(os.path.realpath(log))  # a log that its owner keeps elsewhere by a link stays there
    try:
        with hold_parent(real):  # two at once must not overwrite each other
            new = add_text(
                log, read_bytes(log, "the log of a project") if log.exists() else b"", entries, project_path.stem
            )
            write_whole(real, lambda stream: stream.write(new))
    except CannotWrite:
        raise
    except OSError as error:
        raise CannotWrite(explain_os_error(error, log)) from error
    return log


def add_text(log: Path, old: bytes, entries: tuple[Entry, ...], stem: str) -> bytes:
    """Return the log's bytes with entries added at their end. Raises BadRecord when they cannot be read."""
    if old:
        read_log(old, str(log))
        joint = b"" if old.endswith(b"\n") else b"\n"
    else:
        joint = HEADER.format(stem=clean_words(stem)).encode()
    new = old + joint + "".join(write_entry(entry) for entry in entries).encode()
    read_log(new, str(log))
    return new


def write_entry(entry: Entry) -> str:
    """Return an entry as YAML text that reads back the same."""
    lines = [f"- date: {entry.date.isoformat()}", f"  kind: {entry.kind}"]
    for key, words in (("by", entry.by), ("revision", entry.revision), ("digest", entry.digest)):
        if words:
            lines.append(f"  {key}: {quote(words)}")
    if entry.answers:
        lines.append("  values:")
        lines += [f"    {quote(key)}: {quote(answer.written)}" for key, answer in entry.answers.items()]
    if entry.notes:
        lines.append(f"  notes: {quote(entry.notes)}")
    return "\n".join(lines) + "\n"


def clean_words(text: str) -> str:
    """Return the user's words on one line, without characters that cannot be seen."""
    return ODD_CHARACTERS.sub("", re.sub(r"\s*[\r\n\u2028\u2029]+\s*", " / ", text.strip())).replace("\t", " ")


def quote(text: str) -> str:
    """Return text in YAML's single quotes."""
    return "'" + clean_words(text).replace("'", "''") + "'"
