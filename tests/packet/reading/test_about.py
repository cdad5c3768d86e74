"""The word about: before any value, in lists and pairs, on both sides of at; it changes no value and names its own."""

from __future__ import annotations

from pathlib import Path

import pytest

from packet.reading.load import BadProject, Loaded, load_project, read_project

SMALLEST = (Path(__file__).parents[3] / "projects" / "minimal.yaml").read_text(encoding="utf-8")


def load(*changes: tuple[str, str]) -> Loaded:
    text = SMALLEST
    for before, after in changes:
        assert before in text
        text = text.replace(before, after)
    return read_project(text.encode("utf-8"), "shop.yaml")


PLAIN = load()
CHANGES = [
    (("ceiling: 9 ft 6 in", "ceiling: about 9 ft 6 in"), "shop.ceiling"),
    (("ceiling: 9 ft 6 in", "ceiling: 'About  9 ft 6 in'"), "shop.ceiling"),
    (("needs: 400 cfm", "needs: about 400 cfm"), "machines.needs"),
    (("gate: 5 in", "gate: about 5 in"), "machines.gate.diameter"),
    (("hood: plain", "hood: about plain"), "machines.hood.kind"),
    (("[300 cfm, 7 inH2O]", "[300 cfm, about 7 inH2O]"), "blower.curve"),
    (("[300 cfm, 7 inH2O]", "[about 300 cfm, about 7 inH2O]"), "blower.curve"),
    (("{hose: 5 in, length: 5 ft}", "{hose: 5 in, length: about 5 ft}"), "machines.pieces[0].length"),
    (("count: 1,", "count: about 1,"), "filters.count"),
    (("helper: yes", "helper: about yes"), "shop_methods.helper"),
]


@pytest.mark.parametrize(("change", "path"), CHANGES)
def test_about_changes_no_value_and_names_it(change: tuple[str, str], path: str) -> None:
    guessed, plain = load(change).project, PLAIN.project
    assert guessed.assumed.count(path) == 1
    assert path not in plain.assumed
    assert set(guessed.assumed) - {path} == set(plain.assumed)
    assert {key: value for key, value in vars(guessed).items() if key != "assumed"} == {
        key: value for key, value in vars(plain).items() if key != "assumed"
    }


@pytest.mark.parametrize(
    ("key", "typed", "plain"),
    [
        ("doorway", "about 32 x 80 in", "32 x 80 in"),
        ("doorway", "32 x about 80 in", "32 x 80 in"),
        ("doorway", "about 32 in x about 80 in", "32 x 80 in"),
    ],
)
def test_either_side_of_a_size_may_be_a_guess(key: str, typed: str, plain: str) -> None:
    first, second = (load(("shop: {", f"shop: {{{key}: {said}, ")).project for said in (typed, plain))
    assert first.shop == second.shop
    assert f"shop.{key}" in first.assumed
    assert f"shop.{key}" not in second.assumed


@pytest.mark.parametrize("typed", ["about 2 inH2O at 800 cfm", "2 inH2O at about 800 cfm", "2 inH2O @ about 800 cfm"])
def test_either_side_of_at_may_be_a_guess(typed: str) -> None:
    project = load(("blower: ", f"separator: {{kind: cyclone, loss: {typed}}}\nblower: ")).project
    assert project.separator.loss_at_m3s == pytest.approx(800 * 0.3048**3 / 60)
    assert "separator.loss" in project.assumed


def test_a_text_of_ones_own_may_begin_with_about() -> None:
    project = load(("title: Smallest collector (invented)", "title: about face")).project
    assert project.title.title == "about face"
    assert project.assumed == PLAIN.project.assumed


def test_what_is_written_as_a_guess_is_echoed_as_typed() -> None:
    assert load(CHANGES[0][0]).echo["shop.ceiling"] == "about 9 ft 6 in"


def test_lines_told_for_the_old_list_load_and_mark_the_same_values() -> None:
    """What the message says to write is written, and the file is then read, with just those values marked."""
    lists = SMALLEST + "assumed: [shop, machines.pieces, blower.power, shop.humidity]\n"
    with pytest.raises(BadProject) as caught:
        read_project(lists.encode("utf-8"), "shop.yaml")
    (problem,) = caught.value.problems
    assert problem.path == "assumed"
    lines = SMALLEST.splitlines()
    for told in problem.lines:
        number, _, line = told.removeprefix("line ").partition(": ")
        lines[int(number) - 1] = line
    guessed = read_project("\n".join(lines).encode("utf-8"), "shop.yaml").project
    assert set(guessed.assumed) - set(PLAIN.project.assumed) == {
        "shop.ceiling", "blower.power", "machines.pieces[0].hose", "machines.pieces[0].length",
    }  # fmt: skip


def test_the_samples_hold_no_list_and_mark_their_guesses() -> None:
    cart = load_project(Path(__file__).parents[3] / "projects" / "cart.yaml").project
    assert {"blower.rating.free_flow", "blower.rating.shut_off"} <= set(cart.assumed)
