"""What the file calls by a name that the bill does not know, and what is in the shop already."""

from __future__ import annotations

from pathlib import Path

import pytest

from packet.bill.names import find_near_item
from packet.cli.cli import main
from packet.job import make_job

BOATSHED = Path("projects/boatshed.yaml").read_text("utf-8")


def write_file(folder: Path, old: str, new: str) -> Path:
    assert BOATSHED.count(old) == 1
    path = folder / "shop.yaml"
    path.write_text(BOATSHED.replace(old, new), "utf-8")
    return path


def test_unknown_names_are_warned_of_with_line_and_nearest(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    path = write_file(tmp_path, "  screw lid: 9.50\n", "  screw lids: 9.50\n  zzz: 2\n")
    line = next(n for n, text in enumerate(path.read_text("utf-8").splitlines(), 1) if "screw lids" in text)
    assert main(["check", str(path)]) in (0, 1)
    said = capsys.readouterr().err.splitlines()
    assert f"warning: {path}:{line}:1 prices.screw lids: nothing in the bill is called 'screw lids'" in said[0]
    assert "nearest: screw lid" in said[0]
    assert f":{line + 1}:1 prices.zzz" in said[1]
    assert "nearest" not in said[1]
    job = make_job(path)
    assert len([words for words in job.warnings if "in the bill" in words]) == 2
    assert job.bill.get_line("screw lid").each is None


def test_the_samples_name_only_what_the_bill_knows() -> None:
    for path in sorted(Path("projects").glob("*.yaml")):
        if ".as-built" not in path.name:
            assert not [words for words in make_job(path).warnings if "in the bill" in words], path


def test_names_of_a_years_needs_are_known(tmp_path: Path) -> None:
    path = write_file(tmp_path, "  screw lid: 9.50\n", "  screw lid: 9.50\n  Dust  Mask: 4\n")
    assert not make_job(path).warnings


def test_nearest_by_letters_then_by_words() -> None:
    known = ("silicone cartridge", "screw lid", "5/16 in x 3 in lag screw")
    assert find_near_item("silicon cartridge", known) == "silicone cartridge"
    assert find_near_item("lag bolts 5/16", known) == "5/16 in x 3 in lag screw"
    assert find_near_item("anvil", known) == ""


def test_an_upgrade_buys_no_blower_unless_the_file_says_so(tmp_path: Path) -> None:
    """Blower and cyclone stand in the shop; the file says to buy by a price, a place, or none on hand."""
    job = make_job(write_file(tmp_path, "  blower: 1\n  cyclone: 1\n", ""))
    assert [job.bill.get_line(name).buy for name in ("blower", "cyclone")] == [0, 0]
    assert job.bill.get_line("blower").cost == 0.0
    assert not {"blower", "cyclone"} & set(job.bill.missing)
    job = make_job(write_file(tmp_path, "  blower: 1\n", "  blower: 0\n"))
    assert [job.bill.get_line(name).buy for name in ("blower", "cyclone")] == [1, 0]
    assert "blower" in job.bill.missing
    job = make_job(write_file(tmp_path, "on_hand: ", "  blower: 900.00\non_hand: "))
    assert job.bill.get_line("blower").buy == 0  # priced, and on hand all the same
    text = "  blower: 1\n  cyclone: 1\n  silicone cartridge: 1\nbuy_at:\n"
    job = make_job(write_file(tmp_path, text, "  silicone cartridge: 1\nbuy_at:\n  cyclone: the yard\n"))
    assert [job.bill.get_line(name).buy for name in ("blower", "cyclone")] == [0, 1]
