"""What a gauge has to show: from a sizing, or from readings at a box that stands."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from calc.airflow.air import describe_air
from calc.airflow.blower import BlowerModel
from calc.airflow.chains import BEST
from calc.airflow.filters import FilterBank
from calc.finding import Band
from calc.project import Filter
from calc.trade import MOST_OVER_SHUT_OFF

if TYPE_CHECKING:
    from calc.project import Aired, Given
    from calc.results import ShopAir, Sizing

HALVINGS = 60
"""Halvings in search of a flow: far finer than any reading."""


@dataclass(frozen=True)
class GateReading:
    """What the gauge shows with a set of gates: clean filters with their band, and filters at *clean me*."""

    name: str
    open: tuple[str, ...]
    flow: Band
    reading: Band
    clean_me_pa: float


@dataclass(frozen=True, kw_only=True)
class Points:
    """The pressures [Pa] a gauge is made for, at the gate to read at.

    highest: what clean filters may show at most; lowest: at least; both the reading itself once it is measured
    moved: the pleats' dust is added to a measured clean reading; otherwise *clean me* stands where it was computed
    """

    clean: float
    clean_me: float
    lowest: float
    highest: float
    is_measured: bool
    moved: bool

    @property
    def rise(self) -> float:
        """How far *clean me* stands from clean, either way."""
        return abs(self.clean_me - self.clean)

    @property
    def falls(self) -> bool:
        """Whether the reading falls as the filters load."""
        return self.clean_me < self.clean


def find_points(sizing: Sizing, clean_pa: float | None) -> Points:
    """Return the pressures of a sizing's gauge. clean_pa: measured with clean filters; None: not yet.

    A reading that no blower here makes was written into the log by hand, and is left out.
    """
    found, band = sizing.filters.clean_me, sizing.at_gauge.reading
    measured = clean_pa
    if measured is not None and measured > MOST_OVER_SHUT_OFF * abs(sizing.pressures.box_worst_pa):
        measured = None
    moved = measured is not None and found.criterion == "dust load"
    clean = abs(band.best) if measured is None else measured
    return Points(
        clean=clean,
        clean_me=clean + found.rise.best if moved else abs(found.reading_pa),
        lowest=band.low if measured is None else clean,
        highest=band.high if measured is None else clean,
        is_measured=measured is not None,
        moved=moved,
    )


@dataclass(frozen=True, kw_only=True)
class Shown:
    """What a gauge has to show; pressures in Pa without sign.

    clean_me_asked: filters are ever to be cleaned; hours: run until then, where they are known; worst_pa: the highest
    drop: share of the air lost at *clean me*, where that was worked out of blower and filters; None: elsewhere
    read_at: machine whose gate alone is open, empty where the file names none
    by_hose: end of the keys that speak of the hose of a shop without gates
    """

    points: Points
    clean_me_asked: bool
    worst_pa: float
    read_at: str
    by_hose: str = ""
    gates: tuple[GateReading, ...]
    air_kgm3: float
    temperature_k: float
    hours: Band | None = None
    drop: float | None = None


def take_sizing(project: Aired, sizing: Sizing, clean_pa: float | None = None) -> Shown:
    """Return what a sized shop shows. clean_pa: the clean reading that was measured, in place of the computed one."""
    points = find_points(sizing, clean_pa)
    return Shown(
        points=points,
        clean_me_asked=sizing.filters.clean_me.criterion != "never",
        worst_pa=abs(sizing.pressures.box_worst_pa),
        read_at=sizing.gauge_at,
        by_hose=project.by_hose,
        gates=_list_readings(sizing, points),
        air_kgm3=sizing.air.density_kgm3,
        temperature_k=project.shop.temperature_k,
        hours=sizing.filters.clean_me.hours_later,
    )


def _list_readings(sizing: Sizing, points: Points) -> tuple[GateReading, ...]:
    """Return the readings at every gate. *Clean me* moves with a measured clean reading as at the gauge's own gate."""
    times = points.clean / abs(sizing.at_gauge.reading.best) if points.moved else 1.0
    return tuple(
        GateReading(
            s.name, s.open, s.flow, s.reading, s.reading_clean_me_pa + (times - 1) * s.reading.best if times != 1 else
            s.reading_clean_me_pa,
        )
        for s in sizing.scenarios
    )  # fmt: skip


def take_readings(project: Given) -> Shown:
    """Return what a box that stands shows: the readings of its file, *clean me* worked out where it gives one alone.

    Raises ValueError where the file gives too little for that.
    """
    gauge, shop = project.gauge, project.shop
    if gauge is None or gauge.clean_pa is None or shop is None:
        raise ValueError("no clean reading")
    air, clean_me, drop = describe_air(shop), gauge.clean_me_pa, None
    if clean_me is None:
        drop = gauge.clean_flow_drop
        if drop is None:
            raise ValueError("no drop in flow")
        clean_me = find_clean_me(project, air, gauge.clean_pa, drop)
    clean = gauge.clean_pa
    return Shown(
        points=Points(clean=clean, clean_me=clean_me, lowest=clean, highest=clean, is_measured=True, moved=False),
        clean_me_asked=True,
        worst_pa=BlowerModel(project.blower, air).find_shut_off() if project.blower else gauge.most_pa or 0.0,
        read_at=gauge.read_at or "",
        gates=(),
        air_kgm3=air.density_kgm3,
        temperature_k=shop.temperature_k,
        drop=drop,
    )


def find_clean_me(project: Given, air: ShopAir, clean_pa: float, drop: float) -> float:
    """Return the reading [Pa] at which the air has dropped by a share since the filters read clean_pa.

    The clean filters' own loss gives the flow; what the blower makes beyond it is lost in the ducts, by the square of
    the flow; at the lesser flow the blower makes more and the ducts take less, and the filters hold the rest. Raises
    ValueError without blower or media, and for a clean reading that no flow of this blower makes.
    """
    media = tuple(one for one in project.filters if isinstance(one, Filter))
    if project.blower is None or not media:
        raise ValueError("neither blower nor media")
    bank, blower = FilterBank(media, air), BlowerModel(project.blower, air)
    low, high = 0.0, blower.last_flow
    if bank.find_loss(high, BEST)[0] < clean_pa:
        raise ValueError("no flow of this blower makes that reading")
    for _ in range(HALVINGS):
        middle = (low + high) / 2
        low, high = (middle, high) if bank.find_loss(middle, BEST)[0] < clean_pa else (low, middle)
    ducts = (blower.find_total(high)[0] - clean_pa) / high**2
    left = (1 - drop) * high
    return blower.find_total(left)[0] - ducts * left**2
