"""What must never be cut: each bad input from the file's text to the words across the template."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from calc.finding import Verdict
from packet.job import make_job
from packet.pages.templates import find_warnings
from packet.problem import BadProject
from packet.say import say

BOATSHED = (Path(__file__).parents[2] / "projects" / "boatshed.yaml").read_text(encoding="utf-8")
STOP = "DOES NOT FIT: DO NOT CUT"
ACROSS = "11-27/32 in, 11.88 in, 11-7/8 in"


def swap(old: str, new: str, text: str = BOATSHED) -> str:
    assert text.count(old) == 1, old
    return text.replace(old, new)


def place_ports(inspection: str, gauge: str) -> str:
    text = BOATSHED
    for name, across in (("inspection", inspection), ("gauge", gauge)):
        start = f"name: {name}, kind: {name}, face: front,"
        text = swap(start, f"{start} across: {across}, up: 9 in,", text)
    return text


MISFITS = {
    "hole larger than its panel": (
        re.sub(r"depth: 19 in", "depth: 11 in", BOATSHED), "edge.filter A", "H1", "Make the bottom panel",
    ),
    "rings on top of each other": (
        place_ports("12 in", "20 in"), "grip.inspection.gauge", "H3", "Move inspection and gauge",
    ),
    "opening that leaves no land": (
        swap("  land: 1/2 in", "  land: 3/32 in"), "land.filter A", "L1", "Cut the opening no larger than",
    ),
    "hook hole through the rim": (
        swap("hook_edge: 11-13/16 in", "hook_edge: 12-5/16 in"), "hooks.filter A", "L1", "touch a circle",
    ),
    "collar wider than its ring": (swap(ACROSS, "17-27/32 in"), "hole.filter A", "H1", "Measure the pail"),
}  # fmt: skip


@pytest.mark.parametrize("case", MISFITS)
def test_a_misfit_names_part_numbers_and_mend_and_stamps_its_template(case: str, tmp_path: Path) -> None:
    text, key, number, mend = MISFITS[case]
    file = tmp_path / "shop.yaml"
    file.write_text(text, encoding="utf-8")
    job = make_job(file)
    (finding,) = (f for f in job.findings if f.key == key)
    assert finding.verdict is Verdict.DOES_NOT_FIT
    assert finding.part
    assert finding.value is not None
    assert finding.limit is not None
    assert any(mend in say(each, job.reader) for each in finding.mends)
    stamped = {part.number: find_warnings(job, part) for part in job.design.flat_parts if part.full_size or part.cnc}
    assert STOP in stamped[number]
    assert all(words for words in stamped.values())  # no sheet and no machine file of this job is without a word


def test_a_hand_that_hardly_fits_between_two_lids_is_told(tmp_path: Path) -> None:
    file = tmp_path / "shop.yaml"
    file.write_text(place_ports("12 in", "27 in"), encoding="utf-8")
    job = make_job(file)
    (finding,) = (f for f in job.findings if f.key == "grip.inspection.gauge")
    assert finding.verdict is Verdict.TIGHT
    assert finding.part == "inspection"
    assert finding.mends


@pytest.mark.parametrize(
    ("old", "new", "said"),
    [
        (ACROSS, "11-3/32 in, 11.88 in, 11-7/8 in", "differ by 25/32 in"),
        ("{around: 37-5/16 in", "{across: [11-7/8 in], around: 39-5/16 in", "around gives 12-1/2 in across"),
        (ACROSS, "11-27/32 m", "too large"),
        ("{width: 46 in,", "{width: 24 m,", "too large"),
        ("  land: 1/2 in", "  land: 1/64 in", "too small"),
    ],
)
def test_a_slip_of_the_pen_is_refused_before_anything_is_drawn(old: str, new: str, said: str, tmp_path: Path) -> None:
    file = tmp_path / "shop.yaml"
    file.write_text(swap(old, new), encoding="utf-8")
    with pytest.raises(BadProject) as caught:
        make_job(file)
    assert any(said in str(problem) for problem in caught.value.problems)
