"""What must never be cut: each bad input from the file's text to the words across the template."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from calc.finding import Verdict
from packet.draw.views.part_words import find_warnings
from packet.draw.views.template_sheet import list_lines
from packet.job import make_job
from packet.reading.problem import BadProject
from packet.words.say import say

BOATSHED = (Path(__file__).parents[3] / "projects" / "boatshed.yaml").read_text(encoding="utf-8")
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
    assert finding.value is not None
    assert finding.limit is not None
    assert any(mend in say(each, job.reader) for each in finding.mends)
    stamped = {part.number: list_lines(find_warnings(job, part)) for part in job.design.flat_parts}
    assert STOP in stamped[number]
    what = say(finding.what, job.reader)
    assert any(what in line and mend in line for line in stamped[number])  # the stamp names its cause and what mends it


def test_a_hand_that_hardly_fits_between_two_lids_is_told(tmp_path: Path) -> None:
    file = tmp_path / "shop.yaml"
    file.write_text(place_ports("12 in", "27 in"), encoding="utf-8")
    job = make_job(file)
    (finding,) = (f for f in job.findings if f.key == "grip.inspection.gauge")
    assert finding.verdict is Verdict.TIGHT
    assert {subject.name for subject in finding.subjects} >= {"inspection", "gauge"}
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


def list_stamped(text: str, folder: Path) -> dict[str, tuple[str, ...]]:
    """Return what stands across each part of a project's text that has anything across it."""
    file = folder / "shop.yaml"
    file.write_text(text, encoding="utf-8")
    job = make_job(file)
    told = {part.name: list_lines(find_warnings(job, part)) for part in job.design.flat_parts}
    return {name: lines for name, lines in told.items() if lines}


def test_what_has_nothing_to_do_with_a_part_stamps_none(tmp_path: Path) -> None:
    """Too little cloth, a bare ear, a motor too weak: none of it makes a hole wrong."""
    text = swap("  protector: {kind: earmuffs", "  # protector: {kind: earmuffs")
    text = swap("media_area: 330 ft2", "media_area: 120 ft2", text)
    file = tmp_path / "shop.yaml"
    file.write_text(text, encoding="utf-8")
    job = make_job(file)
    failing = {f.key for f in job.findings if f.verdict is Verdict.DOES_NOT_FIT}
    assert {"sound.exposure", "filter.air_to_media"} <= failing
    assert list_stamped(text, tmp_path) == list_stamped(BOATSHED, tmp_path)
    assert not any(STOP in lines for lines in list_stamped(text, tmp_path).values())


def test_a_hole_too_near_the_edge_stamps_itself_its_ring_and_its_panel(tmp_path: Path) -> None:
    text = swap("name: gauge, kind: gauge, face: front,", "name: gauge, kind: gauge, face: front, across: 41 in,")
    stamped = {name: lines for name, lines in list_stamped(text, tmp_path).items() if STOP in lines}
    assert set(stamped) == {"hole for gauge", "reinforcing ring gauge", "front panel"}
    for lines in stamped.values():
        assert any("gauge" in line and "Move gauge" in line for line in lines), lines


def test_a_pail_nobody_measured_is_named_on_what_is_cut_by_it(tmp_path: Path) -> None:
    start = BOATSHED.index("name: gauge, kind: gauge")
    row = BOATSHED[start : BOATSHED.index("\n", start)]
    bare = re.sub(r", pail: \{[^}]*\}", "", row)
    assert bare != row
    stamped = list_stamped(BOATSHED.replace(row, bare), tmp_path)
    named = {name for name, lines in stamped.items() if any("gauge pail" in line for line in lines)}
    assert {"hole for gauge", "reinforcing ring gauge", "test disc gauge", "front panel"} <= named
    assert not any("filter" in name for name in named)
