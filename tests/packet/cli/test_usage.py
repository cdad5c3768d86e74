"""What is typed a little wrong, and what the program says of itself."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

import pytest

from packet.cli.cli import main
from packet.cli.commands import RUN, tell_next
from packet.cli.invocation import name_program
from packet.cli.usage import COMMANDS, make_parser
from packet.version import VERSION


def test_every_command_is_known() -> None:
    assert set(COMMANDS) == set(RUN)
    assert all(f"    {command}" in make_parser().format_help() for command in COMMANDS)


@pytest.mark.parametrize(
    ("typed", "said"),
    [
        ("biuld", "no command is called 'biuld'; did you mean 'build'?"),
        ("shop.yaml", "no command is called 'shop.yaml'; what is to be done with it? For example: collector-packet "
                      "check shop.yaml"),
        ("xyzzy", "expected build, check, new, schema, record or completion"),
    ],
)  # fmt: skip
def test_an_unknown_command(typed: str, said: str, capsys: pytest.CaptureFixture[str]) -> None:
    assert main([typed]) == 2
    assert said in capsys.readouterr().err


@pytest.mark.parametrize("command", COMMANDS)
def test_each_help_has_an_example_that_reads_and_the_statuses(command: str, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["help", command]) == 0
    shown = capsys.readouterr().out
    assert "Exit status: 0" in shown
    examples = [line.split()[1:] for line in shown.splitlines() if line.startswith("  collector-packet ")]
    assert examples
    for example in examples:
        assert make_parser().parse_args(example).command == command


def test_version_as_a_word(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["version"]) == 0
    assert capsys.readouterr().out == f"collector-packet {VERSION}\n"


@pytest.mark.parametrize("shell", ["bash", "zsh", "tcsh"])
def test_completion_names_every_command(shell: str, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["completion", shell]) == 0
    shown = capsys.readouterr().out
    assert all(command in shown for command in COMMANDS)


def test_completion_is_good_bash(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["completion", "bash"]) == 0
    (tmp_path / "complete.sh").write_text(capsys.readouterr().out)
    subprocess.run(["bash", "-n", str(tmp_path / "complete.sh")], check=True)


@pytest.mark.parametrize("verdict", ["fits", "does not fit"])
def test_the_next_command_can_be_pasted(verdict: str, monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    from calc.finding import Verdict

    monkeypatch.chdir(tmp_path)
    monkeypatch.setattr(sys, "argv", [".venv/bin/collector-packet", "check", "my shop.yaml"])
    monkeypatch.setenv("PATH", str(tmp_path))
    does = "build" if verdict == "fits" else "check"
    assert tell_next(Verdict(verdict), "my shop.yaml").endswith(f".venv/bin/collector-packet {does} 'my shop.yaml'")


def test_a_program_on_the_path_is_called_by_its_name(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    program = tmp_path / "collector-packet"
    program.write_text("#!/bin/sh\n")
    program.chmod(0o755)
    monkeypatch.setenv("PATH", str(tmp_path))
    monkeypatch.setattr(sys, "argv", [str(program)])
    assert name_program() == "collector-packet"
    monkeypatch.setattr(sys, "argv", ["/somewhere/packet/__main__.py"])
    assert name_program().endswith(" -m packet")
