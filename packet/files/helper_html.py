"""The helper's sheet as one HTML file for a phone without a network: nothing is fetched, ticks stay on the phone."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from packet.words.word_files import BadWords, clean_text, find_line, read_template

if TYPE_CHECKING:
    from packet.job import Job

FRAME = "pages/helper.html"
LANGUAGES = {"english": "en", "spanish": "es"}


def write_helper_html(job: Job) -> str:
    """Return the page. Every word is escaped by the sandbox; ticks are kept under the project file's digest."""
    from jinja2 import StrictUndefined, TemplateError
    from jinja2.sandbox import SandboxedEnvironment

    sheet = job.plan.helper
    sandbox = SandboxedEnvironment(undefined=StrictUndefined, autoescape=True, trim_blocks=True, lstrip_blocks=True)
    facts = {
        "lang": LANGUAGES[sheet.language],
        "title": clean_text(job.project.title.title),
        "revision": clean_text(job.project.title.revision),
        "digest": job.digest,
        "key": "helper-" + re.sub(r"[^0-9a-zA-Z]", "", job.digest),
        "say": dict(sheet.phrases),
        "sheet": sheet,
    }
    try:
        page = sandbox.from_string(read_template(FRAME)).render(facts)
    except (TemplateError, ArithmeticError, TypeError, ValueError, LookupError, AttributeError) as err:
        raise BadWords(FRAME, f"cannot be filled in: {err}", find_line(err)) from err
    return page.rstrip("\n") + "\n"
