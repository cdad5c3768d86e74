"""Strength of the box: panels under air pressure, screws under the hanging filters, and what holds the box up."""

from __future__ import annotations

from dataclasses import dataclass

from calc.project import Face


@dataclass(frozen=True)
class PanelStrength:
    """One panel under the box's pressure: bow [mm] and stress [Pa] with edges free to turn and held.

    running_pa, shutoff_pa: pressure in the box (positive pushes the panel out)
    """

    name: str
    face: Face
    short_mm: float
    long_mm: float
    thickness_mm: float
    running_pa: float
    shutoff_pa: float
    bow_free_mm: float
    bow_held_mm: float
    bow_running_mm: float
    stress_free_pa: float
    stress_held_pa: float
    force_shutoff_n: float
    stiffeners: int


@dataclass(frozen=True)
class ScrewStrength:
    """A group of screws: load on each against what each holds (ultimate), as a factor."""

    name: str
    count: int
    load_each_n: float
    holds_each_n: float
    factor: float
    wanted: float


@dataclass(frozen=True)
class Strength:
    """bending_pa: modulus used and its source in words; spacing_mm: screws at the removable face."""

    bending_pa: float
    bending_source: str
    panels: tuple[PanelStrength, ...]
    screws: tuple[ScrewStrength, ...]
    face_screws: int
    spacing_mm: float
    hang_fasteners: int
    hang_load_n: float
