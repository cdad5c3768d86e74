"""A language is a folder of templates/: no name of one is in the code, and what a folder lacks is read at the top."""

from __future__ import annotations

import os
import re
import shutil
import subprocess
import sys
from pathlib import Path

import pypdf
import pytest

from packet.words.languages import choose_language, get_language, get_top, list_languages
from packet.words.reader import BadWords, find_file, read_template
from packet.words.word_files import load_folder
from tests.packet.words.test_word_files_slips import clear_kept, room

__all__ = ["room"]
TOP = Path(__file__).parents[3]

TURNED = str.maketrans("aeiou", "eioua")
"""The invented tongue of this test: every vowel is the next one."""


def speak(text: str) -> str:
    """Return a file in the invented tongue: words behind colons and dashes, but no braces, keys or conditions."""
    lines = []
    for line in text.split("\n"):
        mark, sep, said = line.partition("- ") if line.startswith("- ") else line.partition(": ")
        parts = re.split(r"({{.*?}}|{%.*?%})", said)
        parts[::2] = [part.translate(TURNED) for part in parts[::2]]
        lines.append(mark + sep + "".join(parts))
    return "\n".join(lines)


def add_language(templates: Path) -> None:
    """Put a tiny third language into a copy of templates/: three files."""
    folder = templates / "pattua"
    (folder / "helper").mkdir(parents=True)
    (folder / "language.md").write_text("name: Pattuá\ntag: art-x-pattua\n", "utf-8")
    for file in ("phrases.md", "helper/cut_panels.md"):
        (folder / file).write_text(speak((templates / file).read_text("utf-8")), "utf-8")


def test_a_third_language_is_three_files(tmp_path: Path) -> None:
    shutil.copytree(TOP / "templates", tmp_path / "templates")
    add_language(tmp_path / "templates")
    project = tmp_path / "shop.yaml"
    text = (TOP / "projects" / "boatshed.yaml").read_text("utf-8")
    assert "\ndisplay:\n" in text
    project.write_text(text.replace("\ndisplay:\n", "\ndisplay:\n  language: Pattuá\n", 1), "utf-8")
    environment = {**os.environ, "PYTHONPATH": f"{tmp_path}{os.pathsep}{TOP}"}
    run = [sys.executable, "-m", "packet"]
    build = subprocess.run(
        [*run, "build", str(project), "-o", str(tmp_path / "out")],
        cwd=tmp_path, env=environment, capture_output=True, text=True, check=False,
    )  # fmt: skip
    assert build.returncode in (0, 1), build.stderr
    page = (tmp_path / "out" / "helper.html").read_text("utf-8")
    assert '<html lang="art-x-pattua">' in page
    assert "Stup end sey su whin" in page  # of its own phrases
    assert "Stop and say so when" not in page
    assert "Safety glasses, the whole time." in page  # of sheet.md, which it has not got
    title = read_template("helper/cut_panels.md").split("title: ")[1].split("\n")[0]
    assert title.translate(TURNED) in page
    assert title not in page
    assert read_language(tmp_path / "out" / "helper.pdf") == "art-x-pattua"
    assert read_language(tmp_path / "out" / "packet.pdf") == "en"  # its cards are not in that language
    schema = subprocess.run(
        [*run, "schema", "project"], cwd=tmp_path, env=environment, capture_output=True, text=True, check=True
    )
    assert '"pattua"' in schema.stdout


def read_language(path: Path) -> str:
    return str(pypdf.PdfReader(path).trailer["/Root"]["/Lang"])


def test_the_languages_are_the_folders(room: Path) -> None:
    add_language(room)
    folders = {file.parent.name for file in room.glob("*/language.md")}
    assert set(list_languages()) == {"english", *folders}
    assert {"pattua", "spanish"} <= folders
    assert get_language("").folder == get_top().folder == "english"
    assert (get_language("pattua").name, get_language("pattua").tag) == ("Pattuá", "art-x-pattua")
    assert find_file("helper/cut_panels.md", "pattua") == "pattua/helper/cut_panels.md"
    assert find_file("helper/line_box.md", "pattua") == "helper/line_box.md"
    assert set(load_folder("helper", "pattua")) == set(load_folder("helper"))


def test_a_caution_that_is_not_translated_is_read_at_the_top(room: Path) -> None:
    """It must never be left out."""
    (room / "spanish" / "cautions" / "fire.md").unlink()
    assert set(load_folder("cautions", "spanish")) == set(load_folder("cautions"))
    assert load_folder("cautions", "spanish")["fire"].file == "cautions/fire.md"


def test_the_cards_are_in_a_language_when_all_of_them_are(room: Path) -> None:
    assert [choose_language(name) for name in ("english", "spanish", "")] == ["english", "english", ""]
    shutil.copytree(room / "steps", room / "spanish" / "steps")
    assert choose_language("spanish") == "english"  # the stages are not in it
    shutil.copy(room / "stages.md", room / "spanish")
    assert choose_language("spanish") == "spanish"
    (room / "spanish" / "steps" / "cut_panels.md").unlink()
    assert choose_language("spanish") == "english"


@pytest.mark.parametrize(
    ("text", "fault"),
    [
        ("name: Pattuá\n", "pattua/language.md: there is no line 'tag: ...'"),
        ("name: P\ntag: pattuatua\n", "pattua/language.md:2: 'pattuatua' is no tag of a language"),
        ("name: P\ntaag: xx\n", "pattua/language.md:2: 'taag' means nothing here; the one most like it is 'tag'"),
    ],
)
def test_a_slip_in_the_language_file_is_named(text: str, fault: str, room: Path) -> None:
    (room / "pattua").mkdir()
    (room / "pattua" / "language.md").write_text(text, "utf-8")
    clear_kept()
    with pytest.raises(BadWords) as caught:
        list_languages()
    assert fault in str(caught.value)


def test_no_name_of_a_language_stands_in_the_code() -> None:
    names = re.compile(r"\b(english|spanish|español)\b", re.IGNORECASE)
    files = [path for house in ("calc", "packet") for path in sorted((TOP / house).rglob("*.py"))]
    assert files
    assert [path.name for path in files if names.search(path.read_text("utf-8"))] == []
