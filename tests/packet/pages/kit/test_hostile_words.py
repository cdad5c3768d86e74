"""Hostile text in every free-text field of a project: printed as typed, nothing opened, nothing crashes."""

from __future__ import annotations

import dataclasses
import re
import sys

import pypdfium2
import pytest

from calc import project as p
from packet.draw.fonts import clean_text
from tests.shop import finish_job, make_project, write_pages

TRAP = '<img src="/etc/hostname" width="9" height="9"/>'
OPENED: list[str] = []


def _watch(event: str, words: tuple[object, ...]) -> None:
    if event == "open" and str(words[0]) == "/etc/hostname":
        OPENED.append(event)


def make_hostile() -> p.Project:
    """Return the sample with a trap, an ampersand, an entity or a strange letter in each word the user chooses."""
    base = make_project()
    runs = {"trunk": "<b>trunk", "north": "S&P north", "south": "x<y>z"}
    ports = ("&lt;A&gt;", "R&D <A>", TRAP, "</para> Łódź ⅜")
    machines = tuple(
        dataclasses.replace(m, name=name, on=runs[m.on])
        for m, name in zip(
            base.machines, ("saw <i>1", "R&D planer", "0.1 <A <0.9", "Δ‑sander\tx", "joint{er} {0} %s"), strict=True
        )
    )
    return dataclasses.replace(
        base,
        title=dataclasses.replace(
            base.title,
            title=f"S&P <shop> {TRAP}",
            drawn_by="A&B </para>",
            revision="<B>",
            notes=("gap <A> & seal", "z" * 300),
        ),
        runs=tuple(dataclasses.replace(r, name=runs[r.name], into=runs.get(r.into, r.into)) for r in base.runs),
        machines=machines,
        ports=tuple(dataclasses.replace(port, name=name) for port, name in zip(base.ports, ports, strict=True)),
        filters=tuple(dataclasses.replace(f, name="<filter>&", grade="<g>&amp;") for f in base.filters),
        gate_sets=(p.GateSet("both <&>", (machines[0].name, machines[1].name)),),
        box=dataclasses.replace(base.box, panel=dataclasses.replace(base.box.panel, stock="birch plywood")),
        noise=p.Noise(others=(p.NoiseSource("radio <&>", 70.0),)),
        buy_at={"birch plywood": "Yard <&> {Co}"},
        money="<$>",
    )


@pytest.fixture(scope="module")
def words() -> str:
    sys.addaudithook(_watch)
    data, _ = write_pages(finish_job(make_hostile()))
    return " ".join(page.get_textpage().get_text_bounded() for page in pypdfium2.PdfDocument(data))


@pytest.mark.parametrize(
    "typed",
    [
        "S&P <shop>", "A&B </para>", "gap <A> & seal", "S&P north", "x<y>z", "R&D planer", "0.1 <A <0.9", "both <&>",
        "R&D <A>", "&lt;A&gt;", "joint{er} {0} %s", "saw <i>1", "Yard <&> {Co}",
    ],
)  # fmt: skip
def test_it_is_printed_as_typed(words: str, typed: str) -> None:
    assert _squeeze(clean_text(typed)) in _squeeze(words)


def test_a_trap_is_printed_and_opens_nothing(words: str) -> None:
    assert _squeeze("/etc/hostname") in _squeeze(words)
    assert not OPENED


def test_nothing_is_escaped_twice(words: str) -> None:
    assert "&amp;lt;" not in words
    assert "&amp;S" not in words
    assert "S&P;" not in words


def _squeeze(text: str) -> str:
    return re.sub(r"\s+", "", text)
