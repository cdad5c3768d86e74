"""Files that leave parts out: what is read of them, what is assumed, and what is asked for."""

from __future__ import annotations

from pathlib import Path
from typing import get_args

import pytest

from calc.project import Boxed, Given, Opening, Project
from packet.fields import PROJECT
from packet.parts import BROUGHT_BY, Part
from packet.reading.load import BadProject, Loaded, read_project
from packet.reading.parts import WHOLE_KEYS, list_missing

HEAD = "packet: 1\nproject: {title: A bench (invented), date: 2026-05-09}\n"
PAIL = (
    "ports: [{name: A, kind: filter, pail: {across: [11.8 in, 11.9 in], top: 12 in, bottom: 10 in, height: 14 in}}]\n"
)
PROJECTS = Path(__file__).parents[3] / "projects"


def read(text: str) -> Loaded:
    return read_project((HEAD + text).encode(), "bench.yaml")


def refuse(text: str) -> str:
    with pytest.raises(BadProject) as caught:
        read(text)
    return "\n".join(f"{one.path}: {one.found}; {one.mend}" for one in caught.value.problems)


def test_pails_alone_are_a_project() -> None:
    """12.0 - 10.0 in is the taper as typed; nothing of a room, a blower or a box is made up."""
    given = read(PAIL + "panel: {stock: birch plywood, thickness: 18 mm}\n").project
    assert type(given) is Given
    assert type(given.ports[0]) is Opening
    assert given.ports[0].pail.top_mm == pytest.approx(304.8)
    lacking = (given.shop, given.dust, given.blower, given.separator, given.box, given.noise, given.gauge, given.lining)
    assert lacking == (None,) * 8
    assert (given.runs, given.machines, given.filters, given.gate_sets) == ((), (), (), ())
    assert given.board is given.panel is not None


def test_only_measures_of_the_pails_own_things_are_assumed() -> None:
    loaded = read(PAIL)
    assert loaded.project.assumed == ("closure", "ports.A.pail.wall", "panel")
    assert not any(word in " ".join(loaded.project.assumed) for word in ("shop", "dust", "noise", "blower", "filters"))


def test_what_is_measured_is_not_assumed() -> None:
    thick = "flange_thick: 6 mm, ring_height: 1 in, lid_thick: 4 mm, lid_height: 1/2 in"
    ring = (
        "closure: {flange: 13 in, lid: 12 in, land_outside: 10 in, land: 1/2 in, hook_hole: 5/8 in, hook_edge: 11 in,"
        f" {thick}}}\n"
    )
    pail = PAIL.replace("height: 14 in", "height: 14 in, wall: 2 mm")
    assert read(pail + ring + "panel: {stock: oak, thickness: 3/4 in}\n").project.assumed == ()


def test_a_whole_shop_stays_a_whole_shop() -> None:
    project = read_project((PROJECTS / "boatshed.yaml").read_bytes(), "boatshed.yaml").project
    assert type(project) is Project
    assert project.panel is None
    assert project.board is project.box.panel


@pytest.mark.parametrize("part", get_args(Part))
def test_every_key_that_brings_a_part_is_a_key_of_the_file(part: Part) -> None:
    assert set(BROUGHT_BY[part]) <= set(PROJECT.keys)
    assert list_missing(frozenset(), part) == BROUGHT_BY[part]
    assert list_missing(frozenset(BROUGHT_BY[part]), part) == ()


def test_the_keys_of_a_whole_shop_bring_every_part_but_the_openings_and_the_gauge_that_are_taken() -> None:
    assert set(WHOLE_KEYS) == set(BROUGHT_BY["air"]) | set(BROUGHT_BY["box"])


def test_a_file_with_nothing_to_make_is_told_what_it_may_begin_with() -> None:
    told = refuse("")
    assert "nothing can be made from this file yet" in told
    assert told.count("\n") == 0


def test_a_part_that_is_begun_alone_is_asked_for_the_rest_of_it_only() -> None:
    told = refuse("machines: [{name: planer, on: main, needs: 600 cfm, hood: {kind: plain, diameter: 5 in}}]\n")
    for key in ("blower", "ducts", "filters"):
        assert f"the key '{key}' is missing" in told
    assert "filter_box" not in told
    assert "ports" not in told


def test_a_box_asks_on_which_face_each_port_is_and_says_its_panel_itself() -> None:
    text = (
        (PROJECTS / "boatshed.yaml").read_text("utf-8").replace("kind: inspection, face: front,", "kind: inspection,")
    )
    with pytest.raises(BadProject) as caught:
        read_project((text + "\npanel: {stock: oak, thickness: 18 mm}\n").encode(), "boatshed.yaml")
    assert [one.found for one in caught.value.problems] == ["the key 'face' is missing", "the box says its own panel"]


BOX = """
shop: {ceiling: 9 ft}
filters: {count: 1, media_area: 200 ft2, outside: 12.7 in, bore: 9.4 in, height: 30 in, weight: 14 lb}
filter_box: {panel: {stock: birch plywood, thickness: 18 mm}, inlet: {face: left, diameter: 8 in}}
"""


def test_a_box_alone_assumes_a_pressure_by_name_and_nothing_of_its_air() -> None:
    """16 inH2O is above what the blowers of small shops make; 249.08891 Pa each."""
    project = read(BOX).project
    assert type(project) is Boxed
    assert project.box.most_pa == pytest.approx(16 * 249.08891)
    assert "filter_box.pressure" in project.assumed
    assert not [path for path in project.assumed if path.startswith(("dust", "noise", "shop", "blower"))]
    assert not [path for path in project.assumed if path.endswith(("residual", "permeability"))]
    assert [port.kind for port in project.ports] == ["filter", "inspection", "gauge"]


def test_a_box_alone_takes_the_pressure_of_the_file_or_of_the_blower_that_stands_in_it() -> None:
    said = read(BOX.replace("diameter: 8 in}}", "diameter: 8 in}, pressure: 11 inH2O}")).project
    assert said.box is not None
    assert said.box.most_pa == pytest.approx(11 * 249.08891)
    blower = (
        "blower: {outlet: 8 in, power: 3 hp, curve: [[0 cfm, 12 inH2O], [600 cfm, 9 inH2O], [1200 cfm, 2 inH2O]]}\n"
    )
    made = read(BOX + blower).project
    assert type(made) is Boxed
    assert made.box.most_pa == pytest.approx(12 * 249.08891)
    assert "filter_box.pressure" not in made.assumed


def test_a_box_asks_for_the_ceiling_it_hangs_under() -> None:
    assert "the key 'ceiling' is missing" in refuse(BOX.replace("{ceiling: 9 ft}", "{altitude: 40 ft}"))


def test_the_media_are_asked_for_where_air_goes_through_them() -> None:
    text = (PROJECTS / "boatshed.yaml").read_text("utf-8").replace("  media_area: 330 ft2\n", "")
    with pytest.raises(BadProject) as caught:
        read_project(text.encode(), "boatshed.yaml")
    assert [one.found for one in caught.value.problems] == ["the key 'media_area' is missing"]
    bench = PAIL + "filters: {count: 1, outside: 12 in, bore: 9 in, height: 30 in, weight: 14 lb}\n"
    assert read(bench).project.filters[0].outside_mm == pytest.approx(304.8)
