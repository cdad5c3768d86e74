"""Noise that the file leaves out is said to be assumed: distance and hours decide how long an ear may stay."""

from __future__ import annotations

from pathlib import Path

from packet.reading.load import load_project

PROJECTS = Path(__file__).parents[3] / "projects"


def test_distance_and_hours_left_out_are_assumed() -> None:
    silent = load_project(PROJECTS / "outdoor.yaml").project
    assert silent.is_assumed("noise.ear")
    assert silent.is_assumed("noise.hours_a_day")
    told = load_project(PROJECTS / "boatshed.yaml").project
    assert not told.is_assumed("noise.ear")
