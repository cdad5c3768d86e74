"""Start a project file: by questions at the terminal, from an answers file, or from a shop that is there."""

from __future__ import annotations

import datetime
import re
import sys
from collections.abc import Mapping
from dataclasses import replace
from pathlib import Path
from typing import TextIO

from packet.cli.streams import tell_done
from packet.disk.write import write_new
from packet.fields.box import PAIL
from packet.fields.model import TwoLengths
from packet.fields.new_file import split_machines, write_left_out, write_project_text
from packet.fields.questions import (
    ASKED,
    QUESTIONS,
    STARTS,
    Query,
    find_what,
    is_list,
    join_readings,
    make_answers_group,
    split_readings,
)
from packet.reading.about import ITEM
from packet.reading.context import Reading, Where
from packet.reading.cross_box import check_pail
from packet.reading.faults import Faults
from packet.reading.load import Loaded, read_bytes, read_project
from packet.reading.nodes import Listing, Node, NodeEntry, Table, Text, compose_nodes
from packet.reading.plausible import suggest_size
from packet.reading.problem import Place, find_nearest, list_words, quote_found
from packet.reading.scalars import read_limit
from packet.reading.tables import read_group, read_node
from packet.reading.text import decode_text
from packet.reading.values import Items, Values
from packet.words.guesses import list_things

MOST_TRIES = 5


def write_new_project(path: Path, start: str | None, answers_file: str | None) -> int:
    """Write a new project file and return the exit status. A file that is there is never touched."""
    if path.exists():
        print(f"collector-packet: {path} is there already; choose another name", file=sys.stderr)
        return 2
    if start is not None and start not in STARTS:
        near = find_nearest(start, STARTS)
        hint = f"; did you mean '{near}'?" if near else ""
        print(
            f"collector-packet: no shop is called '{start}'{hint}\nknown: {list_words(tuple(STARTS))}", file=sys.stderr
        )
        return 2
    if answers_file is not None:
        answers = read_answers(Path(answers_file))
    elif start is not None:
        answers = {"system": STARTS[start]}
    else:
        answers = ask_all(sys.stdin, sys.stderr)
    today = datetime.date.today()
    answers = {"title": name_project(path)} | answers
    text = write_project_text(fill_answers(answers), tuple(q for q in QUESTIONS if q.key not in answers), today)
    loaded = read_project(text.encode("utf-8"), str(path))
    text += write_left_out(list_left_out(loaded))
    try:
        write_new(path, text)
    except FileExistsError:
        print(f"collector-packet: {path} is there already; choose another name", file=sys.stderr)
        return 2
    with tell_done(f"{path} is written"):
        print(f"Written: {path}")
        if "pail" in answers:
            print(f"One pail was measured, for {loaded.project.ports[0].name}: taken for the others too: measure each.")
        print(f"{len(loaded.project.assumed)} values are guesses; each is named in the file. Measure before you cut.")
        print(f"Next: collector-packet check {path}")
    return 0


def list_left_out(loaded: Loaded) -> list[str]:
    """Return in plain words what the file does not say and is assumed."""
    said = {ITEM.sub("", known) for known in loaded.echo}
    return list_things([path for path in loaded.project.assumed if path not in said])


def name_project(path: Path) -> str:
    """Return what a project is called that nobody named: its file's name, written as words."""
    return " ".join(re.split(r"[\s_-]+", path.stem)).strip().capitalize() or "My shop"


def fill_answers(answers: Mapping[str, str]) -> dict[str, str]:
    """Return an answer to every question: given, or the one that stands for the reader's units."""
    metric = answers.get("system", "inch").strip().lower() in ("metric", "mm")
    filled = {q.key: answers.get(q.key, q.metric if metric else q.inch) for q in QUESTIONS}
    if "hose" not in answers:
        filled["hose"] = filled["duct"]
    return filled


def read_answers(path: Path) -> dict[str, str]:
    """Return the answers of a file. Raises BadProject with every fault of it."""
    faults = Faults(str(path))
    root = compose_nodes(decode_text(read_bytes(path, "a file of answers"), faults), faults)
    if not isinstance(root, Table):
        faults.add(
            root.place, "", "the file holds no table of answers", expected="key: answer", example="ceiling: 8 ft 4 in"
        )
        faults.stop_if_any()
    reading = Reading(faults)
    root = part_readings(complete_sizes(root))
    answers = read_group(make_answers_group(), root, Where(), reading)
    if isinstance(answers, Values):
        note_pail(answers["pail"], reading)
    for entry in root.entries if isinstance(root, Table) else ():
        if entry.key.value == "machines" and isinstance(entry.value, Text):
            note_bad_machines(entry.value, reading)
    faults.stop_if_any()
    return collect_answers(root)


def complete_sizes(root: Node) -> Node:
    """Return the answers with the unit behind each size that has none."""
    if not isinstance(root, Table):
        return root
    by_key = {question.key: question for question in QUESTIONS}
    typed = collect_answers(root)
    system = fill_answers({key: typed[key] for key in typed if key in by_key})["system"]
    completed = tuple(
        NodeEntry(entry.key, replace(value, value=complete_size(by_key[entry.key.value], value.value, system)))
        if isinstance(value := entry.value, Text) and entry.key.value in by_key
        else entry
        for entry in root.entries
    )
    return replace(root, entries=completed)


def complete_size(question: Query, answer: str, system: str) -> str:
    """Return a width and height without a unit in the unit that was chosen: ``32x80`` after *inch*; if it may be."""
    what = find_what(question.at)
    if not isinstance(what, TwoLengths):
        return answer
    unit = "mm" if system.strip().lower() in ("metric", "mm") else "in"
    ends = (read_limit(what.least, "length_mm"), read_limit(what.most, "length_mm"))
    return suggest_size(answer, ends, (unit,)) or answer


def part_readings(root: Node) -> Node:
    """Return the answers with every line of several readings as the list it stands for."""
    if not isinstance(root, Table):
        return root
    several = {question.key for question in QUESTIONS if is_list(question)}
    parted = tuple(
        NodeEntry(entry.key, part_line(entry.value))
        if entry.key.value in several and isinstance(entry.value, Text)
        else entry
        for entry in root.entries
    )
    return replace(root, entries=parted)


def part_line(node: Text) -> Node:
    """Return a line of readings as a list; a single one as it is."""
    readings = split_readings(node.value)
    if len(readings) < 2:
        return node
    return Listing(tuple(replace(node, value=each) for each in readings), node.place, len(readings))


def collect_answers(root: Node) -> dict[str, str]:
    """Return each answer as typed; the readings of a list as one answer."""
    answers = {}
    for entry in root.entries if isinstance(root, Table) else ():
        value = entry.value
        if isinstance(value, Listing):
            answers[entry.key.value] = join_readings(
                tuple(each.value for each in value.items if isinstance(each, Text))
            )
        elif isinstance(value, Text):
            answers[entry.key.value] = value.value
    return answers


def note_pail(readings: object, reading: Reading) -> None:
    """Note readings of one pail that cannot be of one pail, where they can still be put right."""
    if isinstance(readings, Items):
        place = readings.places[0] if readings else Place(0, 0)
        check_pail(
            Values(where=Where("pail", "pail"), place=place, group=PAIL, reading=reading, items={"across": readings}),
            reading,
        )


def note_bad_machines(node: Text, reading: Reading) -> None:
    """Note machines that cannot be told apart from their air, or whose air cannot be read."""
    where = Where("machines", "machines")
    for name, needs in split_machines(node.value):
        if not name or not needs:
            reading.fault(
                node,
                where,
                f"{quote_found(f'{name} {needs}'.strip())} is not a machine and its air",
                expected="machines with the air each needs",
                example="planer 600 cfm, band saw 400 cfm",
            )
        else:
            read_node(find_what("machines.needs"), Text(needs, node.place), where, Reading(reading.faults))


def ask_all(source: TextIO, out: TextIO) -> dict[str, str]:
    """Return the answers given. One passed over with Enter is left out; the end of input passes over the rest."""
    print(
        "Press Enter where you do not know: the answer in brackets is then used, with 'about' before it.\n"
        "Give each size its unit, as you read it off the tape or the plate: 8 ft 4 in, 5-1/8 in, 130 mm, 650 cfm.\n",
        file=out,
    )
    answers: dict[str, str] = {}
    for number, question in enumerate(ASKED, 1):
        if not ask_one(f"{number}/{len(ASKED)}", question, answers, source, out):
            break
    return answers


def ask_one(number: str, question: Query, answers: dict[str, str], source: TextIO, out: TextIO) -> bool:
    """Ask until the answer reads; tell whether there is more input."""
    stands = fill_answers(answers)[question.key]
    for _ in range(MOST_TRIES):
        print(f"{number} {question.asks} [{stands}] ", end="", file=out, flush=True)
        line = source.readline()
        if not source.isatty() or not line:
            print(file=out)
        if not line or not line.strip():
            return bool(line)
        line = complete_size(question, line.strip(), fill_answers(answers)["system"])
        problems = check_answer(question, line)
        if not problems:
            answers[question.key] = take_answer(question, line)
            return True
        for problem in problems:
            print(f"    {problem}", file=out)
    print(f"    passed over: about {stands} is used; change it in the file later", file=out)
    return True


def take_answer(question: Query, line: str) -> str:
    """Return an answer as typed; several readings parted."""
    return join_readings(split_readings(line)) if is_list(question) else line.strip()


def check_answer(question: Query, answer: str) -> list[str]:
    """Return what is wrong with an answer, a line each."""
    faults = Faults("answer")
    reading = Reading(faults)
    node = Text(answer, Place(0, 0), plain=False)
    if question.key == "machines":
        note_bad_machines(node, reading)
    else:
        value = read_node(find_what(question.at), part_line(node) if is_list(question) else node, Where(), reading)
        note_pail(value, reading)
    return ["; ".join((problem.found, *problem.advice)) for problem in faults.problems]
