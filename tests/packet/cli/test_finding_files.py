"""Which file is meant: the only one of a folder, or the one that made a sheet."""

from __future__ import annotations

import json
import os
import shutil
from pathlib import Path

import pytest

from packet.cli.cli import main
from packet.cli.finding_files import choose_project, is_code
from packet.reading.load import load_project

TOP = Path(__file__).parents[3]


@pytest.fixture
def folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.chdir(tmp_path)
    return tmp_path


def put(folder: Path, sample: str = "boatshed", name: str = "") -> Path:
    return Path(shutil.copy(TOP / "projects" / f"{sample}.yaml", folder / (name or f"{sample}.yaml")))


def test_the_only_project_is_taken(folder: Path) -> None:
    put(folder)
    (folder / "boatshed.as-built.yaml").write_text("log: 1\nentries: []\n")
    (folder / "holiday.yaml").write_text("cottage: by the sea\n")
    assert choose_project(None) == "boatshed.yaml"
    assert choose_project("other.yaml") == "other.yaml"


def test_of_two_the_name_is_asked_for(folder: Path, capsys: pytest.CaptureFixture[str]) -> None:
    put(folder)
    put(folder, "cart")
    assert main(["check"]) == 2
    assert capsys.readouterr().err == (
        "collector-packet: there are 2 project files in this folder; name the one you mean:\n"
        "  boatshed.yaml\n  cart.yaml\n"
    )


def test_where_there_is_none_new_is_offered(folder: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["build"]) == 2
    assert "to begin one: collector-packet new my-shop.yaml" in capsys.readouterr().err


def test_a_pipe_is_not_waited_for(folder: Path) -> None:
    os.mkfifo(folder / "wait.yaml")
    put(folder)
    assert choose_project(None) == "boatshed.yaml"


def test_a_code_leads_to_file_and_revision(folder: Path, capsys: pytest.CaptureFixture[str]) -> None:
    (folder / "shed").mkdir()
    path = put(folder / "shed")
    loaded = load_project(path)
    assert main(["check", loaded.digest.upper()]) == 0
    assert capsys.readouterr().out == (
        f"shed/boatshed.yaml: revision {loaded.project.title.revision}; made from this file as it is now\n"
    )


def test_a_code_of_an_older_state_leads_to_its_build(folder: Path, capsys: pytest.CaptureFixture[str]) -> None:
    path = put(folder)
    old = load_project(path).digest
    out = folder / "out" / "boatshed"
    out.mkdir(parents=True)
    (out / "sizing.json").write_text(json.dumps({"project": {"digest": old, "revision": "A"}}))
    path.write_text(path.read_text(encoding="utf-8") + "# changed\n", encoding="utf-8")
    assert main(["check", old]) == 0
    assert capsys.readouterr().out == "out/boatshed/sizing.json: revision A; made when this folder was built\n"


def test_a_code_of_nothing_here(folder: Path, capsys: pytest.CaptureFixture[str]) -> None:
    put(folder)
    assert main(["check", "abcdef012345"]) == 2
    assert "no file in this folder or below has the code abcdef012345" in capsys.readouterr().err


def test_broken_files_do_not_end_the_search(folder: Path, capsys: pytest.CaptureFixture[str]) -> None:
    (folder / "a.yaml").write_text("packet: 1\nshop: [\n")
    (folder / "sizing.json").write_text("[" * 100_000)
    loaded = load_project(put(folder))
    assert main(["check", loaded.digest]) == 0
    assert capsys.readouterr().out.startswith("boatshed.yaml: ")


def test_a_file_called_like_a_code_is_a_file(folder: Path) -> None:
    assert is_code("abcdef")
    put(folder, name="abcdef")
    assert not is_code("abcdef")
    assert not is_code("shop.yaml")
