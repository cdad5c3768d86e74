"""Bill, cut list, templates and steps of the finished job ask for the same things, read back both ways."""

from __future__ import annotations

import dataclasses
import re
from functools import cache
from typing import Any

import pytest

from calc.cutting.templates import plan_templates
from packet.bill.cuts import list_cuts
from packet.job import Job
from packet.work.model import Step
from tests.packet.work.test_plan import change
from tests.shop import finish_job, load_job, make_project

SAMPLES = ("boatshed", "cart", "minimal", "outdoor", "schoolroom")

SHOPS: dict[str, dict[str, Any]] = {
    "jigsaw, bare, alone": {"lining": None, "methods.holes": "jigsaw", "methods.helper": False},
    "router, gasket, cnc lids": {"methods.holes": "router", "methods.lids": "cnc", "methods.seal": "gasket"},
    "all by machine": {"methods.holes": "cnc", "methods.lids": "cnc", "box.joint": "dado"},
    "trammel under the ceiling": {"methods.holes": "trammel", "box.hung": "ceiling", "box.underside_mm": None},
    "hole saw on a cart": {"methods.holes": "hole saw", "box.hung": "cart", "box.joint": "cleat", "lining": None},
    "no separator, metric, with a helper": {
        "separator.kind": "none", "display.system": "metric", "methods.helper": True, "methods.panels": "table saw",
    },
    "sloping gauge on the wall": {"gauge.kind": "inclined", "gauge.slope": 0.2, "gauge.fluid": "light oil"},
    "well gauge": {"gauge.kind": "well", "gauge.fluid": "glycol mix", "box.joint": "rabbet"},
    "one leg on the lid": {"gauge.kind": "u-tube one leg", "gauge.mount": "lid", "gauge.fluid": "water"},
    "no gauge, no inspection": {"ports": "filters"},
    "all templates": {"display.extra_templates": True, "methods.holes": "router"},
}  # fmt: skip

STANDS_THERE = {
    "blower": "in the shop before the job: locked out, joined and started, never installed",
    "cyclone": "in the shop before the job: the ducts begin at it",
    "drop box": "in the shop before the job: the ducts begin at it",
}
"""Lines of the bill that no step lists as a part, each with its reason."""

TOOLS = (
    # what a shop has: cutting, drilling, driving
    "saw", "jigsaw", "track saw", "table saw", "circular saw", "router", "multi-tool", "plane", "drill", "bit",
    "driver", "screwdriver", "wrench", "punch", "awl", "knife", "scissors", "snips", "file", "rasp", "sanding block",
    "circle jig", "trammel", "CNC router", "mallet", "caulking gun", "hole saw", "stop blocks", "spade",
    # measuring and marking
    "tape", "rule", "square", "straightedge", "caliper", "level", "meter", "pencil", "marker", "finder",
    "paper test", "test piece", "test pieces",
    # holding, lifting, seeing, being safe
    "clamp", "ladder", "stepladder", "stool", "lift", "jack", "lamp", "vacuum", "brush", "gloves", "padlock", "tag",
    "blow gun", "sound level meter", "phone", "bank card", "can with lid", "smoke stick", "alarm", "second gauge",
    "dowel", "spreader", "strap", "metal bin", "thin tube",
)  # fmt: skip
"""Words by which a line of tools is known to be one: it is in the shop, and not bought for this job."""

PAPERS = (
    "cut list", "sheet layouts", "bill of materials", "circle settings page", "gauge card", "as-built page",
    "commissioning sheet", "this packet", "clear pocket", "DXF", "template", "wrap strip", "gasket pattern",
)  # fmt: skip
"""What the packet itself prints or writes (and the pockets it is put in)."""

BEHIND = {
    "soap": "shop supplies", "soapy water": "shop supplies", "bags": "shop supplies", "sandpaper": "shop supplies",
    "rags": "shop supplies", "incense": "shop supplies", "thread": "shop supplies", "clips": "pipe clip",
    "glue": "wood glue", "sealant": "silicone cartridge", "silicone": "silicone cartridge", "foil tape": "foil tape",
    "gasket tape": "closed-cell gasket tape", "label sheet": "label sheet", "hangers": "pipe hanger",
    "bare copper wire": "bonding wire", "screws": "screw", "ear muffs": "hearing protection",
    "respirator": "respirator", "safety glasses": "safety glasses", "guarded platform": "work platform",
    "material lift": "material lift", "carbon monoxide alarm": "carbon monoxide alarm",
}  # fmt: skip
"""Materials that a step counts among its tools, and the line of the bill behind each."""

LISTED = {
    "rings": "screw lid", "pails": "pail", "filters": "filter cartridge", "filters with lids": "filter cartridge",
    "catch pails with rings": "pail", "screw lids for filters": "screw lid", "panel stock": "sheet",
    "flat head screws": "flat head screw", "pan head screws": "pan head screw", "lining": "lining",
    "sealant": "silicone cartridge", "silicone": "silicone cartridge",
    "screws in the": "flat head screw", "box": "made",
    "load of each caster": "caster", "gate for": "gate", "blower": "blower", "flexible hose": "flexible hose",
    "closed-cell gasket tape": "closed-cell gasket tape",
}  # fmt: skip
"""Parts that a step lists in words of its own, and the line of the bill behind them; ``made``: made in this job."""


def make_shop(name: str) -> Job:
    project, changes = make_project(), dict(SHOPS[name])
    if changes.pop("ports", None):
        changes["ports"] = tuple(port for port in project.ports if port.kind == "filter")
    return finish_job(change(project, changes))


@cache
def get_job(name: str) -> Job:
    return load_job(name) if name in SAMPLES else make_shop(name)


def read_step(step: Step) -> str:
    """Return all words of a step as one text."""
    told = [step.title, step.why, *step.tools, *(line.text for line in step.lines)]
    told += [f"{part.name} {part.amount}" for part in step.parts]
    told += [f"{hold.what} {hold.value} {hold.tolerance}" for hold in step.holds]
    return "\n".join(told)


def has_word(text: str, word: str) -> bool:
    return re.search(rf"(?<![\w-]){re.escape(word)}(?![\w-])", text) is not None


every_job = pytest.mark.parametrize("name", [*SAMPLES, *SHOPS])


@every_job
def test_each_line_of_the_bill_is_used_by_a_step(name: str) -> None:
    job = get_job(name)
    parts = [part for step in job.plan.steps for part in step.parts]
    used = {part.key for part in parts}
    in_other_words = {line for key, line in LISTED.items() if any(part.name.startswith(key) for part in parts)}
    in_other_words |= {line for word, line in BEHIND.items()
                       if any(has_word(tool, word) for step in job.plan.steps for tool in step.tools)}  # fmt: skip
    text = "\n".join(read_step(step) for step in job.plan.steps)
    stocks = {plan.material for plan in job.design.sheets}
    unused = [
        line.name
        for line in job.bill.lines
        if line.name not in used
        and line.name not in STANDS_THERE
        and not (line.name in stocks and line.name in text)
        and not any(words in line.name for words in in_other_words)
    ]
    assert unused == []


@every_job
@pytest.mark.parametrize("head", ["flat head screw", "pan head screw"])
def test_the_steps_drive_as_many_screws_of_each_length_as_are_bought(name: str, head: str) -> None:
    job = get_job(name)
    driven: dict[str, int] = {}
    for step in job.plan.steps:
        for part in step.parts:
            if part.name.startswith(f"{head}s, "):
                length = part.name.split(", ")[1]
                driven[length] = driven.get(length, 0) + int(part.amount.split(",")[0])
    lines = [line for line in job.bill.lines if line.name.endswith(f" {head}")]
    bought = {line.name.split(" x ")[1].removesuffix(f" {head}"): line.needed for line in lines}
    assert driven == bought


@every_job
def test_what_stands_in_the_shop_is_not_bought_and_is_met_on_the_way(name: str) -> None:
    job = get_job(name)
    text = "\n".join(read_step(step) for step in job.plan.steps)
    for line in job.bill.lines:
        if line.name in STANDS_THERE:
            assert line.buy == 0, line.name
            assert has_word(text, "blower" if line.name == "blower" else "separator"), line.name


@every_job
def test_each_part_that_a_step_takes_is_bought_or_made(name: str) -> None:
    job = get_job(name)
    lines = {line.name for line in job.bill.lines}
    made = {row.number for row in list_cuts(job.design, job.reader)} | {part.number for part in job.design.flat_parts}
    stocks = {plan.material for plan in job.design.sheets}
    wrong = []
    for step in job.plan.steps:
        for part in step.parts:
            if part.key:
                assert part.key in lines
                continue
            if part.name.split(" ")[0] in made or step.id == "cut_templates":
                continue  # a numbered part of the cut list; sheets of paper, held against what is printed below
            if step.id in ("run_ducts", "connect_inlet") and re.match(r"\d", part.name):
                continue  # pieces of the ducts by their size, counted by the takeoff's own tests
            behind = next((value for key, value in LISTED.items() if part.name.startswith(key)), None)
            bought = behind == "made" or (behind in ("sheet", "lining") and bool(stocks))
            if not bought and not any(behind is not None and behind in line for line in lines):
                wrong.append((step.id, part.name))
    assert wrong == []


@every_job
def test_each_tool_is_a_tool_a_paper_or_on_the_bill(name: str) -> None:
    job = get_job(name)
    lines = {line.name for line in job.bill.lines}
    wrong = []
    for step in job.plan.steps:
        for tool in step.tools:
            behind = {line for word, line in BEHIND.items() if has_word(tool, word)}
            if any(not any(each in line for line in lines) for each in behind):
                wrong.append((step.id, tool, "not bought"))
            if not behind and not any(has_word(tool, word) or has_word(tool, f"{word}s") for word in (*TOOLS, *PAPERS)):
                wrong.append((step.id, tool, "unknown"))
    assert wrong == []


@every_job
def test_each_part_of_the_cut_list_is_bought_as_stock_and_used_in_a_step(name: str) -> None:
    job = get_job(name)
    text = "\n".join(read_step(step) for step in job.plan.steps)
    lines = {line.name for line in job.bill.lines}
    laid = [placed.blank.number for plan in job.design.sheets for lay in plan.layouts for placed in lay.placed]
    for row in list_cuts(job.design, job.reader):
        assert has_word(text, row.number), f"{row.number} {row.name} is in no step"
        assert row.material in lines, f"{row.material} is not on the bill"
        assert laid.count(row.number) == row.quantity, f"{row.number} {row.name} lies on no sheet"


@every_job
def test_each_template_printed_is_named_by_the_step_that_uses_it(name: str) -> None:
    job = get_job(name)
    plan = plan_templates(job.project.display, job.design.flat_parts)
    printed = [tiled.part for tiled in plan.tiled] + [each.part for sheet in plan.shared for each in sheet]
    numbers = {part.number for part in printed}
    cutting = read_step(job.plan.get_step("cut_templates"))
    using = "\n".join(read_step(step) for step in job.plan.steps if step.id != "cut_templates")
    for part in printed:
        assert has_word(cutting, part.number), f"{part.number} {part.name} is not cut out"
        # a router's or a machine's paper of holes and lids is printed on the owner's wish alone
        asked = job.project.display.extra_templates and part.number[0] in "HL"
        assert asked or has_word(using, part.number), f"{part.number} {part.name} is used by no step"
    # and the other way: a paper that a step names is printed
    named = set(re.findall(r"(?<![\w-])[HLGWTR]\d+(?![\w-])", cutting + using))
    assert named <= numbers | {part.number for part in job.design.flat_parts if not part.paper}


@every_job
def test_strips_are_cut_out_whatever_cuts_holes_and_lids(name: str) -> None:
    job = get_job(name)
    assert "cut_templates" in job.plan.get_step("mark_collars").after
    assert job.plan.get_step("cut_templates").number < job.plan.get_step("mark_collars").number


@pytest.mark.parametrize(("holes", "printed"), [("jigsaw", True), ("hole saw", True), ("router", False),
                                               ("trammel", False), ("cnc", False)])  # fmt: skip
@pytest.mark.parametrize("lids", ["hand", "cnc"])
def test_paper_is_printed_for_what_follows_a_line(holes: str, printed: bool, lids: str) -> None:
    project = change(make_project(), {"methods.holes": holes, "methods.lids": lids})
    for extra in (False, True):
        wanted = dataclasses.replace(project, display=dataclasses.replace(project.display, extra_templates=extra))
        parts = {part.name: part for part in finish_job(wanted).design.flat_parts}
        assert parts["hole for filter A"].paper is (printed or extra)
        assert parts["hole for the inlet"].paper is (printed or extra)
        assert parts["filter lid"].paper is (lids == "hand" or extra)
        assert parts["gauge lid"].paper  # drilled by hand whatever cuts the lids


@every_job
def test_sheets_are_measured_before_they_are_cut(name: str) -> None:
    job = get_job(name)
    holds = [hold.what for hold in job.plan.get_step("cut_panels").holds]
    bought = job.design.sheets[0].to_buy > 0
    assert ("Sheet as bought, along × across" in holds) is bought
    assert any("diagonals" in what and "sheet" in what for what in holds) is bought
