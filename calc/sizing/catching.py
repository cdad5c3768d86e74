"""What falls into pails and bin, and how long until each is to be emptied."""

from __future__ import annotations

from calc.airflow.dust import (
    USUAL_BIN_M3,
    find_bin_rate,
    find_bulk,
    find_fill_hours,
    find_pail_volume,
    list_pail_rates,
    weigh_pail_dust,
)
from calc.finding import Band
from calc.guess import round_band
from calc.project import Aired
from calc.results import Catching
from calc.trade import EMPTY_AT


def list_catching(project: Aired, shares: tuple[float, ...]) -> tuple[Catching, ...]:
    """Return the catch pails, by port, and the separator's bin. shares: as in list_pail_rates."""
    rates = list_pail_rates(project, shares)
    pails = tuple(
        Catching(
            kind="pail",
            port=port.name,
            volume_m3=find_pail_volume(port.pail),
            level=EMPTY_AT,
            dust_kg=weigh_pail_dust(project, port.pail),
            hours=_find_hours(project, find_pail_volume(port.pail, EMPTY_AT), rates.get(port.name)),
            assumed=project.is_assumed(f"ports.{port.name}.pail.height") or project.is_assumed("ports"),
        )
        for port in project.ports
        if port.kind == "filter"
    )
    return (*_list_bins(project), *pails)


def _list_bins(project: Aired) -> tuple[Catching, ...]:
    if project.separator.kind == "none":
        return ()
    volume = project.separator.bin_m3 or USUAL_BIN_M3
    return (
        Catching(
            kind="bin",
            port="",
            volume_m3=volume,
            level=EMPTY_AT,
            dust_kg=EMPTY_AT * volume * find_bulk(project).best,
            hours=_find_hours(project, EMPTY_AT * volume, find_bin_rate(project)),
            assumed=project.separator.bin_m3 is None,
        ),
    )


def _find_hours(project: Aired, volume_m3: float, rate: Band | None) -> Band | None:
    hours = find_fill_hours(volume_m3, project, rate) if rate is not None else None
    return None if hours is None else round_band(hours)
