"""Each thing is worked out once in a build, and terminal, JSON, pages and files all say it."""

from __future__ import annotations

import csv
import io
import json
import re
import shutil
import subprocess
import sys
from dataclasses import replace
from pathlib import Path

import pypdf
import pytest

from calc.finding import Verdict
from calc.gauges.gauge_parts import list_boards
from calc.shapes.shapes import Layer, Line
from calc.strength.handling import weigh_pail
from packet.bill.gauge_fill import write_fill
from packet.build.build import build_packet
from packet.cli.cli import main
from packet.files.tables_csv import MARK
from packet.job import Job, make_job
from packet.words.findings import count_verdicts
from packet.words.say import say
from tests.shop import load_job, write_whole

PROJECTS = Path(__file__).parents[2] / "projects"
LOG = """\
- date: 2026-03-01
  kind: test
  by: 'Jo'
  revision: 'A'
  values:
    'baseline.reading': '0.15 inH2O'
    'baseline.clean': 'yes'
"""
ONCE = (
    ("calc.sizing.sizing", "size_project"),
    ("calc.gauges.gauge_design", "design_gauge"),
    ("calc.design", "design_project"),
    ("calc.gauges.gauge_parts", "make_gauge_parts"),
    ("packet.bill.bill", "make_bill"),
    ("packet.work.plan", "plan_steps"),
    ("calc.record.review", "review_record"),
)


def read_words(pdf: bytes) -> str:
    """Return the words of a packet, one line."""
    return " ".join(" ".join(page.extract_text() for page in pypdf.PdfReader(io.BytesIO(pdf)).pages).split())


def read_packet(out: Path) -> str:
    return read_words((out / "packet.pdf").read_bytes())


@pytest.fixture(scope="module")
def logged(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The boatshed's file with a clean baseline in its log, lower than the sizing's."""
    path = tmp_path_factory.mktemp("logged") / "boatshed.yaml"
    shutil.copy(PROJECTS / "boatshed.yaml", path)
    path.with_name("boatshed.as-built.yaml").write_text(LOG, "utf-8")
    return path


@pytest.fixture(scope="module")
def counts(logged: Path, tmp_path_factory: pytest.TempPathFactory) -> dict[str, int]:
    """Build the logged project; return how often each thing was worked out, in both processes of the build."""
    import importlib

    tally = tmp_path_factory.mktemp("tally") / "calls"
    with pytest.MonkeyPatch.context() as patch:
        for module, name in ONCE:
            whole = getattr(importlib.import_module(module), name)

            def count(*args: object, whole=whole, name=name, **more: object) -> object:
                with tally.open("a") as stream:
                    stream.write(f"{name}\n")
                return whole(*args, **more)

            for each in list(sys.modules.values()):
                if each is not None and getattr(each, "__dict__", {}).get(name) is whole:
                    patch.setattr(each, name, count)
        build_packet(logged, logged.parent / "out")
    calls = tally.read_text().split()
    return {name: calls.count(name) for _, name in ONCE}


@pytest.fixture(scope="module")
def out(counts: dict[str, int], logged: Path) -> Path:
    """The folder of that build."""
    return logged.parent / "out"


@pytest.mark.parametrize("name", [name for _, name in ONCE])
def test_a_build_works_each_thing_out_once(counts: dict[str, int], name: str) -> None:
    assert counts[name] == 1


def test_all_outputs_speak_of_the_same_gauge(logged: Path, out: Path) -> None:
    """37 Pa on a sloping tube: 20 mm of travel for an eye's 1 mm want 1 in 6 (the sizing's 45 Pa alone: 1 in 5)."""
    job = make_job(logged)
    column = 1000 / (998.2 * 9.80665)  # water at 20 °C, CRC Handbook, from memory: millimetres a pascal
    well = (6.0 / 60.0) ** 2
    travel = {run: 0.15 * 249.08891 * column / (1 / run + well) for run in (5, 6)}
    assert travel[5] < 20.0 < travel[6]
    words = read_packet(out)
    slopes = set(re.findall(r"(?:[Ss]lope|slope of|tube at) 1 in (\d+)", words))
    assert slopes == {"6"}
    assert "CLEAN, MEASURED" in words
    (board,) = list_boards(job.design.flat_parts)
    tube_line = next(feature.shape for feature in board.features if feature.layer is Layer.MARK)
    assert isinstance(tube_line, Line)
    rise, run = tube_line.end.y - tube_line.start.y, tube_line.end.x - tube_line.start.x
    assert (rise**2 + run**2) ** 0.5 / rise == pytest.approx(6.0)
    rows = list(csv.reader(io.StringIO((out / "bill.csv").read_text("utf-8").removeprefix(MARK))))
    tube = next(row for row in rows if row and row[1] == "clear tube")
    assert tube[7] == str(job.bill.get_line("clear tube").buy)


def test_terminal_json_and_files_agree_with_a_log(logged: Path, out: Path, capsys: pytest.CaptureFixture[str]) -> None:
    status = main(["check", "--json", str(logged)])
    checked = json.loads(capsys.readouterr().out)
    main(["check", str(logged)])
    told = " ".join(capsys.readouterr().out.split())
    sizing = json.loads((out / "sizing.json").read_text("utf-8"))
    assert checked["verdict"] == sizing["verdict"]
    assert status == (checked["verdict"] == "does not fit")
    found = [(f["key"], f["verdict"]) for f in checked["findings"]]
    assert found == [(f["key"], f["verdict"]) for f in sizing["sizing"]["findings"]]
    readable = next(f for f in sizing["sizing"]["findings"] if f["key"] == "gauge.readable")
    assert "1 in 6" in readable["why"]
    job, words = make_job(logged), read_packet(out).replace(" ", "").casefold()
    assert f"Findings: {count_verdicts(job.findings)}." in told
    bad = [finding for finding in job.findings if finding.verdict is not Verdict.FITS]
    assert bad
    for finding in bad:
        assert say(finding.what, job.reader).replace(" ", "").casefold() in words


def test_check_loads_no_page_and_weighs_no_choice() -> None:
    """What is heavy is loaded by who asks for it."""
    ask = (
        "import sys; from pathlib import Path; from packet.job import make_job; "
        f"make_job(Path({str(PROJECTS / 'boatshed.yaml')!r})); print('\\n'.join(sys.modules))"
    )
    loaded = subprocess.run([sys.executable, "-c", ask], check=True, capture_output=True, text=True).stdout.split()
    heavy = (
        "calc.sizing.choices",
        "calc.sizing.remedies",
        "calc.sizing.worked",
        "packet.pages",
        "packet.draw",
        "reportlab",
    )
    assert not [name for name in loaded if name.startswith(heavy)]
    assert "packet.work.plan" not in loaded, "no step is planned"
    assert "packet.bill.bill" in loaded


@pytest.mark.parametrize("name", ["boatshed", "cart", "minimal", "outdoor", "schoolroom"])
def test_every_page_says_how_many_gauges_are_built(name: str) -> None:
    """One gauge or two: cards, boards, bill, steps and words of the page are held against each other."""
    job, words = load_job(name), read_words(write_whole(name)[0])
    two = len(job.gauge.boards) == 2
    boards = list_boards(job.design.flat_parts)
    assert len(boards) == len(job.gauge.boards)
    assert {card.instrument.kind for card in job.gauge.cards} == {card.instrument.kind for card in job.gauge.boards}
    for part in boards:
        assert words.count(f"{part.number} {say(part.called, job.reader)}") > 0
    assert ("There are two gauges on one hose" in words) is two
    assert ("Make the two water gauges" in words) is two
    assert ("Mount and connect the gauges" in words) is two
    assert ("both gauges and hose to the box" in words) is two
    lines = {line.name: line for line in job.bill.lines}
    assert ("hose tee" in lines) is two
    sloping = [card for card in job.gauge.boards if card.instrument.slope < 1.0]
    assert lines["jar"].needed == len(sloping) == 1
    assert f"slope 1 in {1 / sloping[0].instrument.slope:.3g}, low end in the jar" in words
    tubes = sum(card.tube.length_mm for card in job.gauge.boards) / 1000
    assert lines["clear tube"].needed == pytest.approx(tubes + 2.0 + 0.3 * job.gauge.on_lid)
    liquid = write_fill(job.gauge, job.reader)
    assert f"About {liquid} fills" in words
    assert f"{liquid} in all" in words


def make_two_kinds(tmp_path: Path, *, turned: bool) -> Job:
    """Return the boatshed with a long and a short filter, written in one order or the other."""
    text = (PROJECTS / "boatshed.yaml").read_text(encoding="utf-8")
    start, end = text.index("filters:\n"), text.index("filter_box:\n")
    kinds = [
        "  - {name: long, count: 1, media_area: 330 ft2, permeability: 22 cfm/ft2 at 0.5 inH2O, outside: 12.7 in, "
        "bore: 9.4 in, height: 36 in, weight: 18 lb, gasket_thick: 8 mm}\n",
        "  - {name: stout, count: 1, media_area: 240 ft2, permeability: 30 cfm/ft2 at 0.5 inH2O, outside: 13.4 in, "
        "bore: 9.4 in, height: 24 in, weight: 26 lb, gasket_thick: 5 mm}\n",
    ]
    text = text[:start] + "filters:\n" + "".join(reversed(kinds) if turned else kinds) + text[end:]
    text = text.replace("{name: filter A, kind: filter,", "{name: filter A, kind: filter, filter: long,")
    text = text.replace("{name: filter B, kind: filter,", "{name: filter B, kind: filter, filter: stout,")
    path = tmp_path / f"{'turned' if turned else 'kinds'}.yaml"
    path.write_text(text, encoding="utf-8")
    return make_job(path)


def test_each_kind_of_filter_counts_and_their_order_in_the_file_does_not(tmp_path: Path) -> None:
    job, turned = (make_two_kinds(tmp_path, turned=each) for each in (False, True))
    assert job.sizing.filters == turned.sizing.filters
    assert job.design == turned.design
    told, other = ([replace(each, leans=tuple(sorted(each.leans))) for each in one.findings] for one in (job, turned))
    assert told == other
    assert job.bill.lines == turned.bill.lines
    hanging = job.design.handling.hanging_kg
    clean = (26 - 18) * 0.45359237
    load = job.sizing.filters.clean_me.areal_kgm2
    dust = load * (240 - 330) * 0.09290304
    pails = [next(p for p in job.design.ports if p.name == name) for name in ("filter A", "filter B")]
    pail = weigh_pail(job.project, pails[1], full=True) - weigh_pail(job.project, pails[0], full=True)
    assert hanging["filter B"] - hanging["filter A"] == pytest.approx(clean + dust + pail)
    loads = {each.name for each in job.design.handling.loads}
    assert {"long, full of dust", "stout, full of dust"} <= loads
    lids = [part.name for part in job.design.flat_parts if part.kind == "filter lid"]
    assert lids == ["filter lid filter A", "filter lid filter B"], "each kind seals on a lid of its own"
    assert job.design.stack.hanging_mm > 36 * 25.4 > 24 * 25.4
