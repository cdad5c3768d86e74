"""The gauge's page says what the shop loses at *clean me*."""

from __future__ import annotations

import io

import pypdf

from packet.words.say import say
from tests.shop import load_job, print_pages


def test_page_says_what_comes_first() -> None:
    job = load_job("boatshed")
    pages = pypdf.PdfReader(io.BytesIO(print_pages(job, "gauge"))).pages
    words = "".join("".join(page.extract_text().split()) for page in pages)
    why = say(job.sizing.filters.clean_me.why, job.reader).rstrip(".")
    assert "".join(f"above what your clean filters show: {why}.".split()) in words
