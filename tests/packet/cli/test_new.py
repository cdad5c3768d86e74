"""Starting a project file: from a shop that is there, from questions in a pipe, from an answers file."""

from __future__ import annotations

import io
import os
import subprocess
import sys
from pathlib import Path

import pytest

from packet.cli.new import ask_all, read_answers
from packet.fields.new_file import quote, split_machines
from packet.fields.questions import ASKED, QUESTIONS, STARTS, find_what
from packet.fields.schema import make_answers_schema
from packet.reading.load import BadProject, load_project
from tests.packet.fields.test_fields import read_text

TOP = Path(__file__).parents[3]


def run_new(*arguments: str, cwd: Path, typed: str = "") -> subprocess.CompletedProcess[str]:
    return subprocess.run(
        [sys.executable, "-m", "packet", "new", *arguments],
        input=typed, capture_output=True, text=True, cwd=cwd, env={**os.environ, "PYTHONPATH": str(TOP)}, check=False,
    )  # fmt: skip


@pytest.mark.parametrize("start", STARTS)
def test_from_a_shop_without_questions_loads_at_once_and_marks_what_is_assumed(start: str, tmp_path: Path) -> None:
    done = run_new("my shop.yaml", "--from", start, cwd=tmp_path)
    assert done.returncode == 0, done.stderr
    assert done.stderr == ""
    loaded = load_project(tmp_path / "my shop.yaml")
    assert loaded.warnings == ()
    assert loaded.project.display.system == STARTS[start]
    asked = {"shop.ceiling", "blower.rating.free_flow", "filters.bore", "ducts.main.pieces[0].pipe", "separator.loss"}
    unasked = {"ports", "closure", "shop.humidity", "machines.band saw.pieces[0].length"}
    assert asked | unasked <= set(loaded.project.assumed)
    written = (tmp_path / "my shop.yaml").read_text(encoding="utf-8")
    assert written.count("about ") == sum("about " in typed for typed in loaded.echo.values())
    left_out = written.split("measure before you cut:\n# ")[1].replace("\n# ", " ").rstrip(".\n").split(", ")
    assert {"ports", "closure", "shop humidity"} <= set(left_out)
    assert "shop ceiling" not in left_out
    check = [sys.executable, "-m", "packet", "check", "my shop.yaml"]
    checked = subprocess.run(
        check, capture_output=True, cwd=tmp_path, env={**os.environ, "PYTHONPATH": str(TOP)}, check=False
    )
    assert checked.returncode in (0, 1)


def test_questions_in_a_pipe_an_answer_that_cannot_be_read_is_asked_again(tmp_path: Path) -> None:
    done = run_new("shop.yaml", cwd=tmp_path, typed="metric\n2_5 m\n2,5 m\n")
    assert done.returncode == 0, done.stderr
    assert "'2_5 m' has an underscore" in done.stderr
    project = load_project(tmp_path / "shop.yaml").project
    assert project.shop.ceiling_mm == pytest.approx(2500)
    assert "shop.ceiling" not in project.assumed
    assert "shop.doorway" in project.assumed


def test_a_project_that_nobody_named_is_called_as_its_file(tmp_path: Path) -> None:
    assert run_new("ada's_wood-shop.yaml", "--from", "small-shop", cwd=tmp_path).returncode == 0
    assert load_project(tmp_path / "ada's_wood-shop.yaml").project.title.title == "Ada's wood shop"
    (tmp_path / "answers.yaml").write_text("title: The old barn\n", encoding="utf-8")
    assert run_new("shop.yaml", "--answers", "answers.yaml", cwd=tmp_path).returncode == 0
    assert load_project(tmp_path / "shop.yaml").project.title.title == "The old barn"


def test_a_flue_nobody_answered_for_is_taken_to_be_there(tmp_path: Path) -> None:
    assert run_new("shop.yaml", "--from", "small-shop", cwd=tmp_path).returncode == 0
    project = load_project(tmp_path / "shop.yaml").project
    assert project.shop.flued_appliance == "unknown"
    assert "shop.flued_appliance" in project.assumed


def test_every_question_can_be_passed_over() -> None:
    out = io.StringIO()
    assert ask_all(io.StringIO("\n" * len(ASKED)), out) == {}
    assert out.getvalue().count("[") == len(ASKED) <= 21
    assert ask_all(io.StringIO(""), io.StringIO()) == {}


@pytest.mark.parametrize("question", QUESTIONS, ids=lambda question: question.key)
def test_answers_that_stand_read_without_a_doubt(question: object) -> None:
    from packet.fields.questions import Query

    assert isinstance(question, Query)
    for answer in (question.inch, question.metric):
        value, said = read_text(find_what(question.at), quote(answer))
        assert (value is not None, said) == (True, [])


def test_answers_from_a_file(tmp_path: Path) -> None:
    answers = "ceiling: 8 ft\nmachines: planer 600 cfm; shaper 500 cfm\nseparator: none\nelbows: 0\n"
    (tmp_path / "answers.yaml").write_text(answers, encoding="utf-8")
    done = run_new("shop.yaml", "--answers", "answers.yaml", cwd=tmp_path)
    assert done.returncode == 0, done.stderr
    project = load_project(tmp_path / "shop.yaml").project
    assert [machine.name for machine in project.machines] == ["planer", "shaper"]
    assert project.separator.kind == "none"
    assert len(project.runs[0].pieces) == 1
    assert "machines" not in project.assumed
    assert {"machines.planer.hood.kind", "machines.shaper.pieces[0].hose"} <= set(project.assumed)


def test_the_answers_schema_tells_every_key_and_holds_for_the_answers_that_stand() -> None:
    schema = make_answers_schema()
    assert set(schema["properties"]) == {question.key for question in QUESTIONS}
    assert "required" not in schema
    for question in QUESTIONS:
        assert question.asks in schema["properties"][question.key]["description"]


INCHES = (12.0625, 11.96875, 12.0)  # 12 1/16, 11 31/32, 12
LISTS = (
    'pail: [12 1/16", 11 31/32", 12"]',
    "pail: ['12 1/16 in', 11-31/32 in, 12 in]",
    "pail:\n  - 12 1/16 in\n  - 11 31/32 in\n  - 1 ft",
    'pail: 12 1/16", 11 31/32", 12"',
    "pail: 12-1/16 in 11-31/32 in 12 in",
    "pail: '12 1/16 in; 11 31/32 in; 12 in'",
)


@pytest.mark.parametrize("answers", LISTS)
def test_every_reading_of_a_pail_is_written_and_the_other_ports_are_assumed(answers: str, tmp_path: Path) -> None:
    (tmp_path / "answers.yaml").write_text(f"{answers}\nfilters: 3\nduct: 6 in\n", encoding="utf-8")
    done = run_new("shop.yaml", "--answers", "answers.yaml", cwd=tmp_path)
    assert done.returncode == 0, done.stderr
    assert "for filter A: taken for the others too: measure each" in done.stdout
    assert "taken for the others too: measure each" in (tmp_path / "shop.yaml").read_text(encoding="utf-8")
    project = load_project(tmp_path / "shop.yaml").project
    assert [port.name for port in project.ports] == ["filter A", "filter B", "filter C", "inspection", "gauge"]
    measured = pytest.approx([inches * 25.4 for inches in INCHES])
    assert all(list(port.pail.across_mm) == measured for port in project.ports)
    assumed = [port.name for port in project.ports if project.is_assumed(f"ports.{port.name}.pail.across")]
    assert assumed == ["filter B", "filter C", "inspection", "gauge"]
    assert [machine.pieces[0].diameter_m for machine in project.machines] == [
        pytest.approx(6 * 0.0254)
    ] * 2  # as the duct


@pytest.mark.parametrize(
    ("typed", "millimetres"),
    [
        ('12 1/16", 11 31/32", 12"', [12.0625 * 25.4, 11.96875 * 25.4, 12 * 25.4]),
        ('12 1/16" 11 31/32" 12"', [12.0625 * 25.4, 11.96875 * 25.4, 12 * 25.4]),
        ("302 mm 301.5 mm", [302.0, 301.5]),
        ("302 mm,301.5 mm", [302.0, 301.5]),
        ("30.2 cm; 301.5 mm", [302.0, 301.5]),
        ("1 ft 1/4 in, 12 in", [12.25 * 25.4, 12 * 25.4]),
        ("302 mm", [302.0]),
    ],
)
def test_several_readings_are_typed_in_one_line(typed: str, millimetres: list[float], tmp_path: Path) -> None:
    before = next(number for number, question in enumerate(ASKED) if question.key == "pail")
    done = run_new("shop.yaml", cwd=tmp_path, typed="\n" * before + f"{typed}\n")
    assert done.returncode == 0, done.stderr
    project = load_project(tmp_path / "shop.yaml").project
    assert list(project.ports[0].pail.across_mm) == pytest.approx(millimetres)
    assert not project.is_assumed("ports.filter A.pail.across")
    assert "taken for the others too: measure each" in done.stdout


def test_a_reading_that_cannot_be_read_is_named_and_asked_again(tmp_path: Path) -> None:
    before = next(number for number, question in enumerate(ASKED) if question.key == "pail")
    done = run_new("shop.yaml", cwd=tmp_path, typed="\n" * before + "302 mm, wide\n302 mm\n")
    assert "'wide'" in done.stderr
    assert load_project(tmp_path / "shop.yaml").project.ports[0].pail.across_mm == pytest.approx((302.0,))


def test_readings_that_cannot_be_of_one_pail_are_asked_again(tmp_path: Path) -> None:
    before = next(number for number, question in enumerate(ASKED) if question.key == "pail")
    done = run_new("shop.yaml", cwd=tmp_path, typed="\n" * before + "302 mm, 320 mm\n302 mm, 303 mm\n")
    assert done.returncode == 0, done.stderr
    assert "the measurements differ by" in done.stderr
    assert list(load_project(tmp_path / "shop.yaml").project.ports[0].pail.across_mm) == pytest.approx([302.0, 303.0])
    (tmp_path / "answers.yaml").write_text("pail: [302 mm, 320 mm]\n", encoding="utf-8")
    with pytest.raises(BadProject) as caught:
        read_answers(tmp_path / "answers.yaml")
    assert "the measurements differ by" in str(caught.value.problems[0])


def test_a_pail_nobody_measured_says_nothing_of_others(tmp_path: Path) -> None:
    done = run_new("shop.yaml", "--from", "small-shop", cwd=tmp_path)
    assert "taken for the others" not in done.stdout
    assert "taken for the others" not in (tmp_path / "shop.yaml").read_text(encoding="utf-8")


def test_all_answers_given_leave_only_what_no_question_asks(tmp_path: Path) -> None:
    answers = {q.key: q.metric for q in QUESTIONS} | {"system": "metric", "separator": "none"}
    text = "".join(f"{key}: {quote(answer)}\n" for key, answer in answers.items())
    (tmp_path / "answers.yaml").write_text(text, encoding="utf-8")
    assert run_new("shop.yaml", "--answers", "answers.yaml", cwd=tmp_path).returncode == 0
    written = (tmp_path / "shop.yaml").read_text(encoding="utf-8")
    # of two machines hood, hose, its length and gate; the pails of three ports; the inlet
    assert written.count("about ") == 2 * 4 + 3 + 1


def test_after_five_answers_that_cannot_be_read_the_question_is_passed_over() -> None:
    out = io.StringIO()
    answers = ask_all(io.StringIO("inch\n" + "tall\n" * 5 + "36 x 80 in\n"), out)
    assert answers == {"system": "inch", "doorway": "36 x 80 in"}
    assert "passed over: about 9 ft 6 in is used" in out.getvalue()


def test_faults_of_an_answers_file_come_all_at_once_with_their_places(tmp_path: Path) -> None:
    file = tmp_path / "answers.yaml"
    file.write_text("cieling: 8 ft\ndoorway: 36\nmachines: planer, saw 20 in\n", encoding="utf-8")
    with pytest.raises(BadProject) as caught:
        read_answers(file)
    said = [str(problem).removeprefix(f"{file}:") for problem in caught.value.problems]
    assert said[0] == "1:1: 'cieling' is not a key here; did you mean 'ceiling'?"
    assert said[1].startswith("2:10 doorway: '36' is not a width and a height")
    assert said[2].startswith("3:11 machines: 'planer' is not a machine and its air")
    assert said[3].startswith("3:11 machines: '20 in' is a length, not a flow of air")


def test_a_file_that_is_there_is_never_touched(tmp_path: Path) -> None:
    (tmp_path / "shop.yaml").write_text("mine")
    done = run_new("shop.yaml", "--from", "small-shop", cwd=tmp_path)
    assert done.returncode == 2
    assert done.stderr == "collector-packet: shop.yaml is there already; choose another name\n"
    assert (tmp_path / "shop.yaml").read_text() == "mine"


def test_an_unknown_start_and_a_folder_that_is_not_there(tmp_path: Path) -> None:
    done = run_new("shop.yaml", "--from", "smal-shop", cwd=tmp_path)
    assert done.returncode == 2
    assert "did you mean 'small-shop'?" in done.stderr
    assert run_new("none/shop.yaml", "--from", "small-shop", cwd=tmp_path).returncode == 3
    assert list(tmp_path.iterdir()) == []


@pytest.mark.parametrize(
    "text", ["a: b", "'", '"', "#", "- x", "{", "x # y", "no", 'Ada\'s "5 in" shop', "%", "é", " a  b "]
)
def test_answers_with_yaml_signs_read_back_as_typed(text: str) -> None:
    from packet.fields.model import OwnText

    assert read_text(OwnText(), quote(text))[0] == " ".join(text.split())


def test_machines_are_told_apart_from_their_air() -> None:
    assert split_machines("planer 600 cfm, 14 in band saw 400 cfm") == [
        ("planer", "600 cfm"),
        ("14 in band saw", "400 cfm"),
    ]
    assert split_machines("planer") == [("planer", "")]


@pytest.mark.parametrize(
    ("system", "typed", "millimetres"), [("inch", "32x80", (812.8, 2032)), ("metric", "800 x 2000", (800, 2000))]
)
def test_a_doorway_without_a_unit_is_in_the_unit_that_was_chosen(
    system: str, typed: str, millimetres: tuple[float, float], tmp_path: Path
) -> None:
    done = run_new("asked.yaml", cwd=tmp_path, typed=f"{system}\n\n{typed}\n")
    assert done.returncode == 0, done.stderr
    (tmp_path / "answers.yaml").write_text(f"system: {system}\ndoorway: {typed}\n", encoding="utf-8")
    assert run_new("told.yaml", "--answers", "answers.yaml", cwd=tmp_path).returncode == 0
    for name in ("asked", "told"):
        shop = load_project(tmp_path / f"{name}.yaml").project.shop
        assert (shop.doorway_width_mm, shop.doorway_height_mm) == pytest.approx(millimetres)


def test_a_doorway_that_could_not_be_in_inches_is_asked_again(tmp_path: Path) -> None:
    done = run_new("shop.yaml", cwd=tmp_path, typed="inch\n\n800x2000\n32x80\n")
    assert "write '800 x 2000 mm'" in done.stderr
    assert load_project(tmp_path / "shop.yaml").project.shop.doorway_width_mm == pytest.approx(812.8)
