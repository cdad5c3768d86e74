"""A pail measured across and around: the tape's mean is cut to, and the two are held against each other."""

from __future__ import annotations

import math
from pathlib import Path

import pytest

from calc.finding import Verdict
from packet.job import make_job
from packet.reading.problem import BadProject

MINIMAL = (Path(__file__).parents[3] / "projects" / "minimal.yaml").read_text("utf-8")


def make_file(folder: Path, around_mm: float) -> Path:
    pail = f"{{across: [300 mm, 302 mm], around: {around_mm} mm}}"
    ports = "".join(
        f"  - {{name: {name}, kind: {kind}, face: {face}, pail: {pail}}}\n"
        for name, kind, face in (("A", "filter", "bottom"), ("B", "inspection", "front"), ("C", "gauge", "front"))
    )
    file = folder / "shop.yaml"
    file.write_text(f"{MINIMAL}\nports:\n{ports}", "utf-8")
    return file


@pytest.mark.parametrize(
    ("off_mm", "verdict"), [(0.0, Verdict.FITS), (1.5, Verdict.FITS), (3.0, Verdict.TIGHT), (6.0, Verdict.DOES_NOT_FIT)]
)
def test_around_wins_and_the_two_are_compared(off_mm: float, verdict: Verdict, tmp_path: Path) -> None:
    """C / pi is the mean diameter of any convex collar (Cauchy); 301 mm is the mean across."""
    job = make_job(make_file(tmp_path, math.pi * (301.0 + off_mm)))
    port = next(port for port in job.design.ports if port.name == "A")
    assert port.hole_mm == pytest.approx(301.0 + off_mm)
    (finding,) = (each for each in job.findings if each.key == "tape.A")
    assert finding.verdict is verdict
    assert finding.value is not None
    assert finding.value.value == pytest.approx(off_mm, abs=1e-6)


def test_more_than_a_pail_can_be_off_is_a_slip_of_the_pen(tmp_path: Path) -> None:
    with pytest.raises(BadProject, match="around gives"):
        make_job(make_file(tmp_path, math.pi * 312.0))
