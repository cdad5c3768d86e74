"""Names beside the pictures of the steps: each on a line of its own, none on the picture, none out of its room."""

from __future__ import annotations

from functools import lru_cache
from itertools import pairwise

import pytest

from calc.shapes.shapes import find_bounds
from packet.draw.model import Fill, Words
from packet.draw.steps.pictures import StepPictures
from packet.draw.steps.solids import NAME_STEP_MM, spread_names
from packet.words.word_files import load_folder
from tests.shop import load_job

HIGH = 0.7
"""A capital is about so high, in parts of the size of its letters (common practice, no source)."""


@lru_cache(maxsize=4)
def draw_all(name: str) -> dict[str, tuple[float, list[Words], float]]:
    """Return scale, names and the right edge of what is filled, for each picture of the solids of a sample."""
    job = load_job(name)
    pictures = StepPictures(job.project, job.design, "english", job.gauge)
    found = {}
    for words in load_folder("steps").values():
        for key in words.list_ids("picture"):
            if key.split(":")[0] not in ("ducts", "scene") or not pictures.has(key):
                continue
            made = pictures.draw(key)
            names = [each for each in made.drawing.entities if isinstance(each, Words) and each.anchor == "start"]
            filled = [each.outline for each in made.drawing.entities if isinstance(each, Fill)]
            found[key] = made.scale, names, find_bounds(tuple(filled)).right
    return found


@pytest.mark.parametrize("name", ["boatshed", "minimal"])
def test_names_stand_clear_of_each_other_and_of_the_picture(name: str) -> None:
    told = draw_all(name)
    assert sum(len(names) > 1 for _, names, _ in told.values()) >= 3
    for key, (scale, names, edge) in told.items():
        ordered = sorted((each.at.y for each in names), reverse=True)
        for upper, lower in pairwise(ordered):
            assert (upper - lower) * scale >= names[0].size_mm * HIGH, key
        assert all(each.at.x >= edge for each in names), key


def test_names_that_would_fall_below_the_picture_push_the_others_up() -> None:
    heights = spread_names([10.0, 1.0, 1.0, 0.0], 0.0, 2.0)
    assert all(upper - lower >= 2.0 for upper, lower in pairwise(heights))
    assert min(heights) >= 0.0
    assert spread_names([10.0, 4.0], 0.0, 2.0) == [10.0, 4.0]  # names that have room stay level with their spots
    assert NAME_STEP_MM > 1.9  # a line is higher than its letters
