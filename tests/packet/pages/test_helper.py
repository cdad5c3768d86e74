"""The helper's sheet: built of the blocks that all pages are built of, in type as large as two sides hold."""

from __future__ import annotations

import io
from dataclasses import replace
from pathlib import Path

import pdfplumber
import pypdfium2
import pytest

from packet.job import Job
from packet.pages import helper
from tests.shop import load_job


def write_sheet(job: Job) -> bytes:
    stream = io.BytesIO()
    helper.write_helper_pdf(job, stream)
    return stream.getvalue()


def test_the_sheet_draws_nothing_of_its_own() -> None:
    source = Path(helper.__file__).read_text("utf-8")
    assert "canvas" not in source
    assert "break_words" not in source


def test_little_to_do_is_one_page_in_the_largest_type() -> None:
    with pdfplumber.open(io.BytesIO(write_sheet(load_job("cart")))) as document:
        (page,) = document.pages
        sizes = [round(float(sign["size"]), 1) for sign in page.chars]
    assert max(set(sizes), key=sizes.count) == max(helper.SIZES)


@pytest.mark.parametrize("name", ["boatshed", "cart", "outdoor"])
def test_no_heading_is_the_last_of_its_column(name: str) -> None:
    """The last line of a column is never all bold, as headings and titles of steps are."""
    with pdfplumber.open(io.BytesIO(write_sheet(load_job(name)))) as document:
        for page in document.pages:
            for left, right in ((0, page.width / 2), (page.width / 2, page.width)):
                column = page.crop((left, 0, right, page.height - 60))
                lines = column.extract_text_lines(return_chars=True)
                last = {(sign["fontname"].rsplit("+")[-1], sign["size"]) for sign in lines[-1]["chars"]}
                assert not all("Bold" in font for font, _ in last), (name, lines[-1]["text"])


def test_words_of_the_file_are_printed_as_typed() -> None:
    job = load_job("cart")
    title = replace(job.project.title, title='Cart <b>&amp; <img src="x"/> Łódź', drawn_by="<i>A & B</i>")
    document = pypdfium2.PdfDocument(write_sheet(replace(job, project=replace(job.project, title=title))))
    assert 'Cart <b>&amp; <img src="x"/> Łódź' in " ".join(document[0].get_textpage().get_text_bounded().split())
