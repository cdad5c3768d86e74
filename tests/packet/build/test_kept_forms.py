"""A build empties no form: what is typed into an old PDF and not in the log stays beside the new one, and is named.

Filled with pypdf and with pikepdf, two general-purpose libraries; a form is saved anew or added to at its end.
"""

from __future__ import annotations

import datetime
import io
import os
import shlex
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pikepdf
import pypdf
import pytest
from pypdf.annotations import FreeText

from packet.build import build, kept_forms
from packet.build.build import build_packet
from packet.build.kept_forms import Kept, is_as_written, name_kept
from packet.build.outputs import Output, write_only
from packet.cli.record_ask import record_filled
from packet.job import Job
from tests.shop import load_job, write_pages

TOP = Path(__file__).parents[3]
FORMS = ("commissioning", "as-built", "maintenance")
SAVED = datetime.datetime(2026, 3, 20, 12).timestamp()
NAME = "packet-filled-2026-03-20.pdf"
DAY, TEXT = {"test_date": "2026-03-19", "test_by": "Jo"}, {"reading_planer": "0.21"}


def write_forms(job: Job, folder: Path) -> None:
    with (folder / "packet.pdf").open("wb") as stream:
        write_only(job, stream, FORMS)


@pytest.fixture(autouse=True)
def quick(monkeypatch: pytest.MonkeyPatch) -> None:
    """A build that computes everything and writes the pages with forms."""
    monkeypatch.setattr(build, "OUTPUTS", (Output("writing forms", write_forms, "packet.pdf"),))


@pytest.fixture
def shop(tmp_path: Path) -> Path:
    """A project file with its packet beside it, as a build left it."""
    path = tmp_path / "boatshed.yaml"
    path.write_bytes((TOP / "projects" / "boatshed.yaml").read_bytes())
    (tmp_path / "out").mkdir()
    (tmp_path / "out" / "packet.pdf").write_bytes(write_pages(load_job("boatshed"), FORMS)[0])
    return path


def add_to(path: Path, values: dict[str, str], incremental: bool = False) -> None:
    """Fill a form in place with pypdf, as a viewer saves it; a value that begins with / ticks a box."""
    writer = pypdf.PdfWriter(io.BytesIO(path.read_bytes()), incremental=incremental)
    for page in writer.pages:
        if "/Annots" in page:
            writer.update_page_form_field_values(page, values)
    writer.write(path)
    os.utime(path, (SAVED, SAVED))


def fill_anew(path: Path, values: dict[str, str]) -> None:
    """Fill a form in place with pikepdf, which packs it into object streams: nothing typed can be seen in the bytes."""
    with pikepdf.open(io.BytesIO(path.read_bytes())) as document:
        for field in document.Root.AcroForm.Fields:
            if str(field.T) in values:
                is_tick = pikepdf.Name("/Btn") == field.FT
                on = next(key for key in field.AP.N if key != "/Off") if is_tick else ""
                field.V = pikepdf.Name(on) if is_tick else pikepdf.String(values[str(field.T)])
        document.save(path, object_stream_mode=pikepdf.ObjectStreamMode.generate)
    os.utime(path, (SAVED, SAVED))


def build_again(shop: Path, only: tuple[str, ...] | None = None) -> tuple[Kept, ...]:
    return build_packet(shop, shop.parent / "out", only).kept


def read_value(path: Path, field: str) -> str:
    return str((pypdf.PdfReader(path).get_fields() or {})[field].get("/V"))


def list_out(shop: Path) -> list[str]:
    return sorted(path.name for path in (shop.parent / "out").iterdir())


@pytest.mark.parametrize(
    "save",
    [add_to, lambda path, values: add_to(path, values, incremental=True), fill_anew],
    ids=["anew", "added at the end", "packed"],
)
def test_what_was_typed_is_kept_through_every_later_build(save: Callable[..., None], shop: Path) -> None:
    out = shop.parent / "out"
    save(out / "packet.pdf", DAY | TEXT)
    assert build_again(shop) == (Kept("packet.pdf", NAME, "filled"),)
    assert build_again(shop) == ()
    assert list_out(shop) == [NAME, "packet.pdf"]
    assert read_value(out / NAME, "reading_planer") == "0.21"
    assert read_value(out / "packet.pdf", "reading_planer") == ""
    assert (out / NAME).stat().st_mtime == SAVED


def test_a_second_filled_form_of_the_same_day_takes_another_name(shop: Path) -> None:
    packet = shop.parent / "out" / "packet.pdf"
    for number, text in enumerate(("0.21", "0.22", "0.23"), 1):
        add_to(packet, DAY | {"reading_planer": text})
        name = NAME if number == 1 else NAME.replace(".pdf", f"-{number}.pdf")
        assert build_again(shop) == (Kept("packet.pdf", name, "filled"),)
    packet.write_bytes((packet.parent / NAME).read_bytes())  # an old one put back: its bytes are kept already
    assert build_again(shop) == (Kept("packet.pdf", NAME, "filled"),)
    names = ["packet-filled-2026-03-20-2.pdf", "packet-filled-2026-03-20-3.pdf", NAME, "packet.pdf"]
    assert list_out(shop) == names
    assert [read_value(packet.with_name(name), "reading_planer") for name in names] == ["0.22", "0.23", "0.21", ""]


@pytest.mark.parametrize("save", [add_to, fill_anew])
def test_an_empty_form_is_not_kept_even_if_it_was_saved(save: Callable[..., None], shop: Path) -> None:
    save(shop.parent / "out" / "packet.pdf", {})
    assert build_again(shop) == ()
    assert list_out(shop) == ["packet.pdf"]


def test_a_ticked_box_counts_as_typed(shop: Path) -> None:
    fill_anew(shop.parent / "out" / "packet.pdf", {"leak_lamp-yes": "/Yes"})
    assert build_again(shop) == (Kept("packet.pdf", NAME, "filled"),)


HOLD = {"built_date": "2026-03-19", "step-cut_panels-1": "18.1 mm"}
LOG = {"log_1_date": "2026-03-19", "log_1_by": "Jo"}


@pytest.mark.parametrize("values", [DAY | TEXT, {**DAY, **TEXT, "test_notes": "sealed\ntwice"}, LOG, HOLD])
def test_recorded_values_are_not_kept_and_one_more_value_is(values: dict[str, str], shop: Path) -> None:
    packet = shop.parent / "out" / "packet.pdf"
    if values is HOLD:
        packet.write_bytes(write_pages(load_job("boatshed"), (*FORMS, "steps"))[0])
    add_to(packet, values)
    done = record_filled(packet, shop, today=datetime.date(2026, 4, 1))
    assert done.entries
    old = packet.read_bytes()
    assert build_again(shop) == ()
    packet.write_bytes(old)
    add_to(packet, {"speed_planer": "4100", **DAY})
    assert build_again(shop) == (Kept("packet.pdf", NAME, "filled"),)


def test_a_day_and_a_name_alone_are_in_no_log_and_so_kept(shop: Path) -> None:
    packet = shop.parent / "out" / "packet.pdf"
    add_to(packet, {**LOG, "built_date": "2026-03-19", "built_by": "Jo"})
    record_filled(packet, shop, today=datetime.date(2026, 4, 1))
    assert build_again(shop) == (Kept("packet.pdf", NAME, "filled"),)


def test_notes_put_on_a_page_are_kept(shop: Path) -> None:
    packet = shop.parent / "out" / "packet.pdf"
    writer = pypdf.PdfWriter(clone_from=packet)
    writer.add_annotation(0, FreeText(text="cut 2 mm less", rect=(50, 550, 200, 650)))
    writer.write(packet.with_name("helper.pdf"))
    os.utime(packet.with_name("helper.pdf"), (SAVED, SAVED))
    assert build_again(shop) == (Kept("helper.pdf", "helper-filled-2026-03-20.pdf", "marked"),)


def spoil(path: Path) -> None:
    path.write_bytes(path.read_bytes()[:2000])


def lock(path: Path) -> None:
    writer = pypdf.PdfWriter(clone_from=path)
    writer.encrypt("secret")
    writer.write(path)


@pytest.mark.parametrize("harm", [spoil, lock, lambda path: path.write_bytes(b"not a PDF")])
def test_a_damaged_or_locked_form_is_kept_and_stops_nothing(harm: Callable[[Path], Any], shop: Path) -> None:
    packet = shop.parent / "out" / "packet.pdf"
    harm(packet)
    os.utime(packet, (SAVED, SAVED))
    before = packet.read_bytes()
    assert build_again(shop) == (Kept("packet.pdf", NAME, "unread"),)
    assert packet.with_name(NAME).read_bytes() == before
    assert is_as_written(packet.read_bytes())


def test_a_form_printed_alone_is_kept_when_it_is_printed_again_and_when_all_is_built(shop: Path) -> None:
    out = shop.parent / "out"
    only = out / "only-as-built.pdf"
    kept = "only-as-built-filled-2026-03-20.pdf"
    assert build_again(shop, ("as-built",)) == ()
    for name, again in ((kept, ("as-built",)), (kept.replace(".pdf", "-2.pdf"), None)):
        add_to(only, {"built_by": f"Jo {name}"})
        assert build_again(shop, again) == (Kept("only-as-built.pdf", name, "filled"),)
        assert read_value(out / name, "built_by") == f"Jo {name}"
    assert build_again(shop) == ()
    assert list_out(shop) == [kept.replace(".pdf", "-2.pdf"), kept, "packet.pdf"]


def test_a_link_in_the_packets_place_is_not_read_through(shop: Path, tmp_path: Path) -> None:
    packet = shop.parent / "out" / "packet.pdf"
    packet.rename(tmp_path / "mine.pdf")
    add_to(tmp_path / "mine.pdf", DAY | TEXT)
    packet.symlink_to(tmp_path / "mine.pdf")
    assert build_again(shop) == ()
    assert read_value(tmp_path / "mine.pdf", "reading_planer") == "0.21"


def test_a_form_that_is_saved_while_it_is_looked_at_is_kept(shop: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    packet = shop.parent / "out" / "packet.pdf"
    real = kept_forms.look_at_form

    def save_meanwhile(*asked: Any) -> Any:
        state = real(*asked)
        add_to(packet, DAY | TEXT)
        return state

    monkeypatch.setattr(kept_forms, "look_at_form", save_meanwhile)
    assert build_again(shop) == (Kept("packet.pdf", NAME, "filled"),)
    assert read_value(packet.with_name(NAME), "reading_planer") == "0.21"


@pytest.mark.parametrize("name", ["boatshed", "schoolroom", "minimal"])
def test_a_form_as_a_build_left_it_is_told_without_the_library(name: str, monkeypatch: pytest.MonkeyPatch) -> None:
    data = write_pages(load_job(name), FORMS)[0]
    monkeypatch.setitem(sys.modules, "pypdf", None)
    assert is_as_written(data)
    assert kept_forms.look_at_form(data, load_job(name).project, None) is None
    for other in (data + data[-200:], data[1:], data.replace(b"/V ()", b"/V (a)", 1), data + b"\n"):
        assert not is_as_written(other)


@pytest.mark.parametrize("changed", [1e30, -1e30, float("nan")])
def test_a_time_that_is_none_gives_a_name_without_a_day(changed: float) -> None:
    assert name_kept("packet.pdf", changed) == "packet-filled.pdf"


def run(*words: str) -> subprocess.CompletedProcess[str]:
    return subprocess.run(
        [sys.executable, "-m", "packet", *words], capture_output=True, text=True, cwd=TOP, check=False
    )


def test_the_run_says_it_and_the_command_it_names_records_it(shop: Path, tmp_path: Path) -> None:
    """Also with -q; the folder has a space in its name."""
    out = tmp_path / "my out"
    out.mkdir()
    (out / "only-as-built.pdf").write_bytes(write_pages(load_job("boatshed"), FORMS)[0])
    add_to(out / "only-as-built.pdf", DAY | TEXT)
    done = run("build", str(shop), "--only", "as-built", "-q", "-o", str(out))
    assert done.returncode == 0, done.stderr
    note, advice = done.stderr.splitlines()
    kept = out / "only-as-built-filled-2026-03-20.pdf"
    assert note == f"note: the old only-as-built.pdf has values typed in that are not in the log; it is kept as {kept}"
    words = shlex.split(advice.partition(": ")[2])
    assert words == ["collector-packet", "record", str(shop), str(kept)]
    assert "recorded: test, 2026-03-19, 1 answer\n" in run(*words[1:]).stdout
