"""Weights to lift, who lifts them, whether they pass the door, and when a cart tips."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True)
class Load:
    """Something that is lifted or carried by hand."""

    name: str
    weight_kg: float
    people: int
    width_mm: float
    height_mm: float
    depth_mm: float
    through_door: bool | None  # None: no doorway in the file


@dataclass(frozen=True)
class Handling:
    """tip_deg: slope at which a cart with everything on it tips; None: not on a cart."""

    loads: tuple[Load, ...]
    hanging_kg: float
    box_kg: float
    total_kg: float
    tip_deg: float | None
