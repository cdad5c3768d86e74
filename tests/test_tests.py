"""How the tests are laid out, and what they may run against."""

from __future__ import annotations

import re
from pathlib import Path

TESTS = Path(__file__).parent


def test_nothing_stands_in_for_a_real_project_sizing_design_or_job() -> None:
    """tests/shop.py makes them all: a stand-in goes on passing when the thing it stands for has changed."""
    banned = re.compile(r"Simple" r"Namespace|\bMagic" r"Mock\b|unittest\.mock|create_auto" r"spec")
    assert [path.name for path in sorted(TESTS.rglob("*.py")) if banned.search(path.read_text("utf-8"))] == []


def test_shops_are_made_in_one_place() -> None:
    """Whoever needs another project, sizing or job changes one of tests/shop.py."""
    made = re.compile(r"\b(p\.|project\.)?(Project|Job|Sizing|Design)\(\s*[^)\s]")
    places = [path.name for path in sorted(TESTS.rglob("*.py")) if made.search(path.read_text("utf-8"))]
    assert places == ["shop.py"]


SUBJECTS = {
    "packet/draw/views/test_box_drawings": "every drawing of the box against the design",
    "packet/log/test_paper_fields": "the file's words on paper and printer, on every form",
    "packet/pages/test_box_pages": "bill, cut list and drawings read back",
    "packet/pages/kit/test_form_fields": "every form of the packet",
    "packet/pages/kit/test_hostile_words": "every free text of the file, printed",
    "packet/pages/kit/test_other_paper": "the packet on paper it was not made for",
    "packet/pages/kit/test_text_boxes": "where all words of the packet stand",
    "packet/reading/test_bad_files": "each wrong file of bad/ and doubtful/",
    "packet/reading/test_box_faults": "boxes that cannot work, and their mends",
    "packet/reading/test_hostile": "files made to do harm, and those that failed once",
    "packet/reading/test_slips": "keys left out, empty or at an end",
    "packet/words/test_bad_templates": "bad input down to the words across the template",
    "packet/words/test_each_said": "every sentence that a design makes",
    "packet/words/test_words_stand_in_templates": "no sentence in the code",
    "packet/work/test_first_start": "the step of the first start against the gauge",
}
"""Test files whose subject is more than a module."""

OWN_ROOMS = {"bench", "outside", "story"}
"""Rooms that only tests have: times, published sources, whole packets read back."""

HELD_IN_READING = {"bad", "doubtful", "failed_once"}
"""Folders of project files beside the tests that read them."""


def find_module(test: Path) -> bool:
    """Tell whether a test file is named after its room or a module in it, with what it looks at behind that."""
    room = TESTS.parent / test.parent.relative_to(TESTS)
    names, name = {path.stem for path in room.glob("*.py")}, test.stem.removeprefix("test_")
    words = name.split("_")
    return name == room.name or any("_".join(words[:count]) in names for count in range(1, len(words) + 1))


def list_mirrored() -> list[Path]:
    return [path for room in ("calc", "packet") for path in sorted((TESTS / room).rglob("test_*.py"))]


def test_each_room_of_tests_is_a_room_of_the_source() -> None:
    rooms = {path for path in TESTS.rglob("*") if path.is_dir() and path.name != "__pycache__"}
    names = {path.relative_to(TESTS).as_posix() for path in rooms if path.relative_to(TESTS).parts[0] not in OWN_ROOMS}
    held = {f"packet/reading/{name}" for name in HELD_IN_READING}
    assert [name for name in sorted(names - held) if not (TESTS.parent / name).is_dir()] == []


def test_each_test_file_names_a_module_of_its_room_or_a_listed_subject() -> None:
    lost = {path.relative_to(TESTS).with_suffix("").as_posix() for path in list_mirrored() if not find_module(path)}
    assert lost == set(SUBJECTS)
