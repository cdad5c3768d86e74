"""What the packet says twice it says alike: read back from finished packets, of samples and of shops that are none."""

from __future__ import annotations

import dataclasses
import io
import re
from functools import cache

import pytest
from pypdf import PdfReader

from calc.measures.marking import write_mark
from packet.job import Job
from packet.pages.helper import write_helper_pdf
from packet.words.safe_work import BLOW_AT_MOST, CHECK_WITHIN, RESPIRATOR
from tests.shop import finish_job, load_job, write_pages

SAMPLES = ("boatshed", "cart")
SECTIONS = ("cover", "print-check", "report", "bill", "cuts", "gauge", "steps", "cautions", "commissioning", "as-built",
            "maintenance", "worked", "labels")  # fmt: skip


@cache
def make_odd() -> Job:
    """Return a shop like no sample: no separator, a bare box, one who works alone, oil in the gauge."""
    project = load_job("boatshed").project
    return finish_job(
        dataclasses.replace(
            project,
            separator=dataclasses.replace(project.separator, kind="none"),
            lining=None,
            methods=dataclasses.replace(project.methods, helper=False),
            gauge=dataclasses.replace(project.gauge, fluid="light oil"),
        )
    )


def get_job(name: str) -> Job:
    return make_odd() if name == "odd" else load_job(name)


@cache
def read_packet(name: str) -> str:
    """Return the words of a finished packet, one space between any two."""
    data, _ = write_pages(get_job(name), SECTIONS)
    return " ".join(" ".join(page.extract_text() for page in PdfReader(io.BytesIO(data)).pages).split())


@cache
def read_helper(name: str) -> str:
    stream = io.BytesIO()
    write_helper_pdf(get_job(name), stream)
    return " ".join(" ".join(page.extract_text() for page in PdfReader(stream).pages).split())


@pytest.mark.parametrize("name", [*SAMPLES, "odd"])
def test_a_value_that_stands_twice_is_the_same(name: str) -> None:
    job, text = get_job(name), read_packet(name)
    steps = {step.id: step for step in job.plan.steps}
    # print check: the step asks for a rule that is there, as true as the page wants it
    check = steps["read_cautions"].holds[0]
    assert CHECK_WITHIN[job.reader.system] in check.tolerance
    assert f"rules within {CHECK_WITHIN[job.reader.system]}" in text
    # screws: the widest pitch of the cut list; the steps' counts add up to its count
    count, apart = re.search(r"Box screws: (\d+).{0,120}? at most ([\d/-]+ \w+)\s+apart", text).groups()  # type: ignore[union-attr]
    flat = [use for step in steps.values() for use in step.parts if "flat head screws, " in use.name]
    # those of rails, cleats and cart are counted by themselves there
    told = [
        use
        for use in flat
        if not re.search("into the rails|through the cleats", use.name) and "for the cart" not in use.name
    ]
    assert sum(int(use.amount.split(",")[0]) for use in told) == int(count)
    assert any(apart in line.text for line in steps["assemble_box"].lines) or apart in str(told)
    # the underside: step, drawing, form and elevation by one rounding
    if job.project.box.hung != "cart":
        underside = write_mark(job.design.stack.box_bottom_mm, job.reader)
        hold = next(hold for step in steps.values() for hold in step.holds if hold.what == "Floor to underside")
        assert hold.value == underside
    # all that is stamped as assumed is in the list of the report
    if any("gasket" in part.name and part.assumed for part in job.design.flat_parts):
        assert "gasket inside" in text


@pytest.mark.parametrize("name", [*SAMPLES, "odd"])
def test_safe_work_is_said_once(name: str) -> None:
    job, text = get_job(name), read_packet(name)
    assert set(re.findall(r"\b(?:N95|FFP2|P100|FFP3)\b", text)) == set(re.findall(r"\w+", RESPIRATOR))
    assert text.count(BLOW_AT_MOST[job.reader.system]) >= 2  # step and maintenance
    assert "eyes" in job.plan.get_step("first_cleaning").cautions
    assert not re.search(r"incense|arm's length away|hand's width, never|near[s]? the lid", text + read_helper(name))
    assert not re.search(r"(?:quarters?|thirds?) full\b", text)
    assert text.count("half full") >= 4  # cautions, maintenance, report, labels: one level
    assert not re.search(r"\bbags?\b[^.]{0,12}\bdust\b|[Ee]mpty the pail into a bag", text)


def test_who_works_alone_is_not_planned_for_two() -> None:
    text, helper = read_packet("odd"), read_helper("odd")
    assert "For two people, day by day" not in text
    assert "two people about" not in text
    numbers = re.search(r"Get a second person for step ([\d, ]+): it takes two", text)
    assert numbers
    assert numbers[1] == ", ".join(str(step.number) for step in make_odd().plan.steps if not step.alone)
    assert [step.id for step in make_odd().plan.helper.steps] == ["mount_wall"]
    assert "Cut the gasket rings" not in helper


def test_what_a_shop_has_not_is_not_named() -> None:
    text = read_packet("odd")
    assert "separator bin" not in text
    assert "into separator" not in text
    assert "at the separator" not in text
    assert "lined box" not in text
    assert "Taken away by the lining" not in text
    assert "Lining fast" not in text
    assert "soap does no harm" not in text


def test_gates_that_may_be_open_together_are_labelled_so() -> None:
    text = read_packet("boatshed")
    assert "Open alone, or with jointer." in text
    assert "Open alone, or with band saw." in text


def test_the_leak_hunt_names_the_gauge_that_can_tell_it() -> None:
    assert re.search(r"at most 0\.\d+ inH2O on the sloping-tube gauge", read_packet("boatshed"))


@pytest.mark.parametrize("name", SAMPLES)
def test_pails_are_measured_before_templates_are_printed_and_cut(name: str) -> None:
    steps = {step.id: step.number for step in load_job(name).plan.steps}
    assert steps["measure_pails"] < steps["cut_templates"]


def test_the_gauge_is_filled_with_one_amount() -> None:
    job, text = load_job("boatshed"), read_packet("boatshed")
    amount = re.search(
        r"about ([\d.]+ fl oz) in all", " ".join(line.text for line in job.plan.get_step("build_gauge").lines)
    )
    assert amount
    assert text.count(amount[1]) == 3  # step, bill, card
    assert not re.search(r"\d mL", text)


def test_no_clip_hides_still_air() -> None:
    from calc.gauges.cards import LEG_GAP_MM
    from calc.gauges.gauge_board import CLIP_CLEAR_MM, design_wall_board

    for name in ("boatshed", "cart", "schoolroom", "outdoor"):
        for card in load_job(name).gauge.boards:
            board = design_wall_board(card, LEG_GAP_MM)
            away = [abs(up - board.zero_up_mm) if board.slope == 1.0 else across for across, up in board.clips]
            assert min(away) >= CLIP_CLEAR_MM - 1e-6
