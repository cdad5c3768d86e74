"""What a job leaves out, and which lines of the file bring it."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from packet.cli.cli import main
from packet.parts import WHOLE
from packet.work.left_out import list_examples, tell_left_out
from tests.shop import PROJECTS, load_job

CHECKED = ("pails", "machine", "ducts", "box", "gauge", "readings")


def test_a_whole_shop_leaves_nothing_out() -> None:
    assert tell_left_out(WHOLE, frozenset()) == []
    assert list_examples(WHOLE, frozenset()) == []


def test_only_what_the_file_lacks_is_asked_for() -> None:
    told = tell_left_out(frozenset({"pails"}), frozenset({"ports", "filters", "shop"}))
    assert told == [
        "filter box: filter_box:",
        "air: blower and ducts: blower:, ducts:, machines:",
        "water gauge: gauge:",
    ]


@pytest.mark.parametrize("name", CHECKED)
def test_check_tells_it_with_an_example_a_line(name: str, capsys: pytest.CaptureFixture[str]) -> None:
    path, job = str(PROJECTS / f"{name}.yaml"), load_job(name)
    assert main(["check", path]) in (0, 1)
    shown = capsys.readouterr().out
    for line in (*tell_left_out(job.has, job.keys), *list_examples(job.has, job.keys)):
        assert line in shown
    assert main(["check", path, "--json"]) in (0, 1)
    assert set(json.loads(capsys.readouterr().out)["left_out"]) == WHOLE - job.has


def test_check_of_a_whole_shop_speaks_of_nothing_left_out(capsys: pytest.CaptureFixture[str]) -> None:
    main(["check", str(PROJECTS / "boatshed.yaml")])
    assert "Left out" not in capsys.readouterr().out
    assert Path(PROJECTS / "boatshed.yaml").exists()
