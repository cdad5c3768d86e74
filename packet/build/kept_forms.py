"""Forms that somebody wrote into: kept beside the new ones for as long as the log does not hold what they say.

What is drawn into a page's own picture by another program, with no field or note of its own, cannot be told here.
"""

from __future__ import annotations

import datetime
import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Any, Literal

from calc.project import Given
from calc.record.entries import Record
from packet.disk.carry import KEPT_FILE, find_free, is_output
from packet.disk.held import Held, hold_same_bytes, is_file, link_or_copy, list_names, look, move, open_plain

State = Literal["filled", "marked", "unread"]
"""filled: values that the log does not hold; marked: notes put on a page; unread: damaged, locked or too large."""

HEADER = re.compile(rb"%PDF-1\.\d\n%\x93\x8c\x8b\x9e ReportLab Generated PDF document")
TRAILER = b"% ReportLab generated PDF document -- digest"
TYPED = re.compile(rb"/V (?!\( ?\)|/Off\b)")
MOST_FORM_BYTES = 60_000_000
OURS = ("/Link", "/Widget")


@dataclass(frozen=True)
class Kept:
    """was: the output's name; name: what it is called now; both in the folder of outputs."""

    was: str
    name: str
    state: State


def make_keeper(
    project: Given, record: Record | None, kept: list[Kept], only: str | None = None
) -> Callable[[Held, Held], Mapping[str, str]]:
    """Return what brings every PDF of an old folder that must not be lost into the new one, and notes it in kept.

    project: not settled, as its file says; only: look at this output alone, the folders are then one
    """

    def keep(old: Held, new: Held) -> Mapping[str, str]:
        left = {}
        for name in list_names(old) if only is None else [only]:
            found = look(old, name)
            if not name.endswith(".pdf") or found is None or not is_file(found) or not is_output(name, found):
                continue
            state = find_state(name, old, project, record)
            if state is not None:
                found = look(old, name) or found
                kept_as = find_kept(name, old) or find_free(name_kept(name, found.st_mtime), old, new)
                kept.append(Kept(name, kept_as, state))
                if look(new, kept_as) is None and not keep_file(name, old, kept_as, new):
                    left[name] = kept_as
        return left

    return keep


def keep_file(name: str, old: Held, kept_as: str, new: Held) -> bool:
    """Give a form its second name; tell whether it has it. Not when it may neither be linked nor read: it is moved."""
    try:
        link_or_copy(name, old, kept_as, new)
    except PermissionError:
        if old is not new:
            return False
        move(name, old, kept_as, new)
    return True


def name_kept(name: str, changed: float) -> str:
    """Return what a form is called that is kept, by the day its file was last saved [s since 1970]."""
    stem = name.removesuffix(".pdf")
    try:
        return f"{stem}-filled-{datetime.date.fromtimestamp(changed).isoformat()}.pdf"
    except (OverflowError, ValueError, OSError):
        return f"{stem}-filled.pdf"


def find_kept(name: str, folder: Held) -> str | None:
    """Return the name that the same bytes are kept under already."""
    stem = f"{name.removesuffix('.pdf')}-filled"
    others = [other for other in list_names(folder) if other.startswith(stem) and KEPT_FILE.fullmatch(other)]
    return next((other for other in others if hold_same_bytes(name, folder, other, folder)), None)


def find_state(name: str, folder: Held, project: Given, record: Record | None) -> State | None:
    """Return why a PDF must be kept, or None. Whatever is wrong with it, this raises nothing."""
    try:
        before = look(folder, name)
        with open_plain(Path(name), folder) as stream:
            data = stream.read(MOST_FORM_BYTES + 1)
        state = "unread" if len(data) > MOST_FORM_BYTES else look_at_form(data, project, record)
        after = look(folder, name)
    except Exception:  # whatever a broken PDF makes the library raise
        return "unread"
    if before is None or after is None or (before.st_ino, before.st_mtime_ns) != (after.st_ino, after.st_mtime_ns):
        return "filled"  # it is being saved just now
    return state


def is_as_written(data: bytes) -> bool:
    """Tell whether a PDF is as a build left it: a program that saves one begins anew or adds at the end."""
    return (
        HEADER.match(data) is not None
        and data.count(b"startxref") == 1
        and TRAILER in data[-400:]
        and data.endswith(b"%%EOF\n")
        and TYPED.search(data) is None
    )


def look_at_form(data: bytes, project: Given, record: Record | None) -> State | None:
    """Return why a PDF must be kept, or None when nothing is typed in it or the log holds it word for word.

    Raises what the library raises for a damaged file.
    """
    if not data or is_as_written(data):
        return None
    from packet.log.form import is_typed, open_bytes

    reader = open_bytes(data, Path("packet.pdf"))
    typed = [name for name, each in (reader.get_fields() or {}).items() if is_typed(each)]
    if typed and not is_recorded(data, len(typed), project, record):
        return "filled"
    return "marked" if has_notes(reader) else None


def has_notes(reader: Any) -> bool:
    """Tell whether a page has a note, a line or a sign put on it: anything but our links and fields."""
    return any(
        note.get_object().get("/Subtype") not in OURS for page in reader.pages for note in (page.get("/Annots") or [])
    )


def is_recorded(data: bytes, typed: int, project: Given, record: Record | None) -> bool:
    """Tell whether the log holds every value typed into a form, under the form's own date and name."""
    from calc.box.box import settle_box
    from calc.project import Project
    from packet.log.answers import drop_known, make_entries
    from packet.log.form import read_filled_bytes
    from packet.reading.display_asked import Asked, apply_asked
    from packet.reading.problem import BadProject

    if record is None or not isinstance(project, Project):
        return False
    settled = settle_box(project)
    try:
        filled = read_filled_bytes(data, Path("packet.pdf"), settled)
    except BadProject:
        return False
    printed = apply_asked(settled, Asked(units=filled.units or None))
    entries = make_entries(filled.sheet, printed, filled.revision, filled.digest, datetime.date.max)
    written, kinds = filled.sheet.written, {entry.kind for entry in entries}
    lone = [kind for stem, kind in (("test", "test"), ("built", "as built"))
            if kind not in kinds and {f"{stem}.date", f"{stem}.by"} & set(written)]  # fmt: skip
    all_taken = len(written) == typed and not filled.sheet.problems and not lone
    return all_taken and not drop_known(entries, record.entries)
