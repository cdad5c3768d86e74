"""Write templates/names.md anew: python -m tests.bench.names. What a name is stays as it is written there."""

from __future__ import annotations

import re
from pathlib import Path
from typing import Any

from packet.job import Job, make_job
from packet.work.facts import gather_facts
from packet.work.names import list_names

TOP = Path(__file__).parents[2]
FILE = TOP / "templates" / "names.md"
SAMPLES = ("boatshed", "cart", "outdoor", "schoolroom", "minimal")
LONGEST = 48
_ROW = re.compile(r"\| `([^`]+)` \| .* \| (.*) \|")
HEAD = """\
# All names a file of words may use

In the text between double braces (`{{ box_weight }}`), in a header line or a condition without them
(`when: options.hung == "wall"`). A name with `[0]` is one of a list, and
`{% for port in ports %}{{ port.hole }}{% endfor %}` tells all of them. The examples are those of
`projects/boatshed.yaml`, or of another sample where that has none; in round brackets stands what answers yes or no, or
is a number to reckon with. `(mm)` is a size of your own in millimetres.

This file is written by `python -m tests.bench.names`; only the last column is written by hand.

| name | example | what it is |
|---|---|---|
"""


def read_meanings() -> dict[str, str]:
    """Return what each name is, as the file says now."""
    lines = FILE.read_text(encoding="utf-8").splitlines() if FILE.exists() else []
    return {found[1]: found[2].strip() for line in lines if (found := _ROW.fullmatch(line))}


def gather_examples(jobs: list[Job]) -> dict[str, Any]:
    """Return each name with its value in the first job that has one."""
    told: dict[str, Any] = {}
    for job in jobs:
        for name, value in list_names(gather_facts(job.project, job.sizing, job.gauge, job.design)):
            if told.get(name) in (None, "", ()):
                told[name] = value
    return told


def write_example(value: Any) -> str:
    """Return a value as a cell of the table."""
    if isinstance(value, bool):
        return f"({'yes' if value else 'no'})"
    if isinstance(value, int | float):
        return f"({value:g})"
    if isinstance(value, tuple):
        return "a list" if not value or not isinstance(value[0], str) else "a list: " + ", ".join(value)
    text = str(value if value is not None else "")
    return (text if len(text) <= LONGEST else text[: LONGEST - 2] + " …").replace("|", "/")


def write_names() -> str:
    """Return the file as it should stand."""
    jobs = [make_job(TOP / "projects" / f"{sample}.yaml") for sample in SAMPLES]
    meanings = read_meanings()
    rows = [
        f"| `{name}` | {write_example(value)} | {meanings.get(name, '')} |"
        for name, value in gather_examples(jobs).items()
    ]
    return HEAD + "\n".join(rows) + "\n"


if __name__ == "__main__":
    FILE.write_text(write_names(), encoding="utf-8")
