"""Reading a project file: YAML's own traps, aliases, warnings, places and the user's spellings."""

from __future__ import annotations

from pathlib import Path

import pytest

from calc.project import Project
from packet.reading.context import Where, count_place
from packet.reading.load import BadProject, Loaded, load_project, read_project
from tests.packet.steps_taken import count_events

PROJECTS = Path(__file__).parents[3] / "projects"
MINIMAL = (PROJECTS / "minimal.yaml").read_text(encoding="utf-8")


def load_text(text: str) -> Loaded:
    return read_project(text.encode("utf-8"), "shop.yaml")


def load_with(**changed: str) -> Loaded:
    """Load the smallest project with some of its top keys said otherwise."""
    lines = [line for line in MINIMAL.splitlines() if line.split(":")[0] not in changed]
    return load_text("\n".join([*lines, *(f"{key}: {value}" for key, value in changed.items())]))


# --- YAML 1.1 words (YAML 1.1 type repository: bool, int base 8 and 60, timestamp) stay what was typed ----------------


def test_y1_norway_words_stay_text_in_a_name_and_are_read_in_a_yes_no() -> None:
    machine = "{name: NO, on: main, needs: 450 cfm, pieces: [{hose: 5 in, length: 5 ft}]}"
    project = load_with(machines=machine, shop="{ceiling: 9 ft, flued_appliance: off}").project
    assert project.machines[0].name == "NO"
    assert project.machines[0].on == "main"  # the key itself is such a word
    assert project.shop.flued_appliance == "none"
    assert load_with(lining="none").project.lining is None


def test_y2_base_60_is_a_ratio_and_never_72() -> None:
    assert load_with(gauge="{kind: inclined, slope: 1:12}").project.gauge.slope == pytest.approx(1 / 12)


def test_y3_leading_zeros_and_trailing_zeros_stay() -> None:
    title = "{title: 0123, revision: 1.10, date: 2024-05-01}"
    project = load_with(project=title).project
    assert (project.title.title, project.title.revision) == ("0123", "1.10")
    assert project.title.date.isoformat() == "2024-05-01"


def test_y4_merge_keys_still_work_and_the_files_own_key_wins() -> None:
    first = "{name: A, kind: filter, face: bottom, pail: 11.8 in}"
    text = f"ports:\n- &a {first}\n- {{<<: *a, name: B, kind: gauge, face: front}}\n"
    ports = load_text(MINIMAL + text).project.ports
    assert [(port.name, port.kind, port.face) for port in ports] == [("A", "filter", "bottom"), ("B", "gauge", "front")]
    assert ports[1].pail.across_mm == pytest.approx((11.8 * 25.4,))


def test_y5_inch_marks_inside_a_value_are_lengths() -> None:
    shop = load_with(shop="""{ceiling: 8'6", doorway: 36" x 80"}""").project.shop
    assert shop.ceiling_mm == pytest.approx(102 * 25.4)  # 8 ft 6 in
    assert shop.doorway_width_mm == pytest.approx(36 * 25.4)


def test_y5_what_a_hash_cuts_off_is_said() -> None:
    loaded = load_text(MINIMAL + 'money: 6" #10 screws\n')
    assert len(loaded.warnings) == 1
    assert "text after # is dropped: '#10 screws'" in loaded.warnings[0]
    assert load_text(MINIMAL + "money: USD # of today\n").warnings == ()


def test_y6_a_tab_inside_a_text_is_a_space() -> None:
    assert load_with(project="{title: 'a\tb', date: 2026-01-05}").project.title.title == "a b"


def test_y7_many_references_load_at_once_and_a_bomb_is_refused_at_once() -> None:
    bomb = (Path(__file__).parent / "bad" / "alias_bomb.yaml").read_bytes()
    with count_events() as steps, pytest.raises(BadProject, match="more than 30,000 values"):
        read_project(bomb, "bomb.yaml")
    assert steps.taken < 500  # it is never written out


def test_y8_byte_order_mark_and_other_line_ends_are_fine() -> None:
    plain = load_text(MINIMAL).project
    assert read_project(b"\xef\xbb\xbf" + MINIMAL.encode(), "x").project == plain
    assert read_project(MINIMAL.replace("\n", "\r\n").encode(), "x").project == plain
    assert read_project(MINIMAL.replace("\n", "\r").encode(), "x").project == plain
    assert read_project(MINIMAL.encode("utf-16"), "x").project == plain


def test_y8_a_no_break_space_inside_a_value_is_a_space() -> None:
    assert load_with(shop="{ceiling: 9\u00a0ft}").project.shop.ceiling_mm == pytest.approx(9 * 304.8)


# --- short forms, defaults, assumptions -------------------------------------------------------------------------------


def test_a_single_filter_and_a_list_of_one_are_the_same() -> None:
    filters = MINIMAL.split("filters: ")[1].split("\n")[0]
    assert load_with(filters=f"[{filters}]").project.filters == load_text(MINIMAL).project.filters


def test_short_forms_mean_the_long_ones() -> None:
    tail = "name: saw, on: main, needs: 450 cfm, pieces: [{hose: 5 in, length: 5 ft}]"
    short = load_with(machines=f"[{{{tail}, gate: 6 in, hood: flanged, join: straight}}]").project
    long = load_with(
        machines=f"[{{{tail}, gate: {{diameter: 6 in}}, hood: {{kind: flanged, diameter: 5 in}}, join: straight}}]"
    )
    assert short.machines == long.project.machines
    assert short.machines[0].join.kind == "straight"


def test_two_pickups_on_one_machine() -> None:
    machine = load_project(PROJECTS / "boatshed.yaml").project.get_machine("table saw")
    assert [pickup.name for pickup in machine.pickups] == ["cabinet", "blade guard"]
    assert machine.pickups[0].hood.opening_m2 == pytest.approx(26 * 0.0254**2)
    assert machine.pickups[1].hood.diameter_m == pytest.approx(3 * 0.0254)


def test_one_closure_for_all_ports_with_an_exception() -> None:
    ports = (
        "[{name: A, kind: filter, face: bottom, pail: 11.8 in},"
        " {name: hand, kind: inspection, face: front, pail: 11.8 in, closure: {screws: 6}}]"
    )
    project = load_with(closure="{lid: 12 in, screws: 10}", ports=ports).project
    assert [port.closure.screws for port in project.ports] == [10, 6]
    assert [port.closure.lid_mm for port in project.ports] == pytest.approx([304.8, 304.8])
    assert "closure" not in project.assumed


def test_what_is_not_said_is_marked_assumed_and_what_is_said_is_not() -> None:
    smallest = load_with(dust="{hours_a_day: 1 h}").project
    assert {"shop.altitude", "ports", "closure", "dust.made", "filters.permeability"} <= set(smallest.assumed)
    assert "dust.made" not in load_text(MINIMAL).project.assumed, "the smallest file says it"
    told = load_with(shop="{ceiling: 9 ft, altitude: 40 ft}", dust="{made: 5 lb/h}").project
    assert not {"shop.altitude", "dust.made"} & set(told.assumed)
    assert "shop.humidity" in told.assumed


def test_left_out_ports_are_one_a_filter_one_to_reach_in_one_for_the_gauge() -> None:
    kinds = [port.kind for port in load_text(MINIMAL).project.ports]
    assert kinds == ["filter", "inspection", "gauge"]


def test_paper_follows_the_units_when_the_file_does_not_say() -> None:
    assert load_text(MINIMAL).project.display.paper.name == "letter"
    assert load_with(display="metric").project.display.paper.name == "a4"
    for spelling in ("letter", "Letter", "us-letter", "A4", "a4"):
        assert load_with(display=f"{{paper: {spelling}}}").project.display.paper.name in ("letter", "a4")


def test_rating_draws_a_curve_between_its_two_ends_and_says_so() -> None:
    rating = "{free_flow: 1500 cfm, shut_off: 10 inH2O, assume_curve: yes}"
    blower = load_with(blower=f"{{outlet: 6 in, power: 2 hp, rating: {rating}}}").project.blower
    assert blower.from_rating
    assert blower.curve[0].flow_m3s == 0
    assert blower.curve[-1].flow_m3s == pytest.approx(1500 * 0.3048**3 / 60)
    assert blower.curve[-1].pressure_pa == 0


def test_echo_and_lines_are_kept_by_the_name_of_the_thing() -> None:
    loaded = load_project(PROJECTS / "boatshed.yaml")
    assert loaded.echo["ports.filter A.pail.across[0]"] == "11-27/32 in"
    line = loaded.line_of["machines.planer.needs"]
    assert loaded.lines[line - 1].strip() == "needs: 650 cfm"


def test_absurd_but_legal_values_warn_with_the_usual_range_and_its_source() -> None:
    curve = "[[0 cfm, 9 inH2O], [700 cfm, 6 inH2O], [1100 cfm, 1 inH2O]]"
    loaded = load_with(blower=f"{{outlet: 6 in, power: 40 hp, curve: {curve}}}")
    (warning,) = loaded.warnings
    assert warning.endswith(
        "blower.power: '40 hp' is unusual; usual is 1/2 hp to 15 hp (common practice, no source)"
    ) or ("0.5 hp to 15 hp (common practice, no source)" in warning)
    assert warning.startswith("line ")


def test_a_humped_curve_is_allowed_with_a_warning() -> None:
    curve = "[[0 cfm, 8 inH2O], [300 cfm, 9 inH2O], [1100 cfm, 1 inH2O]]"
    loaded = load_with(blower=f"{{outlet: 6 in, power: 2 hp, curve: {curve}}}")
    assert "rises before it falls" in loaded.warnings[0]


def test_markup_and_odd_signs_in_text_are_kept_as_typed() -> None:
    title = "'<b>&\"x\" </para> {{ 7*7 }} %s \\\\ =cmd|calc Łódź'"
    assert load_with(project=f"{{title: {title}, date: 2026-01-05}}").project.title.title == title.strip("'")


# --- files ------------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("name", "said"),
    [
        ("boatshd.yaml", "there is no such file; did you mean '{near}'?"),
        ("", "this is a folder; expected a project file"),
    ],
)
def test_a_file_that_is_not_there(name: str, said: str) -> None:
    with pytest.raises(BadProject) as caught:
        load_project(PROJECTS / name)
    assert said.format(near=PROJECTS / "boatshed.yaml") in str(caught.value)


def test_a_device_is_not_read() -> None:
    with pytest.raises(BadProject, match="this is not a plain file"):
        load_project("/dev/zero")


def test_a_name_with_a_nul_is_one_clean_line() -> None:
    with pytest.raises(BadProject, match="cannot be read"):
        load_project("a\0b.yaml")


def test_a_huge_file_is_refused_before_it_is_parsed(tmp_path: Path) -> None:
    path = tmp_path / "huge.yaml"
    path.write_bytes(b"- x\n" * 600_000)
    with pytest.raises(BadProject, match=r"1,000,001 bytes; expected at most 1,000,000 bytes"):
        load_project(path)


def test_a_hundred_thousand_items_are_refused_at_the_first_too_many() -> None:
    with count_events() as steps, pytest.raises(BadProject, match="more than 30,000 values"):
        read_project(b"link: [" + b"a," * 100_000 + b"]", "long.yaml")
    assert steps.taken < 30_010


def test_loading_is_the_same_twice() -> None:
    first, second = (load_project(PROJECTS / "boatshed.yaml") for _ in range(2))
    assert isinstance(first.project, Project)
    assert first == second
    assert len(first.digest) == 12


def test_a_metric_reader_is_told_a_missing_unit_in_metres() -> None:
    metric = MINIMAL.replace("shop:", "display: metric\nshop:", 1).replace("length: 12 ft", "length: 12")
    with pytest.raises(BadProject, match="write '12 m'"):
        read_project(metric.encode(), "shop.yaml")


@pytest.mark.parametrize(
    ("number", "place"), [(0, "1st"), (1, "2nd"), (2, "3rd"), (3, "4th"), (10, "11th"), (20, "21st")]
)
def test_items_are_counted_as_people_count(number: int, place: str) -> None:
    assert count_place(number) == place
    assert Where("ports", "ports").item(number) == Where(f"ports[{place}]", f"ports[{number}]")
    assert Where("ports", "ports").item(number, "filter A").path == "ports.filter A"
    assert Where("ports", "ports").item(number, "x" * 31).path == f"ports[{place}]"
