"""Runs every calculation on a project and gives back one Sizing with its findings."""

from __future__ import annotations

from calc.project import Project
from calc.results import (
    Band,
    BlowerCurve,
    BlowerPoint,
    CleanMe,
    DuctFlow,
    Exposure,
    FilterChoice,
    Filters,
    FilterShare,
    HoodFlow,
    HoseChoice,
    Leakage,
    LedgerRow,
    LoadPoint,
    MachineFlow,
    MakeUpAir,
    Plotted,
    Pressures,
    Remedy,
    Scenario,
    ShopAir,
    Sizing,
    Sound,
    SoundBand,
    SystemCurve,
    TrunkChoice,
    Worked,
)

__all__ = [
    "Band",
    "BlowerCurve",
    "BlowerPoint",
    "CleanMe",
    "DuctFlow",
    "Exposure",
    "FilterChoice",
    "FilterShare",
    "Filters",
    "HoodFlow",
    "HoseChoice",
    "Leakage",
    "LedgerRow",
    "LoadPoint",
    "MachineFlow",
    "MakeUpAir",
    "Plotted",
    "Pressures",
    "Remedy",
    "Scenario",
    "ShopAir",
    "Sizing",
    "Sound",
    "SoundBand",
    "SystemCurve",
    "TrunkChoice",
    "Worked",
    "size_project",
]


def size_project(project: Project) -> Sizing:
    """Return the sizing of a settled project."""
    raise NotImplementedError
