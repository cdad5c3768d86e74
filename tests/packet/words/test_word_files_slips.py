"""A slip in any file of words is named with file and line, exit 2; it is never called an internal error."""

from __future__ import annotations

import shutil
from collections.abc import Iterator
from importlib import resources
from pathlib import Path

import pytest

from packet.cli.cli import main
from packet.words import languages, phrases
from packet.words import word_files as words

TOP = Path(__file__).parents[3]
BOATSHED, MINIMAL = TOP / "projects" / "boatshed.yaml", TOP / "projects" / "minimal.yaml"


@pytest.fixture
def room(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Iterator[Path]:
    """Return a copy of templates/ that everything reads while the test runs."""
    copy = tmp_path / "templates"
    shutil.copytree(TOP / "templates", copy)
    whole = resources.files
    monkeypatch.setattr(resources, "files", lambda name: copy if name == "templates" else whole(name))
    monkeypatch.chdir(tmp_path)
    clear_kept()
    yield copy
    clear_kept()


def clear_kept() -> None:
    """Forget what was read of templates/."""
    for kept in (words.load_folder, phrases.take_words, languages.list_languages):
        kept.cache_clear()


def slip(file: Path, old: str, new: str) -> int:
    """Put other words into a file once; return their line."""
    text = file.read_text("utf-8")
    assert text.count(old) >= 1, old
    file.write_text(text.replace(old, new, 1), "utf-8")
    return text[: text.index(old)].count("\n") + 1


BUILD = [
    ("steps/cut_panels.md", "who: ", "who: robot and ", "is none of"),
    ("steps/cut_panels.md", "\n- ", "\n- {{ nonsuch }} ", "'nonsuch' is not known here"),
    ("steps/cut_panels.md", "\n- ", "\n- {% if %} ", "cannot be filled in"),
    ("steps/cut_panels.md", "\nhold: ", "\nhold: {{ 1 / 0 }} ", "division by zero"),
    ("steps/cut_panels.md", "\nhold: ", "\nhodl: ", "begins with 'hodl:'"),
    ("steps/cut_panels.md", "title: ", "title ", "cannot be read; write 'key: words'"),
    ("steps/cut_panels.md", "title: ", "title: {{ nonsuch }}", "'nonsuch' is not known here"),
    ("steps/cut_panels.md", "minutes: ", "minutes: nonsuch + ", "'nonsuch' is not known here"),
    ("steps/cut_panels.md", "stage: ", "stage: x", "is none of"),
    ("steps/cut_panels.md", "picture: ", "picture: boxx", "there is no picture"),
    ("steps/cut_panels.md", "\n---\n", "\n--\n", "must end the header"),
    ("cautions/dust_lungs.md", "signal: ", "signal: x", "is none of"),
    ("cautions/dust_lungs.md", "\nfact: ", "\nfcat: ", "begins with 'fcat:'"),
    ("sheet.md", "\nstop: ", "\nspot: ", "begins with 'spot:'"),
    ("glossary.md", "Air-to-media ratio | ", "Air-to-media ratio ; ", "a line of this kind has 2 parts"),
    ("stages.md", "\nready: ", "\nready ", "cannot be read; write 'key: words'"),
    ("words/cover.md", "\nprinting_dialog: ", "\nprinting_dailog: ", "the one most like it is 'printing_dailog: ...'"),
    ("words/cover.md", "{{ paper }}", "{{ papre }}", "'papre' is not known here; the name most like it is 'paper'"),
    ("words/cover.md", "{{ paper }}", "{ paper }}", "has a brace that holds no name"),
    ("pages/helper.html", "<body", "{{ nonsuch }}<body", "'nonsuch' is not known here"),
]


@pytest.mark.parametrize(("file", "old", "new", "fault"), BUILD, ids=[f"{file}: {fault}" for file, *_, fault in BUILD])
def test_build_names_file_and_line(
    file: str, old: str, new: str, fault: str, room: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    line = slip(room / file, old, new) + old.startswith("\n")
    assert main(["build", str(BOATSHED if "helper" in file else MINIMAL), "-q", "-o", "out"]) == 2
    said = capsys.readouterr().err.splitlines()
    assert fault in said[0]
    if "there is no line" in fault or "must end" in fault:
        assert said[0].startswith(f"collector-packet: templates/{file}: ")
    else:
        assert said[0].startswith(f"collector-packet: templates/{file}:{line}: ")
    assert not (room.parent / "out").exists()


CHECK = [
    ("findings/judging.md", "\nflow_alone: ", "\nflow_alon: ", "the one most like it is 'flow_alon: ...'"),
    ("findings/judging.md", "\nflow_alone: ", "\nflow_alone: {{ gates }}", "'gates' is not known here"),
    ("steps/mount_wall.md", "title: ", "titel: ", "the one most like it is 'title: ...'"),
    ("steps/mount_wall.md", "\n- ", "\n- {{ lift.dek }} ", "'dek' is not known here; the name most like it is 'deck'"),
    ("steps/mount_wall.md", "\n- ", "\n- {{ ports[0].hoel }} ", "the name most like it is 'hole'"),
    ("steps/mount_wall.md", "\n- ", "\n- {{ length(75 }} ", "cannot be filled in"),
    ("steps/mount_wall.md", "\n- ", "\n- {% fi options.lined %} ", "write {% if ... %}"),
    ("steps/mount_wall.md", "\n- ", "\n- {% endfor %} ", "has no '{% for ... %}' before it"),
    ("steps/mount_wall.md", "\n- ", "\n- {{ length(75) } ", "cannot be filled in"),
    ("steps/mount_wall.md", "when: ", "when: optoins and ", "the name most like it is 'options'"),
    ("steps/mount_wall.md", "after: ", "after: nonsuch; ", "which is no step"),
    ("steps/mount_wall.md", "\nhold: ", "\nhold: width | ", "has 4 parts"),
    ("steps/mount_wall.md", "who: ", "who: robot and ", "is none of"),
    ("steps/mount_wall.md", "cautions: ", "cautions: nonsuch; ", "has no file"),
    ("cautions/altitude.md", "signal: ", "signal: x", "is none of"),
    ("cautions/altitude.md", "short: ", "shrot: ", "the one most like it is 'short: ...'"),
    ("helper/mount_wall.md", "lift: ", "lfit: ", "the one most like it is 'lift: ...'"),
    ("helper/mount_wall.md", "\n- ", "\nhold: ", "a line begins with 'hold:'"),
    ("spanish/helper/mount_wall.md", "\n- ", "\n- {{ nonsuch }} ", "'nonsuch' is not known here"),
    ("spanish/phrases.md", "\nterms: ", "\nterns: ", "the one most like it is 'terms' in its line 30"),
    ("spanish/glossary.md", "Relación aire-tela | ", "Relación aire-tela ; ", "has 2 parts"),
    ("spanish/language.md", "\ntag: ", "\ntag: español ", "is no tag of a language"),
    ("sheet.md", "\nstop: ", "\nspot: ", "begins with 'spot:'"),
    ("stages.md", "\nready: ", "\nready ", "cannot be read"),
    ("words/cover.md", "{{ paper }}", "{ paper }}", "has a brace that holds no name"),
    ("pages/helper.html", "{% endfor %}", "{% endfro %}", "cannot be filled in"),
    ("findings/ports.md", "\nscrews_what: ", "\nscrews_what ", "cannot be read; write 'key: words'"),
]


@pytest.mark.parametrize(("file", "old", "new", "fault"), CHECK, ids=[f"{file}: {fault}" for file, *_, fault in CHECK])
def test_check_names_file_and_line(
    file: str, old: str, new: str, fault: str, room: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    line = slip(room / file, old, new) + old.startswith("\n")
    assert main(["check", str(MINIMAL), "--all"]) == 2
    said = capsys.readouterr().err
    assert f"collector-packet: templates/{file}:{line}: " in said
    assert fault in said


def test_a_file_that_is_gone_or_not_text_is_named(room: Path, capsys: pytest.CaptureFixture[str]) -> None:
    (room / "findings" / "judging.md").write_bytes("# A\nflow_why: Späne\n".encode("latin-1"))
    assert main(["check", str(MINIMAL)]) == 2
    assert "templates/findings/judging.md:2: this is not UTF-8 text" in capsys.readouterr().err
    (room / "glossary.md").unlink()
    shutil.copy(TOP / "templates" / "findings" / "judging.md", room / "findings")
    assert main(["build", str(MINIMAL), "-o", "out"]) == 2
    assert "templates/glossary.md: the file is missing" in capsys.readouterr().err


def test_a_file_that_nothing_would_read_is_named(room: Path, capsys: pytest.CaptureFixture[str]) -> None:
    (room / "spanish" / "words").mkdir()
    (room / "spanish" / "words" / "covr.md").write_text("title: Portada\n", "utf-8")
    assert main(["check", str(MINIMAL)]) == 2
    said = capsys.readouterr().err
    assert "templates/spanish/words/covr.md: templates/words/ has no file of this name" in said
    assert "'cover.md'" in said
    shutil.rmtree(room / "spanish" / "words")
    (room / "martian").mkdir()
    (room / "martian" / "sheet.md").write_text("note: x\n---\n", "utf-8")
    assert main(["check", str(MINIMAL)]) == 2
    assert "templates/martian/language.md: the file is missing" in capsys.readouterr().err


def test_a_step_of_the_helper_without_its_words_is_named(room: Path, capsys: pytest.CaptureFixture[str]) -> None:
    (room / "helper" / "mount_wall.md").unlink()
    (room / "spanish" / "helper" / "mount_wall.md").unlink()
    assert main(["check", str(MINIMAL)]) == 2
    assert "templates/helper/mount_wall.md: the file is missing" in capsys.readouterr().err
