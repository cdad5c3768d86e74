"""Bill and cut list as a spreadsheet reads them: bytes, line ends, columns, and hostile words that stay words."""

from __future__ import annotations

import csv
import io
from dataclasses import replace
from pathlib import Path

import pytest

from packet.bill.bill import make_bill
from packet.files.bill_csv import HEAD, write_bill_csv
from packet.files.cuts_csv import write_cuts_csv
from packet.job import make_job

HOSTILE = (
    '=HYPERLINK("http://x","y")', "@SUM(1+1)*cmd|' /C calc'!A0", "+1", "-2+3", 'say "quoted", twice', "a,b;c\td",
    "Ünïcödé ⅛ Ω", "  =1", "'=1", "\u200b=1", "line\r\nbreak",
)  # fmt: skip


def read_rows(text: str) -> list[list[str]]:
    """Return the rows as a spreadsheet would: bytes first, the mark taken off, records by RFC 4180."""
    data = text.encode("utf-8")
    assert data.startswith(b"\xef\xbb\xbf")
    assert data.count(b"\n") == data.count(b"\r\n") == data.count(b"\r")
    assert data.endswith(b"\r\n")
    return list(csv.reader(io.StringIO(data.decode("utf-8-sig"), newline=""), strict=True))


@pytest.mark.parametrize("words", HOSTILE)
def test_hostile_words_stay_words_in_their_own_cell(words: str) -> None:
    job = make_job(Path("projects/boatshed.yaml"))
    project = replace(
        job.project,
        box=replace(job.project.box, panel=replace(job.project.box.panel, stock=words)),
        filters=tuple(replace(each, grade=words) for each in job.project.filters),
        buy_at={"pail": words},
        money=words[:8],
    )
    parts = tuple(replace(part, material=words) for part in job.design.parts)
    sheets = tuple(replace(plan, material=words) for plan in job.design.sheets)
    design = replace(job.design, parts=parts, sheets=sheets)
    bill = make_bill(project, job.sizing, design, job.gauge)
    rows = read_rows(write_bill_csv(bill))
    assert rows[0][:3] == ["group", "item", "detail"]
    assert len(set(rows[0])) == len(HEAD)
    lines = rows[1 : 1 + len(bill.lines) + len(bill.yearly)]
    assert {len(row) for row in lines} == {len(HEAD)}
    feet = {"m": 1 / 0.3048, "m2": 1 / 0.3048**2}
    needed = [x.needed * feet.get(x.unit, 1.0) for x in (*bill.lines, *bill.yearly)]
    assert [float(row[3]) for row in lines] == pytest.approx(needed, abs=6e-4)
    assert [int(row[7]) for row in lines] == [x.buy for x in (*bill.lines, *bill.yearly)]
    cuts = read_rows(write_cuts_csv(design, job.reader))
    assert {len(row) for row in cuts} == {15}
    for row in (*rows, *cuts):
        for cell in row:
            assert "\n" not in cell
            assert "\r" not in cell
            assert not cell.lstrip(" \u200b").startswith(("=", "+", "-", "@")) or cell.replace(".", "", 1).isdigit()
    # what is not a formula is not touched
    if words.startswith(("say", "Ün")):
        assert cuts[1][9] == words


def test_files_of_a_build_are_what_the_writer_wrote() -> None:
    """Every part, once, with sizes that a spreadsheet can add up."""
    for name in ("boatshed", "cart", "schoolroom"):
        job = make_job(Path(f"projects/{name}.yaml"))
        rows = read_rows(write_cuts_csv(job.design, job.reader))[1:]
        parts = rows[: len(job.design.parts)]
        assert [row[0] for row in parts] == [part.number for part in job.design.parts]
        area = sum(float(row[2]) * float(row[6]) * float(row[7]) for row in parts)
        laid = sum(
            placed.along_mm * placed.across_mm for layout in job.design.sheets[0].layouts for placed in layout.placed
        )
        assert area == pytest.approx(laid, rel=2e-3)  # the layouts work in whole tenths of a millimetre
