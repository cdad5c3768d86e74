"""Keys left out, left empty or at an end of what they may be: check refuses the file or ends, and no number is lost.

All five samples, and builds: python -m tests.bench.slips
"""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from packet.build.check import describe_check
from packet.job import make_job
from packet.reading.problem import BadProject
from tests.packet.reading.slips import list_extremes, list_slips, read_plain

BOATSHED = read_plain(Path(__file__).parents[3] / "projects" / "boatshed.yaml")
MINIMAL = read_plain(Path(__file__).parents[3] / "projects" / "minimal.yaml")
SLIPS = [*list_slips(MINIMAL)]
EXTREMES = [case for case in list_extremes(BOATSHED) if any(sign.isdigit() for sign in case[0])]
IN = 6
"""One in so many is tried here, all of them by the bench."""


def check_text(text: str, folder: Path) -> None:
    file = folder / "shop.yaml"
    file.write_text(text, "utf-8")
    try:
        data = describe_check(make_job(file))
    except BadProject:
        return
    json.dumps(data, allow_nan=False)
    assert not any(word in ("nan", "inf", "-inf") for word in json.dumps(data).lower().replace('"', " ").split())


@pytest.mark.parametrize(("name", "text"), SLIPS[::IN], ids=[name for name, _ in SLIPS[::IN]])
def test_a_key_left_out_or_empty(name: str, text: str, tmp_path: Path) -> None:
    check_text(text, tmp_path)


MENDED = [case for case in EXTREMES if case[0] in ("blower.outlet 1 in", "filters.gasket_outside 2 in")]


@pytest.mark.parametrize(("name", "text"), [*MENDED, *EXTREMES[::IN]], ids=[n for n, _ in [*MENDED, *EXTREMES[::IN]]])
def test_a_key_at_an_end_of_what_it_may_be(name: str, text: str, tmp_path: Path) -> None:
    check_text(text, tmp_path)
