"""A shop whose blower and ducts find no balance: the user's to mend, by name and line, never an internal error."""

from __future__ import annotations

from pathlib import Path

import pytest

import calc.sizing.sizing
from calc.airflow.balance import NoBalance
from packet.cli.cli import main

MINIMAL = Path(__file__).parents[2] / "projects" / "minimal.yaml"


@pytest.mark.parametrize("command", ["check", "build"])
def test_no_balance_names_gates_and_line(
    command: str, tmp_path: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    def lose(_: object) -> None:
        raise NoBalance(("table saw",))

    monkeypatch.setattr(calc.sizing.sizing, "size_project", lose)
    monkeypatch.chdir(tmp_path)
    assert main([command, str(MINIMAL)]) == 2
    line = next(n for n, text in enumerate(MINIMAL.read_text("utf-8").splitlines(), 1) if text.startswith("blower:"))
    said = capsys.readouterr().err
    assert f":{line}:1 blower: blower and ducts find no balance with the gate of 'table saw' open" in said
    assert not list(tmp_path.iterdir())
