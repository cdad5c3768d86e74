"""The one table of needs: complete, and what is made of a job with some parts says nothing of the others."""

from __future__ import annotations

import io
import math
import re
from collections.abc import Mapping
from functools import cache
from pathlib import Path

import pypdf
import pytest

from calc.cutting.templates import is_printed
from packet.build.outputs import OUTPUTS
from packet.cli.cli import main
from packet.job import BoxJob, GaugeJob, work_out_job
from packet.pages.kit.sections import SECTIONS as PAGES
from packet.pages.kit.sections import list_sections, pick_sections
from packet.pages.packet_pages import write_packet
from packet.parts import CAUTIONS, FILES, NOTHING, PAILS, SECTIONS, STEPS, TERMS, WHOLE, Need, either, need
from packet.reading.load import load_project, read_project
from packet.reading.parts import list_missing
from packet.words.languages import list_languages
from packet.words.reader import list_files
from packet.words.word_files import load_file
from packet.work.fact_names import FACT_NAMES, list_fact_names
from packet.work.facts import gather_facts
from tests.shop import PROJECTS, load_job, make_job

PARTIAL = ("pails", "machine", "ducts", "box", "gauge", "readings")
"""Samples in projects/ that leave parts out."""


@cache
def read_pages(name: str) -> tuple[str, ...]:
    """Return the words of each page of a sample's packet."""
    stream = io.BytesIO()
    write_packet(load_job(name), stream)
    return tuple(page.extract_text() for page in pypdf.PdfReader(stream).pages)


# --- the table --------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("table", "there"),
    [
        (SECTIONS, {section.key for section in PAGES}),
        (FILES, {output.name for output in OUTPUTS}),
        (STEPS, set(list_files("steps"))),
        (CAUTIONS, set(list_files("cautions"))),
    ],
    ids=["sections", "files", "steps", "cautions"],
)
def test_the_table_names_all_there_is_and_nothing_else(table: Mapping[str, Need], there: set[str]) -> None:
    assert set(table) == there


def test_the_terms_stand_in_the_order_of_the_glossary_in_every_language() -> None:
    top = [line.split(" | ")[0] for line in load_file("glossary.md").body.splitlines() if " | " in line]
    assert list(TERMS) == top
    for language in list_languages().values():
        lines = load_file("glossary.md", language.folder).body.splitlines()
        assert sum(" | " in line for line in lines) == len(TERMS), language


def test_a_need_is_met_by_its_parts_alone() -> None:
    assert NOTHING.is_met(frozenset())
    assert need("air", "box").is_met(WHOLE)
    assert not need("air", "box").is_met(frozenset({"air", "pails"}))
    assert either("air", "box").is_met(frozenset({"box"}))
    assert not either("air", "box").is_met(frozenset({"pails"}))


@pytest.mark.parametrize("name", ["pails", "ducts", "boatshed"])
def test_every_section_that_a_job_is_given_has_a_story(name: str) -> None:
    """What a page takes is held by the type checker; a section of the table that its page refuses would be empty."""
    stream = io.BytesIO()
    pages = write_packet(load_job(name), stream)
    assert set(pages.sections) == {section.key for section in pick_sections(None, load_job(name).has)}


def test_a_whole_shop_has_every_section_with_its_own_number() -> None:
    assert list_sections(WHOLE) == PAGES == pick_sections(None)


def test_sections_are_numbered_without_a_gap() -> None:
    numbers = [section.number for section in list_sections(frozenset({"pails"})) if section.number]
    assert numbers == [str(number) for number in range(1, len(numbers) + 1)]


def test_the_names_of_facts_are_those_that_the_parts_bring() -> None:
    job, pails = make_job(), load_job("pails")
    whole = set(gather_facts(job.project, job.sizing, job.gauge, job.design))
    assert whole == set(list_fact_names())
    assert len(list_fact_names()) == len(whole)
    bench = set(gather_facts(pails.project, pails.sizing, pails.gauge, pails.design))
    assert bench == {*FACT_NAMES[None], *FACT_NAMES["pails"]}


# --- nothing of what is left out --------------------------------------------------------------------------------------

OF_AIR = r"inH2O|\bcfm\b|\bfpm\b|\bPa\b|blower|\bgates?\b|\bducts?\b|machine worst|cyclone|transport|plenum|collector"
OF_PAILS = r"\bpails?\b|\bcollars?\b|screw lid|wrap strip"
OF_GAUGE = r"\bgauge|clean me|manometer|U-tube"
OF_BOX = r"filter box|\bceiling\b|\bstud|\bhang|\blining\b|inlet|\bpanels\b \d|plywood sheet|removable|\brib\b"
OF_FLOW = r"\bcfm\b|\bfpm\b|\bgates?\b(?! closed)|machine worst|cyclone|transport|sizing|start-up|planer"
OF_CUTTING = r"\bcollars?\b|screw lid|wrap strip|made of pails"
"""How a standing box is kept speaks of its pails."""
OF_SIZING = r"\bcfm\b|\bfpm\b|m³/h|machine worst|transport|commissioning|\bpanels? \d|lining|ceiling|filter cartridge"
ALONE = r"(?<!duct or )\bbox\b(?! of 100)|\bpanels? \d|\blined\b|removable|rabbet"
LEFT_OUT = {"pails": (OF_AIR, OF_GAUGE, OF_BOX), "machine": (OF_AIR, OF_GAUGE, OF_BOX),
            "ducts": (OF_PAILS, ALONE), "box": (OF_FLOW, OF_GAUGE),
            "gauge": (OF_SIZING, OF_CUTTING), "readings": (OF_SIZING, OF_CUTTING)}  # fmt: skip
"""What the packet of a sample must not speak of. The report of the air tells what a gauge would read, built or not."""


def drop_left_out(text: str) -> str:
    """Return the words of a cover without the block that names what is left out."""
    return re.sub(r"Left out, and the lines.*?(?=NOTICE)", "", text, flags=re.DOTALL)


@pytest.mark.parametrize("name", PARTIAL)
def test_nothing_of_a_part_that_is_left_out_is_printed(name: str) -> None:
    job = load_job(name)
    papers = [drop_left_out(page) for page in read_pages(name)]
    stream = io.BytesIO()
    from packet.files.helper_html import write_helper_html
    from packet.pages.helper import write_helper_pdf

    write_helper_pdf(job, stream)
    papers += [page.extract_text() for page in pypdf.PdfReader(stream).pages]
    papers.append(re.sub(r"<style.*?</style>|<script.*?</script>", "", write_helper_html(job), flags=re.DOTALL))
    papers += [f"{line.item} {line.detail} {line.where_used}" for line in job.bill.lines]
    for words in LEFT_OUT[name]:
        for number, paper in enumerate(papers):
            found = re.search(words, paper, re.IGNORECASE)
            assert found is None, (number, found, paper[max(found.start() - 60, 0) : found.end() + 60])


def test_the_words_that_are_looked_for_stand_in_the_packet_of_a_whole_shop() -> None:
    text = " ".join(read_pages("boatshed"))
    for words in (OF_AIR, OF_GAUGE, OF_BOX):
        assert re.search(words, text, re.IGNORECASE)


# --- what a partial packet holds --------------------------------------------------------------------------------------


def test_pails_alone_are_made_whole() -> None:
    """Three pails: a hole, a strip and a card each, one filter lid design, one plain lid; no board of a gauge."""
    job = load_job("pails")
    assert job.has == {"pails"}
    assert (job.sizing, job.gauge) == (None, None)
    kinds = [part.kind for part in job.design.flat_parts]
    assert [kinds.count(kind) for kind in ("hole", "wrap strip", "test card", "filter lid")] == [3, 6, 3, 1]
    assert not {"gauge board", "gauge bracket", "gauge lid", "gasket", "panel"} & set(kinds)
    steps = [step.id for step in job.plan.steps]
    assert steps.index("mark_collars") < steps.index("cut_collars") < steps.index("cut_holes_jigsaw")
    assert steps[-1] in ("trim_flush", "dress_lids")
    assert [section.key for section in pick_sections(None, job.has)] == [
        "cover", "contents", "print-check", "report", "bill", "circles", "steps", "cautions", "templates",
    ]  # fmt: skip


def test_air_alone_is_sized_as_in_a_whole_shop() -> None:
    """The boatshed's ducts end in the filters as they are: the box's own inlet was as wide, so the air is the same."""
    alone, shop = load_job("ducts"), load_job("boatshed")
    assert alone.has == {"air"}
    assert alone.design.flat_parts == ()
    assert alone.sizing is not None
    assert shop.sizing is not None
    flows = [[one.get_machine(one.open[0]).flow.best for one in sizing.scenarios if one.kind == "alone"]
             for sizing in (alone.sizing, shop.sizing)]  # fmt: skip
    assert flows[0] == pytest.approx(flows[1], rel=0.01)
    assert [section.key for section in pick_sections(None, alone.has)] == [
        "cover", "contents", "print-check", "report", "bill", "steps", "cautions", "worked", "labels",
    ]  # fmt: skip
    steps = [step.id for step in alone.plan.steps]
    assert steps.index("lock_out") < steps.index("run_ducts") < steps.index("bond_ducts") < steps.index("start_up")
    assert not {"cut_panels", "hang_filters", "leak_test", "cut_collars", "build_gauge"} & set(steps)
    assert "ladders" in {caution.id for caution in alone.plan.cautions}


def test_the_noise_of_air_alone_is_that_of_the_collector() -> None:
    """Nothing stands between blower and ear: no band is taken away. 86 dB at 5 ft is at 8 ft less 3 dB a doubling."""
    job = load_job("ducts")
    assert job.sizing is not None
    assert job.sizing.sound is not None
    assert job.sizing.sound.quieter.best == pytest.approx(0.0, abs=1e-9)
    assert job.sizing.sound.after.level_db == pytest.approx(86.0 - 10 * math.log10(8 / 5), abs=0.01)


def test_a_box_alone_is_made_as_that_of_a_whole_shop() -> None:
    """The boatshed's box under 15 inH2O as the file says, which its blower makes too: the same panels and places."""
    alone, shop = load_job("box"), load_job("boatshed")
    assert alone.has == {"pails", "box"}
    assert (alone.sizing, alone.gauge) == (None, None)
    assert isinstance(alone, BoxJob)
    assert isinstance(shop, BoxJob)
    sizes = [{part.name: (part.width_mm, part.height_mm) for part in job.design.parts if part.kind == "panel"}
             for job in (alone, shop)]  # fmt: skip
    assert sizes[0] == sizes[1]
    worst = 15 * 249.08891
    assert [panel.worst_pa for panel in alone.design.strength.panels] == pytest.approx([worst] * 6)
    assert [section.key for section in pick_sections(None, alone.has)] == [
        "cover", "contents", "print-check", "report", "bill", "cuts", "drawings", "circles", "steps", "cautions",
        "templates",
    ]  # fmt: skip
    steps = [step.id for step in alone.plan.steps]
    assert steps.index("cut_panels") < steps.index("assemble_box") < steps.index("mount_wall") < len(steps)
    assert not {"lock_out", "run_ducts", "connect_inlet", "build_gauge", "start_up"} & set(steps)


@pytest.mark.parametrize("name", ["gauge", "readings"])
def test_a_gauge_for_readings_is_made_whole(name: str) -> None:
    job = load_job(name)
    assert job.has == {"gauge"}
    assert isinstance(job, GaugeJob)
    assert {part.kind for part in job.design.flat_parts} == {"gauge board", "gauge bracket"}
    assert [section.key for section in pick_sections(None, job.has)] == [
        "cover", "contents", "print-check", "report", "bill", "gauge", "steps", "cautions", "maintenance", "templates",
    ]  # fmt: skip
    steps = [step.id for step in job.plan.steps]
    assert steps == ["read_cautions", "gather_parts", "cut_templates", "build_gauge", "connect_gauge", "baseline"]


def test_the_marks_are_the_readings_of_the_file() -> None:
    job = load_job("readings")
    assert job.gauge is not None
    marks = {mark.key: mark.pressure_pa for mark in job.gauge.card.marks}
    assert (marks["clean"], marks["clean me"]) == (210.0, 620.0)
    assert marks["too high"] == pytest.approx(1.5 * 620.0)
    assert job.gauge.card.tube.highest_pa == pytest.approx(2900.0)


def test_a_box_alone_takes_the_gauge_of_two_readings() -> None:
    text = (PROJECTS / "box.yaml").read_text("utf-8")
    lid = "  - {name: gauge, kind: gauge, face: front, pail: {across: [11.86 in]}}\nshop_methods:"
    read = "gauge: {clean: 1.1 inH2O, clean_me: 2.6 inH2O, most: 15 inH2O}\n"
    job = work_out_job(read_project((text.replace("shop_methods:", lid) + read).encode(), "box.yaml"), Path("box.yaml"))
    assert job.has == {"pails", "box", "gauge"}
    assert {"gauge board", "gauge lid"} <= {part.kind for part in job.design.flat_parts}
    assert {"drill_gauge_lid", "build_gauge", "connect_gauge"} <= {step.id for step in job.plan.steps}


def test_air_with_a_gauge_has_its_cards_and_boards() -> None:
    text = (PROJECTS / "ducts.yaml").read_text("utf-8") + "gauge: {kind: u-tube, read_at: planer}\n"
    job = work_out_job(read_project(text.encode(), "ducts.yaml"), Path("ducts.yaml"))
    assert job.has == {"air", "gauge"}
    stream = io.BytesIO()
    assert {"gauge", "maintenance", "templates"} <= set(write_packet(job, stream).sections)


def test_parts_for_a_machine_come_alone(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """Every part that a machine gets as SVG and DXF, in a folder of its own; no page, no bill; holes have no paper."""
    assert main(["build", str(PROJECTS / "machine.yaml"), "-o", str(tmp_path / "out"), "--only", "parts"]) == 0
    capsys.readouterr()
    files = sorted(path.relative_to(tmp_path).as_posix() for path in tmp_path.rglob("*") if path.is_file())
    assert {Path(file).suffix for file in files} == {".svg", ".dxf"}
    assert {Path(file).parent.as_posix() for file in files} == {"out/only-parts/parts"}
    job = load_job("machine")
    assert len(files) == 2 * sum(part.cnc and bool(part.features) for part in job.design.flat_parts)
    printed = {part.kind for part in job.design.flat_parts if is_printed(part)}
    assert printed == {"wrap strip", "test card"}


def test_parts_are_not_asked_for_among_sections(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["build", str(PROJECTS / "machine.yaml"), "--only", "parts,bill"]) == 2
    assert "or parts alone" in capsys.readouterr().err


def test_the_hole_is_that_of_the_same_pail_in_a_whole_shop() -> None:
    """The boatshed's filter A is the same pail: its hole, first cut and screws do not hang on the box."""
    alone, shop = load_job("pails").design.ports[0], load_job("boatshed").design.ports[0]
    assert (alone.hole_mm, alone.first_cut_mm, alone.pilots) == (shop.hole_mm, shop.first_cut_mm, shop.pilots)
    assert alone.hole_mm == pytest.approx((11 + 27 / 32 + 11.88 + 11.875) / 3 * 25.4)


@pytest.mark.parametrize("name", PARTIAL)
def test_the_cover_says_what_is_left_out_and_which_lines_bring_it(name: str) -> None:
    cover = " ".join(read_pages(name)[0].split())
    assert "Left out, and the lines of the project file that bring it" in cover
    for part in WHOLE - load_job(name).has:
        wanted = list_missing(load_job(name).keys, part)
        assert wanted
        assert ", ".join(f"{key}:" for key in wanted) in cover


def test_a_whole_shop_leaves_nothing_out() -> None:
    assert "Left out" not in read_pages("boatshed")[0]


@pytest.mark.parametrize("name", PARTIAL)
def test_a_partial_sample_says_that_it_is_invented(name: str) -> None:
    assert "invented" in load_project(PROJECTS / f"{name}.yaml").project.title.title


def test_a_bench_with_a_guessed_ring_says_so_on_its_holes() -> None:
    """Without the ring's measures the screws' circle is a guess: the hole's template is stamped by name."""
    from packet.draw.views.part_words import find_warnings

    text = (PROJECTS / "pails.yaml").read_text("utf-8")
    text = re.sub(r"closure:\n(  .*\n)+", "", text)
    job = work_out_job(read_project(text.encode(), "bench.yaml"), Path("bench.yaml"))
    hole = next(part for part in job.design.flat_parts if part.kind == "hole")
    assert "closure" in str(find_warnings(job, hole))
    assert PAILS.is_met(job.has)
