"""The forms of the finished packet, field by field, looked at with other libraries."""

from __future__ import annotations

import io
from dataclasses import replace

import pikepdf
import pypdf
import pypdfium2
import pytest

from calc.record.questions import Question, ask_about_build, ask_about_log, ask_about_test
from packet.log.names import NO, YES, name_fields
from tests.shop import load_job, make_job, make_project, print_pages, write_whole

FORMS = ("commissioning", "as-built", "maintenance")
OPEN: list[pikepdf.Pdf] = []


@pytest.fixture(scope="module")
def forms() -> bytes:
    return print_pages(make_job(), *FORMS)


def list_planned(project) -> list[str]:
    names = []
    for questions in (ask_about_test(project), ask_about_build(project), [q for row in ask_about_log() for q in row]):
        by_key = name_fields(questions)
        for question in questions:
            name = by_key[question.key]
            names += [name + YES, name + NO] if question.kind == "yes no" else [name]
    return names


def list_widgets(pdf: bytes) -> list[tuple[int, pikepdf.Object]]:
    document = pikepdf.open(io.BytesIO(pdf))
    OPEN.append(document)  # its objects live as long as it does
    return [
        (number, note)
        for number, page in enumerate(document.pages)
        for note in page.get("/Annots", [])
        if note.get("/Subtype") == "/Widget"
    ]


def test_the_whole_packet_holds_every_planned_field_once() -> None:
    """Fields get lost or merged when PDFs are joined: the count in the final file is the plan's."""
    for name in ("boatshed", "schoolroom"):
        job = load_job(name)
        found = [str(note.T) for _, note in list_widgets(write_whole(name)[0])]
        assert len(found) == len(set(found)), "the same name twice is one field"
        holds = sum(len(step.holds) for step in job.plan.steps)
        planned = list_planned(job.project)
        assert set(planned) <= set(found)
        assert len(found) == len(planned) + holds
        fields = pypdf.PdfReader(io.BytesIO(write_whole(name)[0])).get_fields()
        assert fields is not None
        assert set(fields) == set(found)


def test_every_field_has_a_written_appearance_a_tip_and_a_size(forms: bytes) -> None:
    widgets = list_widgets(forms)
    assert len(widgets) > 90
    for _, note in widgets:
        normal = note.AP.N
        if note.FT == "/Btn":
            assert {key for key in normal if key != "/Off"}, "a box has an on state"
            assert all(isinstance(normal[key], pikepdf.Stream) for key in normal)
        else:
            assert isinstance(normal, pikepdf.Stream)
        assert str(note.TU).isascii()
        left, bottom, right, top = (float(v) for v in note.Rect)
        assert right - left > 8
        assert top - bottom > 8


def test_blanks_name_their_units(forms: bytes) -> None:
    tips = {str(note.T): str(note.TU) for _, note in list_widgets(forms)}
    assert tips["reading_planer"] == "planer: gauge (inH2O)"
    assert tips["pail_filter-A"] == "filter A: pail across, mean of three (in)"
    assert tips["test_date"].endswith("(year-month-day)")


def test_filled_values_are_seen_on_paper(forms: bytes, tmp_path) -> None:
    """Fill with pypdf, draw the page, and find ink inside the box."""
    writer = pypdf.PdfWriter(clone_from=io.BytesIO(forms))
    for page in writer.pages:
        writer.update_page_form_field_values(
            page, {"reading_planer": "MMMMMM", "built_by": "MMMMMM"}, auto_regenerate=False
        )
    stream = io.BytesIO()
    writer.write(stream)
    filled = stream.getvalue()
    for name in ("reading_planer", "built_by"):
        number, note = next((n, w) for n, w in list_widgets(filled) if str(w.T) == name)
        rect = [float(v) for v in note.Rect]
        dark = {}
        for label, pdf in (("blank", forms), ("filled", filled)):
            document = pypdfium2.PdfDocument(pdf)
            document.init_forms()
            picture = document[number].render(scale=3, grayscale=True, may_draw_forms=True).to_numpy().squeeze()
            height = picture.shape[0]
            box = picture[
                int(height - 3 * rect[3]) + 2 : int(height - 3 * rect[1]) - 5, int(3 * rect[0]) : int(3 * rect[2])
            ]
            dark[label] = int((box < 100).sum())
        assert dark["filled"] > dark["blank"] + 30, name


def test_tab_order_runs_down_the_page(forms: bytes) -> None:
    seen = [(number, -float(note.Rect[1])) for number, note in list_widgets(forms) if note.FT == "/Tx"]
    first = [index for index, (number, _) in enumerate(seen) if number == 0]
    assert first == list(range(len(first)))


def test_pages_with_fields_say_their_tab_order(forms: bytes) -> None:
    """ISO 32000-1, table 30: Tabs R goes by rows. A page without it leaves the order to each viewer."""
    with pikepdf.open(io.BytesIO(forms)) as document:
        said = [(page.get("/Tabs"), "/Annots" in page) for page in document.pages]
    assert any(has for _, has in said)
    assert all((tabs == "/R") == has for tabs, has in said)


def test_names_that_spell_alike_stay_two_fields() -> None:
    asked = [
        Question(key=f"reading.{name}", group="gates", label=name, kind="pressure_pa")
        for name in ("band saw", "band-saw", "bänd saw")
    ]
    names = name_fields(asked)
    assert len(set(names.values())) == 3
    assert all(name.isascii() for name in names.values())


def test_names_and_tips_keep_to_plain_letters_whatever_the_shop_is_called() -> None:
    project = make_project()
    odd = replace(project.machines[0], name="Łódź ⅛ <b>&\u202eplaner")
    project = replace(project, machines=(odd, *project.machines[1:]), gauge=replace(project.gauge, read_at=None))
    pdf = print_pages(make_job(project), *FORMS)
    for _, note in list_widgets(pdf):
        assert str(note.T).isascii()
        assert str(note.TU).isascii()


def test_same_field_name_twice_is_refused() -> None:
    from packet.pages.kit.kit import Kit

    job = make_job()
    kit = Kit(job.project.display.paper, job.reader)
    kit.field("tap", 20)
    with pytest.raises(ValueError, match="two form fields"):
        kit.field("tap", 20)


def test_a_page_of_nothing_but_fields_can_be_saved() -> None:
    from packet.pages.kit.document import write_chapters
    from packet.pages.kit.kit import Kit
    from packet.pages.kit.sections import Chapter, Section

    job = make_job()
    kit = Kit(job.project.display.paper, job.reader)
    stream = io.BytesIO()
    write_chapters(job, kit, [Chapter(Section("as-built", "x"), [kit.field("only", 40)])], stream, "x", "english")
    assert [str(note.T) for _, note in list_widgets(stream.getvalue())] == ["only"]
