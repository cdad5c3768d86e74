"""A part may be called otherwise in print; its own name stays where it joins files, tables and findings."""

from __future__ import annotations

import csv
import importlib.resources
import io
import re
import shutil
from collections.abc import Iterator
from pathlib import Path

import pytest

from calc.finding import Said
from calc.measures.quantity import Reader
from calc.shapes.part_names import say_rib
from packet.draw.flat import draw_flat
from packet.draw.model import Words
from packet.files.cuts_csv import write_cuts_csv
from packet.files.export import name_file
from packet.words import phrases
from packet.words.part_names import name_part, name_stock
from packet.words.say import say
from tests.shop import load_job

SAMPLES = ("boatshed", "cart", "outdoor", "schoolroom")
TEMPLATES = Path(phrases.__file__).parents[2] / "templates"
INCH = Reader("inch")


@pytest.fixture
def reworded(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Iterator[Path]:
    """A copy of templates/ that is read in its place, every name and word of a part spelt backwards."""
    copy = tmp_path / "templates"
    shutil.copytree(TEMPLATES, copy)
    for path in (copy / "findings").glob("*.md"):
        lines = [_turn_round(line) for line in path.read_text(encoding="utf-8").splitlines()]
        path.write_text("\n".join(lines) + "\n", encoding="utf-8")
    monkeypatch.setattr(importlib.resources, "files", lambda _: copy)
    phrases.take_words.cache_clear()
    yield copy
    phrases.take_words.cache_clear()


def _turn_round(line: str) -> str:
    if line.startswith("#") or not line:
        return line
    key, _, text = line.partition(": ")
    pieces = re.split(r"(\{\{ \w+ \}\})", text)
    return f"{key}: " + "".join(piece if piece.startswith("{{") else piece[::-1] for piece in reversed(pieces))


@pytest.mark.parametrize("sample", SAMPLES)
def test_in_english_a_part_is_called_by_its_own_name(sample: str) -> None:
    job = load_job(sample)
    assert [name_part(part, INCH) for part in job.design.flat_parts] == [part.name for part in job.design.flat_parts]
    for piece in (*job.design.parts, *(job.design.lining.pieces if job.design.lining else ())):
        assert say(piece.called, INCH) == piece.name
    for part in job.design.flat_parts:
        assert name_stock(part.material, INCH) == part.material


@pytest.mark.parametrize("sample", SAMPLES)
def test_every_word_on_a_part_is_looked_up_but_the_users_own(sample: str) -> None:
    """Plain text on a part is a port's name, the number of a strip's piece, or nothing."""
    job = load_job(sample)
    own = {port.name for port in job.project.ports}
    for part in job.design.flat_parts:
        assert isinstance(part.called, Said), part.name
        assert isinstance(part.face, Said), part.name
        assert all(isinstance(note, Said) for note in part.notes), part.name
        for label in (feature.label for feature in part.features):
            assert isinstance(label, Said) or label in own or label == "" or label.isdigit(), (part.name, label)


def test_a_part_called_otherwise_keeps_its_files(reworded: Path) -> None:
    job = load_job("boatshed")
    hole = next(part for part in job.design.flat_parts if part.name == "hole for filter A")
    assert name_part(hole, INCH) == "filter A rof eloh"
    assert say(say_rib("front", 1), INCH) == "1 tnorf bir"
    assert name_stock("closed-cell foam", INCH) == "maof llec-desolc"
    assert name_stock(job.project.box.panel.stock, INCH) == job.project.box.panel.stock
    written = {each.text for each in draw_flat(hole, INCH).entities if isinstance(each, Words)}
    assert {"TSRIF TUC", "XEDNI", "TNORF ot"} <= written
    assert not {"CUT FIRST", "INDEX"} & written
    assert name_file(hole, "B", set()) == "h1-hole-for-filter-a-rev-b-mm"
    table = csv.DictReader(io.StringIO(write_cuts_csv(job.design, job.reader)))
    assert {part.name for part in job.design.parts} <= {row["part"] for row in table}
