"""A filled packet PDF read back: form fields and hold points to raw answers, and which packet the sheet belongs to."""

from __future__ import annotations

import re
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from calc.record.questions import ask_about_log, list_questions
from calc.settled import SettledShop
from packet.disk.held import NotPlain, open_plain
from packet.log.answers import AnswerSheet, name_question
from packet.log.names import NO, YES, name_fields
from packet.reading.problem import BadProject, Problem

MOST_PDF_BYTES = 60_000_000


@dataclass(frozen=True)
class FilledForm:
    """A sheet, and the revision and digest of the packet it was printed from (empty when the PDF does not say).

    units: inch or metric, in which the sheet was printed and bare numbers on it are meant; empty when it does not say
    """

    sheet: AnswerSheet
    revision: str
    digest: str
    units: str = ""


def read_filled(pdf_path: Path, project: SettledShop) -> FilledForm:
    """Return what a filled PDF says. Raises BadProject with a plain line for a PDF that is not a filled packet."""
    return read_filled_bytes(read_pdf(pdf_path), pdf_path, project)


def read_filled_bytes(data: bytes, pdf_path: Path, project: SettledShop) -> FilledForm:
    """Return what a filled PDF says; pdf_path is its name for messages. Raises BadProject."""
    reader = open_bytes(data, pdf_path)
    try:
        fields = reader.get_fields() or {}
        metadata = reader.metadata or {}
        subject = str(metadata.get("/Subject", ""))
    except Exception as error:  # whatever a broken PDF makes the library raise
        raise _refuse(pdf_path, f"its form cannot be read ({type(error).__name__})") from None
    if not fields:
        raise _refuse(
            pdf_path, "no form fields found",
            "a printed and scanned sheet holds no typed values: run the record command without a PDF and type them in",
        )  # fmt: skip
    sheet = AnswerSheet(str(pdf_path))
    questions = [*list_questions(project), *(question for row in ask_about_log() for question in row)]
    names = _name_all(project)
    known = 0
    for question in questions:
        name = names[question.key]
        if question.kind == "yes no":
            ticked = [word for word, end in (("yes", YES), ("no", NO)) if is_typed(fields.get(name + end))]
            known += name + YES in fields
            if len(ticked) == 2:
                sheet.add(name_question(question, project), "yes and no are both ticked", mend="untick one of them")
            elif ticked:
                sheet.written[question.key] = ticked[0]
        elif name in fields:
            known += 1
            text = _get_text(fields[name])
            if text:
                sheet.written[question.key] = text
    for name, each in fields.items():
        hold = re.fullmatch(r"step-(\w+)-(\d+)", name)
        if hold and _get_text(each):
            sheet.written[f"step.{hold[1]}.{hold[2]}"] = _get_text(each)
    if not known:
        raise _refuse(
            pdf_path, "its form is not one of this project's", "use the packet.pdf that was built from this file"
        )
    _check_strangers(sheet, fields, {names[q.key] for q in questions})
    mark = _read_mark(subject)
    return FilledForm(sheet, mark.revision, mark.digest, mark.units)


@dataclass(frozen=True)
class PacketMark:
    """Which packet a PDF is: revision and digest of its project file; empty when the PDF does not say."""

    revision: str
    digest: str
    units: str = ""


def read_packet_mark(pdf_path: Path) -> PacketMark:
    """Return which packet a PDF is. Raises BadProject with a plain line for what is no PDF."""
    reader = open_bytes(read_pdf(pdf_path), pdf_path)
    try:
        return _read_mark(str((reader.metadata or {}).get("/Subject", "")))
    except Exception as error:  # whatever a broken PDF makes the library raise
        raise _refuse(pdf_path, f"it cannot be read ({type(error).__name__})") from None


def _read_mark(subject: str) -> PacketMark:
    match = re.fullmatch(r"Revision (.*), project file ([0-9a-f]{6,64})(?:, (inch|metric) units)?", subject)
    return PacketMark(match[1], match[2], match[3] or "") if match else PacketMark("", "")


def _name_all(project: SettledShop) -> dict[str, str]:
    """Return field names as the pages make them: form by form."""
    from calc.record.questions import ask_about_build, ask_about_test

    log = [question for row in ask_about_log() for question in row]
    return {**name_fields(ask_about_test(project)), **name_fields(ask_about_build(project)), **name_fields(log)}


def _check_strangers(sheet: AnswerSheet, fields: Any, known: set[str]) -> None:
    """Note filled blanks of machines or ports that the project no longer has: they must not vanish in silence."""
    for name, each in fields.items():
        stem = re.sub(f"({YES}|{NO})$", "", name)
        is_ours = re.match(r"(reading|speed|pail|hole|hose|draught)_", stem)
        if is_ours and stem not in known and _get_text(each) not in ("", "/Off"):
            sheet.add(
                name, "this blank is filled, but the project has no machine, port or flue of that name",
                mend="record it with the project file the sheet was printed from",
            )  # fmt: skip


def read_pdf(path: Path) -> bytes:
    """Return the bytes of a PDF. Raises BadProject for what is none; a pipe or a device is not waited for."""
    try:
        if path.is_dir():
            raise _refuse(path, "this is a folder, not a PDF")
        with open_plain(path) as stream:
            data = stream.read(MOST_PDF_BYTES + 1)
    except FileNotFoundError:
        raise _refuse(path, "there is no such file") from None
    except NotPlain:
        raise _refuse(path, "this is not a plain file", "save the filled PDF, and name that file") from None
    except (OSError, ValueError) as error:
        if isinstance(error, BadProject):
            raise
        raise _refuse(path, f"it cannot be read: {getattr(error, 'strerror', None) or error}") from None
    if len(data) > MOST_PDF_BYTES:
        raise _refuse(path, "this file is too large to be a packet")
    if b"%PDF-" not in data[:1024]:
        raise _refuse(path, "this is not a PDF", "a photo of the sheet holds no typed values: type them in instead")
    return data


def open_bytes(data: bytes, path: Path) -> Any:
    """Return a reader of a PDF's bytes. Raises BadProject for a locked or damaged one."""
    import io
    import logging

    from pypdf import PdfReader
    from pypdf.errors import PyPdfError

    logging.getLogger("pypdf").setLevel(logging.CRITICAL)  # its own remarks say nothing to a woodworker
    try:
        reader = PdfReader(io.BytesIO(data))
        if reader.is_encrypted:
            raise _refuse(path, "this PDF is locked with a password", "save it without one")
    except (PyPdfError, ValueError, KeyError, TypeError, AttributeError, RecursionError) as error:
        if isinstance(error, BadProject):
            raise
        raise _refuse(path, "this PDF is damaged", "fill and save the packet again") from None
    return reader


def _refuse(path: Path, found: str, mend: str = "") -> BadProject:
    return BadProject([Problem(file=str(path), line=0, column=0, path="", found=found, mend=mend)])


def _get_text(each: Any) -> str:
    value = each.get("/V") if each is not None else None
    return "" if value is None else str(value).replace("\r\n", "\n").replace("\r", "\n").strip()


def is_typed(each: Any) -> bool:
    """Tell whether a field has something in it: words, a choice or a tick."""
    return _get_text(each) not in ("", "/Off", "Off")
