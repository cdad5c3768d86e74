"""Boxes that cannot work, as a user meets them: a project file, the words of ``check``, and the mend put in the file.

Each mend is taken as printed, in the reader's fractions: what it says must be enough.
"""

from __future__ import annotations

import json
import re
from pathlib import Path
from typing import Any

import pytest

from calc.measures.quantity import read_amount
from packet.cli.cli import main

BOATSHED = Path("projects/boatshed.yaml").read_text("utf-8")
LEFT_INLET = "inlet: {face: left, diameter: 8 in}"


class Shop:
    """The boatshed's file with some lines changed, and what ``check`` says of it."""

    def __init__(self, folder: Path, capsys: pytest.CaptureFixture[str]) -> None:
        self.path, self.capsys, self.status = folder / "shop.yaml", capsys, 0

    def check(self, *changes: tuple[str, str]) -> str:
        """Return the table as one line of words a finding, those that do not fit only."""
        text = BOATSHED
        for old, new in changes:
            assert text.count(old) == 1, old
            text = text.replace(old, new)
        self.path.write_text(text, "utf-8")
        self.status = main(["check", str(self.path), "--json"])
        told = json.loads(self.capsys.readouterr().out)["findings"]
        return "\n".join(tell_finding(each) for each in told if each["verdict"] == "does not fit")


def tell_finding(found: dict[str, Any]) -> str:
    """Return what was looked at, its value and limit, why and what mends it, in one line."""
    shown = found["shown"]
    mends = (f"mend: {mend}" for mend in found["mends"])
    said = (found["what"], shown["value"], found["sense"] or "", shown["limit"], found["why"], *mends)
    return " ".join(filter(None, ("DOES NOT FIT", *said)))


@pytest.fixture
def shop(tmp_path: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch) -> Shop:
    monkeypatch.setenv("COLUMNS", "160")
    return Shop(tmp_path, capsys)


def read_lengths(pattern: str, said: str) -> list[float]:
    """Return every length [mm] that stands where the pattern has its group."""
    found = re.findall(pattern, said)
    assert found, said
    return [read_amount(each, "length_mm") for each in found]


LENGTH = r"((?:\d+-)?\d+(?:/\d+)? in)"


def test_ports_that_do_not_fit_the_face(shop: Shop) -> None:
    said = shop.check(("depth: 19 in", "depth: 12 in"))
    assert shop.status == 1
    assert "Hole of filter A: room to the back wall" in said
    assert "Ring screws of filter B: room to the front edge of the bottom panel" in said
    # deeper by the most that is asked for across that wall, and by what a hand needs behind
    more = max(read_lengths(f"Make the box {LENGTH} larger", said) + read_lengths(f"panel {LENGTH} larger", said))
    hand = max(read_lengths(rf"Move filter [AB] {LENGTH} toward", said))
    depth = (12 * 25.4 + more + hand) / 25.4
    mended = shop.check(("depth: 19 in", f"depth: {depth:.4f} in"))
    assert "filter A" not in mended
    assert "filter B" not in mended


def test_a_box_higher_than_the_ceiling_allows(shop: Shop) -> None:
    said = shop.check(("  hung: wall", "  hung: wall\n  underside: 9 ft"))
    assert "Top of the box above the floor, ceiling at 122 in" in said
    (by,) = read_lengths(f"Hang the box {LENGTH} lower", said)
    low = f"  hung: wall\n  underside: {9 * 12 - by / 25.4:.4f} in"
    assert "ceiling" not in shop.check(("  hung: wall", low))
    barely = f"  hung: wall\n  underside: {9 * 12 - by / 25.4 + 0.05:.4f} in"
    assert "ceiling" in shop.check(("  hung: wall", barely))


def test_an_inlet_crossing_a_port(shop: Shop) -> None:
    across = "inlet: {face: front, diameter: 8 in, across: AT in, up: 8 in}"
    said = shop.check((LEFT_INLET, across.replace("AT", "30")))
    assert "Room between the inlet and inspection -4-" in said
    assert "Room between the inlet and gauge -1-" in said
    assert "Put the inlet on the left face, which is free." in said
    by = read_lengths(f"Move the inlet {LENGTH} toward the left", said)[0] / 25.4
    assert "inlet" not in shop.check((LEFT_INLET, across.replace("AT", f"{30 - by:.4f}")))
    # 1/16 in less, and it still crosses: the move is the smallest
    assert "inlet" in shop.check((LEFT_INLET, across.replace("AT", f"{30 - by + 0.0625:.4f}")))


def test_a_part_larger_than_the_sheet(shop: Shop) -> None:
    said = shop.check(("sheet: 96 x 48 in", "sheet: 46-1/2 x 48 in"))
    assert "back panel: size against the trimmed sheet of birch plywood" in said
    assert "at most 46-1/4 in" in said  # 6 mm squares its edge
    by = max(read_lengths(f"Make the box {LENGTH} smaller", said)) / 25.4
    smaller = shop.check(
        ("sheet: 96 x 48 in", "sheet: 46-1/2 x 48 in"), ("{width: 46 in,", f"{{width: {46 - by:.4f} in,")
    )
    assert "sheet" not in smaller
    size = max(read_lengths(f"buy a sheet of {LENGTH}", said)) / 25.4
    assert "sheet" not in shop.check(("sheet: 96 x 48 in", f"sheet: {size:.4f} x 48 in"))


@pytest.mark.parametrize(
    ("measured", "wrong"), [("14 mm", True), ("15.3 mm", False), ("22.8 mm", False), ("23 mm", True)]
)
def test_thickness_off_by_more_than_a_fifth(shop: Shop, measured: str, wrong: bool) -> None:
    """A fifth of 19.05 mm is 3.81 mm: 15.24 to 22.86 mm pass for 3/4 in."""
    said = shop.check(("thickness: 18 mm ", f"thickness: {measured} "))
    assert ("Thickness of birch plywood" in said) is wrong
    if wrong:
        assert "at most 20 %" in said
        low, high = re.findall(rf"again; {LENGTH} to {LENGTH} would pass", said)[0]
        for edge in (low, high):
            assert "Thickness" not in shop.check(("thickness: 18 mm ", f"thickness: {edge} "))


def test_a_lining_thicker_than_the_clearance(shop: Shop) -> None:
    thick = "stock: carpet\n  thickness: 1/2 in"
    said = shop.check((thick, "stock: carpet\n  thickness: 5 in"))
    assert "Hole of filter A: room to the back wall, its lining and cleats" in said
    assert "Inlet: room to the top wall" in said
    least = min(read_lengths(f"Or use a lining of {LENGTH} or less", said)) / 25.4
    assert "lining" not in shop.check((thick, f"stock: carpet\n  thickness: {least:.4f} in"))
    assert "lining" in shop.check((thick, f"stock: carpet\n  thickness: {least + 0.1:.4f} in"))
