"""What the file says about paper and printer: check rules as measured, and sheets without a name."""

from __future__ import annotations

import pytest

from calc.project import Display
from packet.load import BadProject
from tests.packet.test_reading import load_with


def read_display(text: str) -> Display:
    return load_with(display=text).project.display


@pytest.mark.parametrize(
    ("written", "share"),
    [
        ("149.6 mm", 149.6 / 150),
        ("14.96 cm", 149.6 / 150),
        ("6.02 in", 6.02 / 6),
        ("5-63/64 in", (6 - 1 / 64) / 6),
        ("99.7 %", 0.997),
        ("100 %", 1.0),
    ],
)
def test_a_check_rule_as_measured_is_the_printers_share(written: str, share: float) -> None:
    """Millimetres are of the 150 mm rule, inches of the 6 in rule: plain division."""
    display = read_display(f"{{printer: {{x: {written}}}}}")
    assert display.printer_x == pytest.approx(share)
    assert display.printer_y == 1.0


@pytest.mark.parametrize("written", ["25.4", "25.4 mm", "5.8 in", "96 %", "104 %", "10 kg"])
def test_what_no_printer_does_is_refused(written: str) -> None:
    """P5: 25.4 for a factor is a slip between inches and millimetres."""
    with pytest.raises(BadProject):
        read_display(f"{{printer: {{x: {written}}}}}")


def test_a_paper_without_a_name_is_given_by_its_sides() -> None:
    paper = read_display("{sheet: 12 x 18 in}").paper
    assert (paper.width_mm, paper.height_mm) == pytest.approx((304.8, 457.2))


@pytest.mark.parametrize("name", ["letter", "Letter", "us-letter", "A4", "a4"])
def test_papers_go_by_their_usual_names(name: str) -> None:
    """T6."""
    paper = read_display(f"{{paper: {name}}}").paper
    wanted = (210.0, 297.0) if name.lower() == "a4" else (215.9, 279.4)
    assert (paper.width_mm, paper.height_mm) == pytest.approx(wanted)
