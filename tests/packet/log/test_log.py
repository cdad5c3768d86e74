"""The record: a filled form goes round through the log; nothing earlier changes; nonsense is refused."""

from __future__ import annotations

import argparse
import datetime
import io
import shutil
import subprocess
import sys
from dataclasses import replace
from pathlib import Path

import pikepdf
import pypdf
import pytest

from calc.record.entries import Entry
from calc.record.questions import ask_about_build, ask_about_log, ask_about_test
from packet.cli.record_ask import record_asked, record_filled, run_record
from packet.disk.write import CannotWrite
from packet.log.log import append_entry, find_log, load_record, quote, read_log
from packet.log.names import key_hold, name_fields
from packet.reading.display_asked import Asked, apply_asked
from packet.reading.problem import BadProject
from tests.shop import load_job, write_pages

PROJECTS = Path(__file__).parents[3] / "projects"
TODAY = datetime.date(2026, 4, 2)
FORMS = ("commissioning", "as-built", "maintenance")


@pytest.fixture(scope="module")
def forms() -> dict[str, bytes]:
    return {name: write_pages(load_job(name), FORMS)[0] for name in ("boatshed", "schoolroom")}


@pytest.fixture
def shop(tmp_path: Path) -> Path:
    return Path(shutil.copy(PROJECTS / "boatshed.yaml", tmp_path / "boatshed.yaml"))


def name_all(name: str = "boatshed") -> dict[str, str]:
    project = load_job(name).project
    log = [question for row in ask_about_log() for question in row]
    return {**name_fields(ask_about_test(project)), **name_fields(ask_about_build(project)), **name_fields(log)}


def fill(pdf: bytes, values: dict[str, str], path: Path, name: str = "boatshed") -> Path:
    """Fill fields by question key with pikepdf, another library than the one that reads them; True ticks a box."""
    names = name_all(name)
    ends = {"+": "-yes", "~": "-no"}
    wanted = {}
    for key, value in values.items():
        plain = key.rstrip("+~")
        wanted[names.get(plain, plain) + ends.get(key[-1], "")] = value
    with pikepdf.open(io.BytesIO(pdf)) as document:
        found = set()
        for field in document.Root.AcroForm.Fields:
            label = str(field.T)
            if label in wanted:
                found.add(label)
                if pikepdf.Name("/Btn") == field.FT:
                    on = next(key for key in field.AP.N if key != "/Off")
                    field.V = field.AS = pikepdf.Name(on)
                else:
                    field.V = pikepdf.String(wanted[label])
        assert found == set(wanted), set(wanted) - found
        document.save(path)
    return path


GOOD = {
    "test.date": "2026-04-01",
    "test.by": "O'Brien, José",
    "test.temperature": "68",
    "leak.lamp+": "",
    "leak.smoke~": "",
    "reading.planer": "0.21",
    "reading.table saw": "45 Pa",
    "speed.planer": "4100",
    "baseline.reading": "0.21 in w.g.",
    "test.notes": 'seam at the back: sealed # twice\n"done"',
}


def test_a_filled_form_goes_into_the_log_and_reads_back(forms, shop: Path, tmp_path: Path) -> None:
    done = record_filled(fill(forms["boatshed"], GOOD, tmp_path / "filled.pdf"), shop, today=TODAY)
    assert not done.warnings
    assert done.log == find_log(shop) == shop.with_name("boatshed.as-built.yaml")
    record = load_record(shop)
    assert record is not None
    (entry,) = record.entries
    assert (entry.date, entry.by, entry.kind) == (datetime.date(2026, 4, 1), "O'Brien, José", "test")
    assert entry.revision == load_job("boatshed").project.title.revision
    assert entry.digest == load_job("boatshed").digest
    assert entry.get_value("reading.planer") == pytest.approx(0.21 * 249.08891)
    assert entry.get_value("reading.table saw") == pytest.approx(45.0)
    assert entry.get_value("speed.planer") == pytest.approx(4100 * 0.00508)
    assert entry.get_value("test.temperature") == pytest.approx(293.15)
    assert entry.answers["leak.lamp"].yes is True
    assert entry.answers["leak.smoke"].yes is False
    assert "leak.gates" not in entry.answers, "a box left alone is not answered, not passed and not failed"
    assert entry.notes == 'seam at the back: sealed # twice / "done"'


def test_a_decimal_comma_goes_into_the_log_with_its_unit(forms, shop: Path, tmp_path: Path) -> None:
    """What a comma can only mean as a decimal is read so, and the log written with it can be read back."""
    done = record_filled(
        fill(forms["boatshed"], {**GOOD, "reading.planer": "0,21"}, tmp_path / "one.pdf"), shop, today=TODAY
    )
    assert done.entries[0].get_value("reading.planer") == pytest.approx(0.21 * 249.08891)
    record = load_record(shop)
    assert record is not None
    assert record.entries[0].get_value("reading.planer") == pytest.approx(0.21 * 249.08891)


def test_bare_numbers_on_a_sheet_printed_in_other_units_are_meant_in_those(shop: Path, tmp_path: Path) -> None:
    """A sheet of an inch shop, printed with --units metric: 52 beside "Pa" is 52 Pa, never 52 inches of water."""
    job = load_job("boatshed")
    metric = replace(job, project=apply_asked(job.project, Asked(units="metric")))
    values = {
        "test.date": "2026-04-01",
        "reading.planer": "52",
        "reading.table saw": "0.2 inH2O",
        "speed.planer": "20.5",
    }
    done = record_filled(fill(write_pages(metric, FORMS)[0], values, tmp_path / "filled.pdf"), shop, today=TODAY)
    (entry,) = done.entries
    assert entry.get_value("reading.planer") == pytest.approx(52.0)
    assert entry.get_value("reading.table saw") == pytest.approx(0.2 * 249.08891)
    assert entry.get_value("speed.planer") == pytest.approx(20.5)
    read_back = load_record(shop)
    assert read_back is not None
    assert read_back.entries == done.entries


@pytest.mark.parametrize("name", ["boatshed", "schoolroom"])
def test_every_field_filled_goes_round(name: str, forms, tmp_path: Path) -> None:
    project_path = Path(shutil.copy(PROJECTS / f"{name}.yaml", tmp_path / f"{name}.yaml"))
    project = load_job(name).project
    kinds = {
        "length_mm": "301.5 mm", "length_m": "1.85 m", "pressure_pa": "120 Pa", "speed_ms": "20.5 m/s",
        "temperature_k": "19 degC", "time_h": "85.5 h", "count": "2", "date": "2026-03-30", "words": "as drawn",
    }  # fmt: skip
    questions = [*ask_about_test(project), *ask_about_build(project), *(q for row in ask_about_log() for q in row)]
    values = {q.key + ("+" if q.kind == "yes no" else ""): kinds.get(q.kind, "") for q in questions}
    done = record_filled(fill(forms[name], values, tmp_path / "all.pdf", name), project_path, today=TODAY)
    record = load_record(project_path)
    assert record is not None
    assert record.entries == done.entries
    assert [entry.kind for entry in record.entries][:3] == ["test", "as built", "cleaning"]
    asked = {q.key for q in questions if not q.key.startswith("log.") and q.kind not in ("date", "words")}
    assert {key for entry in record.entries for key in entry.answers if not key.startswith("cleaning.")} == asked
    for entry in record.entries:
        for key, answer in entry.answers.items():
            if answer.kind == "length_mm":
                assert answer.value == pytest.approx(301.5), key
            elif answer.kind == "pressure_pa":
                assert answer.value == pytest.approx(120.0), key


def test_earlier_bytes_never_change(forms, shop: Path, tmp_path: Path) -> None:
    fill(forms["boatshed"], GOOD, tmp_path / "one.pdf")
    record_filled(tmp_path / "one.pdf", shop, today=TODAY)
    before = find_log(shop).read_bytes()
    fill(
        forms["boatshed"],
        {"log.1.date": "2026-04-02", "log.1.before": "1.2", "log.1.after": "0.25"},
        tmp_path / "two.pdf",
    )
    record_filled(tmp_path / "two.pdf", shop, today=TODAY)
    after = find_log(shop).read_bytes()
    assert after.startswith(before)
    assert len(after) > len(before)
    record = load_record(shop)
    assert record is not None
    assert record.entries[1].get_value("cleaning.before") == pytest.approx(1.2 * 249.08891)


def test_log_without_a_last_line_end_is_added_to_below(shop: Path) -> None:
    entry = Entry(date=TODAY, by="Jo", kind="test", revision="B", digest="0" * 12)
    append_entry(shop, (entry,))
    log = find_log(shop)
    log.write_bytes(log.read_bytes().rstrip(b"\n"))
    before = log.read_bytes()
    append_entry(shop, (replace(entry, by="Al"),))
    assert log.read_bytes().startswith(before)
    record = load_record(shop)
    assert record is not None
    assert [each.by for each in record.entries] == ["Jo", "Al"]


def test_the_same_sheet_twice_adds_nothing(forms, shop: Path, tmp_path: Path) -> None:
    fill(forms["boatshed"], GOOD, tmp_path / "one.pdf")
    record_filled(tmp_path / "one.pdf", shop, today=TODAY)
    before = find_log(shop).read_bytes()
    again = record_filled(tmp_path / "one.pdf", shop, today=TODAY)
    assert again.log is None
    assert "in the log already" in again.warnings[0]
    assert find_log(shop).read_bytes() == before


def test_sheet_of_another_revision_warns_and_keeps_its_own(forms, shop: Path, tmp_path: Path) -> None:
    shop.write_text(shop.read_text(encoding="utf-8") + "\n# a later thought\n", encoding="utf-8")
    done = record_filled(fill(forms["boatshed"], GOOD, tmp_path / "old.pdf"), shop, today=TODAY)
    assert "the sheet belongs to revision" in done.warnings[0]
    assert done.entries[0].digest == load_job("boatshed").digest


@pytest.mark.parametrize(
    ("change", "says"),
    [
        ({"reading.planer": "9O.5"}, "planer: gauge: '9O.5' has the unknown unit 'O.5'"),
        ({"reading.planer": "60"}, "is more than this blower can make"),
        ({"reading.planer": "abc"}, "has no number"),
        ({"reading.planer": "1,250"}, "has a comma"),
        ({"speed.planer": "-3 m/s"}, "is negative"),
        ({"test.date": "2026-04-03"}, "is in the future"),
        ({"test.date": "12/11/2026"}, "is not a date"),
        ({"test.date": ""}, "the date is blank"),
        ({"leak.lamp~": ""}, "yes and no are both ticked"),
        ({"test.temperature": "45 in"}, "is a length, not a temperature"),
        ({"test.temperature": "680"}, "is no temperature to work in"),
        ({"speed.planer": "400000"}, "is faster than air in any duct"),
        ({"built.date": "2026-04-01", "pail.filter A": "-11 7/8"}, "filter A: pail across, mean of three: '-11 7/8' "
        "is negative"),
        ({"built.date": "2026-04-01", "pail.filter A": "0"}, "is nothing"),
        ({"built.date": "2026-04-01", "filters.count": "1.5"}, "is not a whole number"),
        ({"log.2.before": "1.1"}, "cleaning: date: the date is blank"),
    ],
)  # fmt: skip
def test_bad_answer_is_named_and_nothing_is_written(forms, shop: Path, tmp_path: Path, change: dict, says: str) -> None:
    append_entry(shop, (Entry(date=TODAY, by="Jo", kind="test", revision="B", digest="0" * 12),))
    before = find_log(shop).read_bytes()
    with pytest.raises(BadProject) as caught:
        record_filled(fill(forms["boatshed"], {**GOOD, **change}, tmp_path / "bad.pdf"), shop, today=TODAY)
    assert says in str(caught.value)
    assert "bad.pdf" in str(caught.value)
    assert find_log(shop).read_bytes() == before


def test_all_faults_of_a_form_at_once(forms, shop: Path, tmp_path: Path) -> None:
    bad = {**GOOD, "reading.planer": "abc", "speed.planer": "4,100", "leak.lamp~": ""}
    with pytest.raises(BadProject) as caught:
        record_filled(fill(forms["boatshed"], bad, tmp_path / "bad.pdf"), shop, today=TODAY)
    assert len(caught.value.problems) == 3


def test_empty_form_adds_nothing(forms, shop: Path, tmp_path: Path) -> None:
    (tmp_path / "blank.pdf").write_bytes(forms["boatshed"])
    done = record_filled(tmp_path / "blank.pdf", shop, today=TODAY)
    assert done.log is None
    assert "no blank of the form is filled" in done.warnings[0]
    assert not find_log(shop).exists()


def test_a_day_and_a_name_alone_are_no_test(forms, shop: Path, tmp_path: Path) -> None:
    alone = fill(forms["boatshed"], {"test.date": "2026-04-01", "test.by": "Jo"}, tmp_path / "alone.pdf")
    assert record_filled(alone, shop, today=TODAY).log is None
    cleaned = fill(forms["boatshed"], {"log.1.date": "2026-04-01"}, tmp_path / "cleaned.pdf")
    assert [entry.kind for entry in record_filled(cleaned, shop, today=TODAY).entries] == ["cleaning"]


def test_doubtful_answers_are_kept_with_a_warning(forms, shop: Path, tmp_path: Path) -> None:
    doubtful = {
        **GOOD, "baseline.reading": "0.9", "built.date": "2026-04-01", "pail.filter A": "300", "box.width": "46",
    }  # fmt: skip
    done = record_filled(fill(forms["boatshed"], doubtful, tmp_path / "odd.pdf"), shop, today=TODAY)
    assert len(done.warnings) == 2
    assert "are the same reading, and differ" in done.warnings[0]
    assert "pail.filter A: 300 in is 25 times what was drawn" in done.warnings[1]
    assert load_record(shop) is not None


def test_refused_sheet_says_that_the_log_is_as_it_was(forms, shop: Path, tmp_path: Path, capsys) -> None:
    bad = fill(forms["boatshed"], {**GOOD, "reading.planer": "abc"}, tmp_path / "bad.pdf")
    assert run_record(argparse.Namespace(project=str(shop), form=str(bad), show=False)) == 2
    assert "1 problem; nothing was recorded, the log is as it was" in capsys.readouterr().err


def make_plain_pdf(path: Path) -> Path:
    pdf = pypdf.PdfWriter()
    pdf.add_blank_page(612, 792)
    pdf.write(path)
    return path


def make_foreign_pdf(path: Path) -> Path:
    from reportlab.pdfgen.canvas import Canvas

    canvas = Canvas(str(path))
    canvas.drawString(50, 50, "another form")
    canvas.acroForm.textfield(name="surname", x=50, y=100)
    canvas.save()
    return path


def test_other_files_get_a_plain_message(shop: Path, tmp_path: Path) -> None:
    make_plain_pdf(tmp_path / "scan.pdf")
    make_foreign_pdf(tmp_path / "tax.pdf")
    (tmp_path / "photo.jpg").write_bytes(b"\xff\xd8\xff\xe0 not a pdf")
    (tmp_path / "torn.pdf").write_bytes(b"%PDF-1.4\n1 0 obj << /Type")
    locked = pypdf.PdfWriter(clone_from=tmp_path / "tax.pdf")
    locked.encrypt("secret")
    locked.write(tmp_path / "locked.pdf")
    for name, says in [
        ("scan.pdf", "no form fields found"),
        ("tax.pdf", "its form is not one of this project's"),
        ("photo.jpg", "this is not a PDF"),
        ("torn.pdf", "this PDF is damaged"),
        ("locked.pdf", "this PDF is locked with a password"),
        ("none.pdf", "there is no such file"),
        ("", "this is a folder"),
    ]:
        with pytest.raises(BadProject) as caught:
            record_filled(tmp_path / name, shop, today=TODAY)
        assert says in str(caught.value), name
    assert not find_log(shop).exists()


def test_filled_blank_of_a_vanished_machine_is_not_lost_in_silence(forms, shop: Path, tmp_path: Path) -> None:
    text = shop.read_text(encoding="utf-8")
    shop.write_text(text.replace("planer", "thicknesser"), encoding="utf-8")
    with pytest.raises(BadProject, match="the project has no machine, port or flue of that name"):
        record_filled(fill(forms["boatshed"], GOOD, tmp_path / "filled.pdf"), shop, today=TODAY)


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("hello", "this is not a list of entries"),
        ("- date: tomorrow\n  kind: test\n", "1:9 [0].date: 'tomorrow' is not a date"),
        ("- kind: test\n", "the date is missing"),
        ("- date: 2026-04-01\n  kind: tset\n", "did you mean 'test'?"),
        ("- date: 2026-04-01\n  kind: test\n  colour: red\n", "3:3 [0].colour: this key is not known"),
        ("- date: 2026-04-01\n  kind: test\n  values:\n    'reading.planer': 'high'\n",
         "4:23 [0].values.reading.planer: 'high'"),
        ("- date: 2026-04-01\n  kind: test\n  values:\n    'reading.planer': '3 ft'\n", "is a length, not a pressure"),
        ("- date: 2026-04-01\n  kind: test\n  values:\n    'weather': 'fair'\n", "nothing of that name is recorded"),
        ("- date: 2026-04-01\n  kind: test\n  values: 3\n", "this is not a table of values"),
        ("- 5\n", "this is not an entry"),
        ("- date: [1]\n", "this is not plain text"),
        ("- date: '2026-04-01\n", "boatshed.as-built.yaml"),
        ("- date: 2036-04-01\n  kind: test\n", "1:9 [0].date: 2036-04-01 is in the future (today is 2026-04-02)"),
        ("- date: 2026-04-01\n  kind: test\n  values:\n    'reading.planer': '222 inH2O'\n",
         "4:23 [0].values.reading.planer: '222 inH2O' is more than any shop blower makes"),
        ("- date: 2026-04-01\n  kind: test\n  values:\n    'pail.filter A': '-3 mm'\n", "'-3 mm' is negative"),
        ("- date: 2026-04-01\n  kind: test\n  values:\n    'leak.lamp': 'yes'\n    'leak.lamp': 'no'\n",
         "the key 'leak.lamp' stands twice"),
        ("", "the log is empty"),
    ],
)  # fmt: skip
def test_log_edited_into_nonsense_is_named_and_left_alone(
    forms, shop: Path, tmp_path: Path, text: str, says: str
) -> None:
    log = find_log(shop)
    log.write_text(text, encoding="utf-8")
    with pytest.raises(BadProject) as caught:
        record_filled(fill(forms["boatshed"], GOOD, tmp_path / "filled.pdf"), shop, today=TODAY)
    assert says in str(caught.value)
    assert log.read_text(encoding="utf-8") == text


def test_interrupted_write_leaves_the_old_log(shop: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    append_entry(shop, (Entry(date=TODAY, by="Jo", kind="test", revision="B", digest="0" * 12),))
    before = find_log(shop).read_bytes()

    def fail(*_: object, **__: object) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr("os.replace", fail)
    with pytest.raises(CannotWrite, match="disk is full"):
        append_entry(shop, (Entry(date=TODAY, by="Al", kind="test", revision="B", digest="0" * 12),))
    monkeypatch.undo()
    assert find_log(shop).read_bytes() == before
    assert sorted(path.name for path in shop.parent.iterdir()) == ["boatshed.as-built.yaml", "boatshed.yaml"]


def test_words_of_the_user_stay_data() -> None:
    for words in ["it's: {a} #b", "- x", "*y &z !t %", "yes", "2026-01-01", "Łódź ⅛", "a\nb\r\nc", "\x07bell\u202e"]:
        text = f"- date: 2026-04-01\n  kind: test\n  by: {quote(words)}\n  notes: {quote(words)}\n"
        (entry,) = read_log(text.encode(), "log").entries
        assert entry.by == entry.notes
        assert "\n" not in entry.by
        assert "\u202e" not in entry.by


def test_asking_at_the_terminal(shop: Path) -> None:
    said: list[str] = []
    answers = iter(["x", "1", "", "Jo", "cold", "19 degC", "yes", "", "", "maybe", "y", "", "", "", "0.21", "."])
    done = record_asked(shop, lambda _: next(answers), said.append, today=TODAY)
    (entry,) = done.entries
    assert entry.date == TODAY
    assert entry.by == "Jo"
    assert entry.get_value("test.temperature") == pytest.approx(292.15)
    assert entry.answers["leak.smoke"].yes is True
    assert entry.get_value("reading.planer") == pytest.approx(0.21 * 249.08891)
    assert any("'cold' has no number" in line for line in said)
    assert any("neither yes nor no" in line for line in said)
    assert load_record(shop) is not None


def test_input_that_ends_early_writes_nothing(shop: Path) -> None:
    def ask(_: str) -> str:
        raise EOFError

    with pytest.raises(EOFError):
        record_asked(shop, ask, print, today=TODAY)
    assert not find_log(shop).exists()


def test_command_shows_the_log(shop: Path, capsys: pytest.CaptureFixture[str]) -> None:
    asked = argparse.Namespace(project=str(shop), form=None, show=True)
    assert run_record(asked) == 0
    assert "no log yet" in capsys.readouterr().out
    append_entry(shop, (Entry(date=TODAY, by="Jo", kind="test", revision="B", digest="0" * 12, notes="all well"),))
    assert run_record(asked) == 0
    assert "all well" in capsys.readouterr().out


def test_hold_points_of_the_steps_are_kept_as_written(shop: Path, tmp_path: Path) -> None:
    pdf = write_pages(load_job("boatshed"), ("steps", "as-built"))[0]
    filled = fill(pdf, {"step-cut_panels-1": "1/32 in off", "built.date": "2026-03-30"}, tmp_path / "steps.pdf")
    (entry,) = record_filled(filled, shop, today=TODAY).entries
    assert entry.kind == "as built"
    assert entry.answers["step.cut_panels.1"].written == "1/32 in off"
    record = load_record(shop)
    assert record is not None
    assert record.entries[0].answers["step.cut_panels.1"].written == "1/32 in off"


def test_hold_points_are_asked_at_the_terminal_under_the_keys_of_the_form(shop: Path) -> None:
    """Asked in the order of the steps, each with the value wanted; blank skips, a dot is done."""
    holds = [(step, hold) for step in load_job("boatshed").plan.steps for hold in step.holds]
    step, hold = holds[1]
    asked: list[str] = []
    answers = iter(["4", "2026-03-30", "Jo", "", "5.2 in", "."])

    def ask(question: str) -> str:
        asked.append(question)
        return next(answers)

    (entry,) = record_asked(shop, ask, print, today=TODAY).entries
    assert entry.kind == "as built"
    assert entry.by == "Jo"
    assert {key: answer.written for key, answer in entry.answers.items()} == {key_hold(hold.field): "5.2 in"}
    assert asked[4] == f"{step.number} {step.title}: {hold.what}, wanted {hold.value} ({hold.tolerance}): "
    assert len({key_hold(hold.field) for _, hold in holds}) == len(holds)


def run_command(*words: str, answers: str = "") -> subprocess.CompletedProcess[str]:
    return subprocess.run(
        [sys.executable, "-m", "packet", "record", *words],
        capture_output=True, text=True, input=answers, cwd=PROJECTS.parent, check=False,
    )  # fmt: skip


def test_the_command_itself(forms, shop: Path, tmp_path: Path) -> None:
    filled = fill(forms["boatshed"], {"log.1.date": "2026-01-05", "log.1.before": "1.1"}, tmp_path / "filled.pdf")
    done = run_command(str(shop), str(filled))
    assert (done.returncode, done.stderr) == (0, "")
    assert "recorded: cleaning, 2026-01-05, 1 answer\n" in done.stdout
    assert "boatshed.as-built.yaml; the next build compares it" in done.stdout
    bad = run_command(str(shop), str(make_plain_pdf(tmp_path / "scan.pdf")))
    assert bad.returncode == 2
    assert "no form fields found" in bad.stderr
    assert "Traceback" not in bad.stderr
    asked = run_command(str(shop), answers="3\n2026-01-09\n80\n1.3\n0.3\nJo\n\n")
    assert asked.returncode == 0, asked.stderr
    cut = run_command(str(shop), answers="3\n")
    assert cut.returncode == 2
    assert "ended early" in cut.stderr
    shown = run_command(str(shop), "--show")
    assert "cleaning.before: 1.3 inH2O" in shown.stdout
    record = load_record(shop)
    assert record is not None
    assert [entry.date.day for entry in record.entries] == [5, 9]


def test_form_and_project_in_either_order_or_the_form_alone(forms, shop: Path, tmp_path: Path, monkeypatch) -> None:
    filled = fill(forms["boatshed"], {"log.1.date": "2026-01-05", "log.1.before": "1.1"}, tmp_path / "filled.pdf")
    monkeypatch.chdir(tmp_path)
    for project, form in ((str(filled), str(shop)), (str(filled), None), (str(shop), str(filled))):
        assert run_record(argparse.Namespace(project=project, form=form, show=False)) == 0
    record = load_record(shop)
    assert record is not None
    assert len(record.entries) == 1, "the same sheet adds nothing the second time"


def test_form_whose_project_is_gone_says_so(forms, tmp_path: Path, monkeypatch) -> None:
    filled = fill(forms["boatshed"], {"log.1.date": "2026-01-05"}, tmp_path / "filled.pdf")
    monkeypatch.chdir(tmp_path)
    with pytest.raises(BadProject, match="its project file was not found"):
        run_record(argparse.Namespace(project=str(filled), form=None, show=False))


def test_a_room_that_fell_too_far_is_told_when_it_is_recorded(tmp_path: Path) -> None:
    path = Path(shutil.copy(PROJECTS / "outdoor.yaml", tmp_path / "outdoor.yaml"))
    for number, (reading, stops) in enumerate((("6.1", True), ("1.5 Pa", False), ("0.0245 inH2O", True))):
        said = iter(["1", f"2026-03-0{number + 1}", "", "", reading, "."])
        done = record_asked(path, lambda _, said=said: next(said), lambda _: None, today=TODAY)  # type: ignore[misc]
        assert any(warning.startswith("STOP") for warning in done.warnings) is stops, reading
