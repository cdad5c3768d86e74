"""A project whose every text attacks what prints it is built like any other: the texts are data in every output."""

from __future__ import annotations

import csv
import html
import io
import json
import os
import re
import subprocess
import sys
from pathlib import Path
from xml.etree import ElementTree

import ezdxf
import pytest
from pypdf import PdfReader

TOP = Path(__file__).parents[3]
TITLE = "<b>&amp; R&D <script>alert(1)</script>"
NOTE = "gap <A> under 1/8 in & seal {{ 7*7 }} {% raw %} %s"
MACHINE = "=HYPERLINK(1) <img src=x onerror=alert(1)>"
PORT = "../../etc/<onDraw name=x/> \\P{A};"
STOCK = "@SUM(1+1)<para>%%c"


def quote(text: str) -> str:
    return "'" + text.replace("'", "''") + "'"


@pytest.fixture(scope="module")
def out(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("hostile")
    text = (TOP / "projects" / "boatshed.yaml").read_text(encoding="utf-8")
    text = text.replace("title: Tidewater boatshed collector (invented)", f"title: {quote(TITLE)}")
    text = text.replace("drawn_by: build committee", f"drawn_by: {quote(NOTE)}\n  notes: [{quote(NOTE)}]")
    text = text.replace("name: drum sander", f"name: {quote(MACHINE)}").replace(
        "name: inspection,", f"name: {quote(PORT)},"
    )
    text = text.replace("stock: birch plywood", f"stock: {quote(STOCK)}").replace(
        "birch plywood: 78", f"{quote(STOCK)}: 78"
    )
    text = text.replace("stock: carpet", "stock: '+1+cmd|x!A0'").replace("revision: B", "revision: '<i>/..'")
    text = text.replace("grade: spun polyester, fine", "grade: ']]> --> <!ENTITY'")
    (folder / "shop.yaml").write_text(text, encoding="utf-8")
    done = subprocess.run(
        [sys.executable, "-m", "packet", "build", "shop.yaml", "-q"],
        capture_output=True,
        text=True,
        cwd=folder,
        env={**os.environ, "PYTHONPATH": str(TOP)},
        check=False,
    )
    assert done.returncode in (0, 1), done.stderr
    assert sorted(path.name for path in folder.iterdir()) == ["out", "shop.yaml"]
    return folder / "out" / "shop"


def test_names_of_files_stay_inside_the_folder(out: Path) -> None:
    for path in out.rglob("*"):
        assert path.resolve().is_relative_to(out.resolve())
        assert re.fullmatch(r"[A-Za-z0-9._-]+", path.name), path.name


def test_pdf_prints_the_texts_as_typed(out: Path) -> None:
    reader = PdfReader(out / "packet.pdf")
    text = " ".join(" ".join(page.extract_text() for page in reader.pages[:3]).split())
    assert "&amp; R&D" in text
    assert "gap <A> under 1/8 in & seal {{ 7*7 }}" in text
    assert reader.metadata is not None
    assert reader.metadata.title == TITLE


def test_html_runs_and_loads_nothing_of_the_users(out: Path) -> None:
    page = (out / "helper.html").read_text(encoding="utf-8")
    assert "<script>alert" not in page
    assert "<img src=x" not in page
    assert html.escape("R&D") in page or "R&D" not in page
    assert not re.search(r"""(?:src|href)=["']?(?:https?:|//|file:)""", page)


def test_csv_cells_never_begin_a_formula(out: Path) -> None:
    """A cell that begins with = + - @ is run by spreadsheets (OWASP, CSV injection, from memory)."""
    for name in ("bill.csv", "cuts.csv"):
        rows = list(csv.reader(io.StringIO((out / name).read_text(encoding="utf-8-sig"))))
        assert len(rows) > 5
        for cell in (cell for row in rows for cell in row):
            assert not re.match(r"[=+@\t\r]|-(?![\d.])", cell), cell


def test_svg_and_dxf_are_whole_and_hold_no_markup_of_the_users(out: Path) -> None:
    for path in (out / "parts").glob("*.svg"):
        tags = {element.tag.rsplit("}", 1)[-1] for element in ElementTree.parse(path).iter()}
        assert not tags & {"script", "image", "foreignObject", "a", "b", "para", "onDraw", "img"}
    for path in (out / "parts").glob("*.dxf"):
        assert not ezdxf.readfile(path).audit().has_errors


def test_sizing_is_plain_json(out: Path) -> None:
    text = (out / "sizing.json").read_text(encoding="utf-8")
    assert MACHINE in json.dumps(json.loads(text), ensure_ascii=False)
    assert "NaN" not in text
