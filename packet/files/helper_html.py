"""The helper's sheet as one HTML file for a phone without a network: nothing is fetched, ticks stay on the phone."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from packet.words.filler import Unfilled, fill_text
from packet.words.languages import get_language
from packet.words.reader import BadWords, read_template
from packet.words.word_files import clean_text
from packet.work.check_words import FRAME

if TYPE_CHECKING:
    from packet.job import AnyJob


def write_helper_html(job: AnyJob) -> str:
    """Return the page. Every word is escaped by the sandbox; ticks are kept under the project file's digest."""
    sheet = job.plan.helper
    facts = {
        "lang": get_language(sheet.language).tag,
        "title": clean_text(job.project.title.title),
        "revision": clean_text(job.project.title.revision),
        "digest": job.digest,
        "key": "helper-" + re.sub(r"[^0-9a-zA-Z]", "", job.digest),
        "say": sheet.phrases,
        "sheet": sheet,
    }
    try:
        page = fill_text(read_template(FRAME), facts, escape=True)
    except Unfilled as err:
        raise BadWords(FRAME, err.fault, err.line) from err
    return page.rstrip("\n") + "\n"
