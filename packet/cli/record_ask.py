"""The record command: from a filled PDF or by asking at the terminal, into the log beside the project file."""

from __future__ import annotations

import argparse
import datetime
import hashlib
import sys
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

from calc.measures.quantity import ReadError
from calc.project import Project
from calc.record.entries import Entry, Record
from calc.record.questions import Question, ask_about_build, ask_about_hold, ask_about_log, ask_about_test, name_unit
from calc.settled import SettledShop
from packet.cli.streams import tell_done
from packet.log.answers import AnswerSheet, check_answer, drop_known, list_doubts, make_entries, name_question
from packet.log.form import read_filled, read_packet_mark
from packet.log.log import append_entry, find_log, load_record
from packet.log.names import key_hold
from packet.reading.display_asked import Asked, apply_asked
from packet.reading.load import Loaded, load_project, read_bytes
from packet.reading.parts import WHOLE_KEYS
from packet.reading.problem import BadProject, Problem, list_words, show_problems

Ask = Callable[[str], str]
Tell = Callable[[str], None]
KINDS = ("test", "as built", "cleaning")


@dataclass(frozen=True)
class Recorded:
    """What was added: entries, the log's path (None when nothing was), and warnings to show."""

    entries: tuple[Entry, ...]
    log: Path | None
    warnings: tuple[str, ...]


def record_filled(pdf_path: Path, project_path: Path, *, today: datetime.date) -> Recorded:
    """Add what a filled PDF says to the log. Raises BadProject with every fault (nothing is written), CannotWrite."""
    loaded = load_project(project_path)
    project = _settle(loaded, project_path)
    known = load_record(project_path, today) or Record()
    filled = read_filled(pdf_path, project)
    title = loaded.project.title
    printed = apply_asked(project, Asked(units=filled.units or None))  # a bare number is meant in the sheet's own units
    entries = make_entries(
        filled.sheet, printed, filled.revision or title.revision, filled.digest or loaded.digest, today
    )
    if filled.sheet.problems:
        raise BadProject(filled.sheet.problems)
    warnings = _compare_packets(loaded, filled.revision, filled.digest)
    warnings += list_doubts(entries, project)
    new = drop_known(entries, known.entries)
    if not entries:
        warnings.append("no blank of the form is filled; nothing was recorded")
    elif len(new) < len(entries):
        old = len(entries) - len(new)
        there = f"{old} of the {len(entries)} entries {'is' if old == 1 else 'are'}"
        told = there if len(entries) > 1 else "the entry is"
        warnings.append(f"{told} in the log already, word for word")
    return Recorded(new, append_entry(project_path, new) if new else None, tuple(warnings))


def record_asked(project_path: Path, ask: Ask, tell: Tell, *, today: datetime.date) -> Recorded:
    """Ask for values one by one and add them to the log. A blank answer skips, a dot stops asking and keeps.

    Raises BadProject for a bad project or log before it asks, EOFError when the input ends early: nothing is written.
    """
    loaded = load_project(project_path)
    project = _settle(loaded, project_path)
    known = load_record(project_path, today) or Record()
    tell("Write down: 1 test (readings, leaks)   2 as built (sizes)   3 cleaning   4 hold points of the steps")
    choice = ""
    while choice not in ("1", "2", "3", "4"):
        choice = ask("1, 2, 3 or 4: ").strip()
    tell("Blank: not measured. A single dot: done, keep what was answered. Ctrl-C: stop, keep nothing.")
    questions = _list_questions(choice, project, project_path)
    sheet = AnswerSheet("answers")
    for question in questions:
        if not _ask_one(question, sheet, project, (ask, tell), today):
            break
    title = loaded.project.title
    entries = make_entries(sheet, project, title.revision, loaded.digest, today)
    if sheet.problems:
        raise BadProject(sheet.problems)
    new = drop_known(entries, known.entries)
    warnings = tuple(list_doubts(entries, project))
    return Recorded(new, append_entry(project_path, new) if new else None, warnings)


def _list_questions(choice: str, project: SettledShop, project_path: Path) -> tuple[Question, ...]:
    if choice == "4":
        return list_holds(project, project_path)
    return {"1": ask_about_test(project), "2": ask_about_build(project), "3": ask_about_log()[0]}[choice]


def list_holds(project: SettledShop, project_path: Path) -> tuple[Question, ...]:
    """Return when and who, then every hold point of the plan of work, in its order and under the keys of the form."""
    from packet.job import make_job

    when_and_who = tuple(question for question in ask_about_build(project) if question.group == "built")
    holds = tuple(
        ask_about_hold(
            key_hold(hold.field), f"{step.number} {step.title}", hold.what, f"{hold.value} ({hold.tolerance})"
        )
        for step in make_job(project_path).plan.steps
        for hold in step.holds
    )
    return when_and_who + holds


def _ask_one(
    question: Question, sheet: AnswerSheet, project: SettledShop, talk: tuple[Ask, Tell], today: datetime.date
) -> bool:
    """Ask until the answer can be used; False when the person is done."""
    ask, tell = talk
    unit = name_unit(question.kind, project.display.reader)
    is_date = question.kind == "date"
    hint = f"today {today.isoformat()}" if is_date else "yes/no" if question.kind == "yes no" else unit
    while True:
        text = ask(f"{name_question(question, project)}{f' [{hint}]' if hint else ''}: ").strip()
        if text == ".":
            if question.kind == "date":
                sheet.written[question.key] = today.isoformat()
            return False
        if not text and not is_date:
            return True
        text = {"y": "yes", "n": "no"}.get(text.lower(), text) if question.kind == "yes no" else text
        try:
            text = text or today.isoformat()
            check_answer(question, text.lower() if question.kind == "yes no" else text, project, today)
        except ReadError as error:
            tell(f"  {error}")
            continue
        sheet.written[question.key] = text.lower() if question.kind == "yes no" else text
        return True


def _settle(loaded: Loaded, file: Path) -> SettledShop:
    """Return the shop that is recorded. Raises BadProject where the file leaves out a part of it."""
    from calc.box.box import settle_box

    if isinstance(loaded.project, Project):
        return settle_box(loaded.project)
    missing = list_words([key for key in WHOLE_KEYS if key not in loaded.keys])
    found = f"the record is kept of a whole shop, and this file has no {missing}"
    raise BadProject([Problem(file=str(file), line=1, column=1, path="", found=found)], loaded.lines)


def _compare_packets(loaded: Loaded, revision: str, digest: str) -> list[str]:
    if not digest:
        return ["the PDF does not say which packet it belongs to; the values are recorded as for this file"]
    if digest == loaded.digest:
        return []
    now = loaded.project.title.revision
    return [
        f"the sheet belongs to revision {revision} (file {digest}), the project is at revision {now} "
        f"(file {loaded.digest}): the entry keeps the sheet's own"
    ]


def run_record(asked: argparse.Namespace) -> int:
    """Run the command: add a filled form, ask, or show the log. Returns the exit status."""
    project_path, form = _sort_words(asked.project, asked.form)
    if asked.show:
        return _show(project_path)
    today = datetime.date.today()
    try:
        if form is not None:
            done = record_filled(form, project_path, today=today)
        else:
            done = record_asked(project_path, input, print, today=today)
    except EOFError:
        print("\nthe answers ended early; nothing was recorded", file=sys.stderr)
        return 2
    except KeyboardInterrupt:
        print("\nstopped; nothing was recorded", file=sys.stderr)
        return 130
    except BadProject as bad:
        return _show_refused(bad)
    for warning in done.warnings:
        print(f"warning: {warning}", file=sys.stderr)
    with tell_done(f"added to {done.log}" if done.log else "nothing was added"):
        show_recorded(done)
    return 0


def show_recorded(done: Recorded) -> None:
    """Print what was added, and where."""
    for entry in done.entries:
        count = len(entry.answers) + bool(entry.notes)
        print(f"recorded: {entry.kind}, {entry.date.isoformat()}, {count} answer{'s' * (count != 1)}")
    if done.log is not None:
        print(f"added to {done.log}; the next build compares it with the design")
    else:
        print("nothing was added")


def _show_refused(bad: BadProject) -> int:
    """Show every problem on stderr, and that the log is as it was."""
    from packet.cli.terminal import use_colour

    print(show_problems(bad.problems, bad.lines, colour=use_colour(sys.stderr)), file=sys.stderr)
    count = len(bad.problems)
    print(f"{count} problem{'s' * (count != 1)}; nothing was recorded, the log is as it was", file=sys.stderr)
    return 2


def _sort_words(first: str, second: str | None) -> tuple[Path, Path | None]:
    """Return project file and form, in whichever order they were given; a form alone finds its own project file."""
    words = [Path(first), *([Path(second)] if second else [])]
    forms = [path for path in words if path.suffix.lower() == ".pdf"]
    if len(forms) != 1:
        return words[0], words[1] if second else None
    others = [path for path in words if path not in forms]
    return others[0] if others else find_project(forms[0]), forms[0]


def find_project(form: Path) -> Path:
    """Return the project file a filled PDF was built from: same digest, here, in projects/ or beside the PDF.

    Raises BadProject when there is none, or more than one.
    """
    digest = read_packet_mark(form).digest
    places = dict.fromkeys(path.resolve() for path in (Path.cwd(), Path.cwd() / "projects", form.parent))
    files = [file for place in places for file in sorted(place.glob("*.y*ml")) if ".as-built" not in file.name]
    found = [file for file in files if digest and is_of_digest(file, digest)]
    if len(found) == 1:
        return found[0]
    wrong = "its project file was not found" if not found else f"it fits {len(found)} project files"
    mend = "name the project file as well: collector-packet record projects/boatshed.yaml filled.pdf"
    raise BadProject([Problem(file=str(form), line=0, column=0, path="", found=wrong, mend=mend)])


def is_of_digest(file: Path, digest: str) -> bool:
    """Tell whether a file's bytes have a digest; one that cannot be read has not."""
    try:
        return hashlib.sha256(read_bytes(file)).hexdigest().startswith(digest)
    except BadProject:
        return False


def _show(project_path: Path) -> int:
    record = load_record(project_path)
    if record is None:
        read_bytes(project_path)  # a slip in the name is told
        print(f"no log yet: {find_log(project_path)}")
        return 0
    for entry in record.entries:
        print(f"{entry.date.isoformat()}  {entry.kind}  {entry.by}  revision {entry.revision}  file {entry.digest}")
        for key, answer in entry.answers.items():
            print(f"    {key}: {answer.written}")
        if entry.notes:
            print(f"    notes: {entry.notes}")
    return 0
