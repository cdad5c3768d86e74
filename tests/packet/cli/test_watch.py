"""Watching a file: run on every save, go on after a broken one."""

from __future__ import annotations

import os
from pathlib import Path

import pytest

from packet.cli.watch import take_stamp, watch_file
from packet.disk.write import CannotWrite
from packet.reading.load import load_project

TOP = Path(__file__).parents[3]


def test_each_save_runs_once_and_a_broken_file_does_not_end_it(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    path = tmp_path / "shop.yaml"
    good = (TOP / "projects" / "minimal.yaml").read_text(encoding="utf-8")
    path.write_text(good, encoding="utf-8")
    saves = iter(["", "packet: [", "", good, "", ""])
    runs: list[str] = []

    def run() -> int:
        runs.append(load_project(path).digest)
        return 0

    def sleep(_: float) -> None:
        if text := next(saves):
            path.write_text(text, encoding="utf-8")
            os.utime(path, ns=(len(runs), take_count()))

    counter = iter(range(10**18, 10**18 + 100))

    def take_count() -> int:
        return next(counter)

    assert watch_file(path, run, sleep=sleep, rounds=6, building=True) == 0
    assert len(runs) == 2
    assert runs[0] == runs[1]
    said = capsys.readouterr().err
    assert "opens here and ']' does not close it" in said
    assert "the last good packet is left as it is" in said


def test_a_file_that_vanishes_and_comes_back_is_waited_for(tmp_path: Path) -> None:
    path = tmp_path / "shop.yaml"
    path.write_text("one")
    runs: list[str] = []
    acts = iter([path.unlink, lambda: None, lambda: path.write_text("three")])

    def run() -> int:
        runs.append(path.read_text())
        return 1

    assert watch_file(path, run, sleep=lambda _: next(acts)() and None, rounds=3, building=True) == 1
    assert runs == ["one"]
    assert take_stamp(tmp_path / "none") is None


def test_a_folder_that_cannot_be_written_is_said_and_watched_on(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    def run() -> int:
        raise CannotWrite("cannot write out: the disk is full")

    assert watch_file(tmp_path, run, sleep=lambda _: None, rounds=2, building=True) == 3
    assert capsys.readouterr().err.count("the disk is full") == 1
