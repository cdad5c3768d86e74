"""T7: a packet made for one continent's paper, printed at 100 % on the other's, loses nothing but templates."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pypdfium2
import pytest

from calc.project import Paper
from tests.shop import make_job, make_project, make_sizing, print_pages, write_whole

LETTER, A4 = (215.9, 279.4), (210.0, 297.0)
REACH_MM = 6.0
"""What printers cannot reach of a sheet: about 1/4 in (common practice, no source), less the width of a dot here."""

DOTS = 3.0  # a millimetre


def find_ink(page: pypdfium2.PdfPage) -> tuple[float, float, float, float] | None:
    """Return left, top, right and bottom of the ink [mm] from the page's upper left corner."""
    picture = page.render(scale=DOTS * 25.4 / 72, grayscale=True).to_numpy() < 200
    rows, columns = np.flatnonzero(picture.any(axis=1)), np.flatnonzero(picture.any(axis=0))
    if not len(rows):
        return None
    return columns[0] / DOTS, rows[0] / DOTS, (columns[-1] + 1) / DOTS, (rows[-1] + 1) / DOTS


@pytest.mark.parametrize(("name", "own", "other"), [("boatshed", LETTER, A4), ("schoolroom", A4, LETTER)])
def test_nothing_is_lost_on_the_other_paper(name: str, own: tuple[float, float], other: tuple[float, float]) -> None:
    """Printed in the middle of the other sheet, as print dialogs do at actual size."""
    data, pages = write_whole(name)
    first, last = pages.sections["templates"]
    document = pypdfium2.PdfDocument(data)
    shift = [(there - here) / 2 for here, there in zip(own, other, strict=True)]
    lost = []
    for number, page in enumerate(document, 1):
        ink = None if first <= number <= last else find_ink(page)
        if ink is None:
            continue
        left, top, right, bottom = ink
        if (
            left + shift[0] < REACH_MM
            or top + shift[1] < REACH_MM
            or right + shift[0] > other[0] - REACH_MM
            or bottom + shift[1] > other[1] - REACH_MM
        ):
            lost.append((number, [round(v, 1) for v in ink]))
    document.close()
    assert lost == []


@pytest.mark.parametrize("own", [LETTER, A4])
@pytest.mark.parametrize("kind", ["u-tube", "u-tube one leg", "inclined", "well"])
def test_cards_stay_whole_on_the_other_paper(own: tuple[float, float], kind: str) -> None:
    """The longest scales, on a printer that is 1 % off: cut marks and check rule lie inside what both papers share."""
    project = make_project()
    paper = Paper("a4" if own == A4 else "letter", *own)
    display = replace(project.display, paper=paper, printer_x=0.99, printer_y=0.99)
    project = replace(project, display=display, gauge=replace(project.gauge, kind=kind))
    document = pypdfium2.PdfDocument(print_pages(make_job(project, make_sizing(6.0, 20.0, shut_off=40.0)), "gauge"))
    other = LETTER if own == A4 else A4
    sheets = [page for page in document if "on a steel rule" in page.get_textpage().get_text_bounded()]
    assert sheets
    for page in sheets:
        assert "Actual size" in page.get_textpage().get_text_bounded()
        left, top, right, bottom = find_ink(page) or (0.0, 0.0, 0.0, 0.0)
        across, down = ((there - here) / 2 for here, there in zip(own, other, strict=True))
        assert left + across > REACH_MM
        assert top + down > REACH_MM
        assert right + across < other[0] - REACH_MM
        assert bottom + down < other[1] - REACH_MM
    document.close()
