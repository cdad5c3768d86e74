"""The filters: clean loss, openings, dust load, hours between cleanings."""

from __future__ import annotations

import math
from dataclasses import dataclass

from calc.airflow.ducts import find_area
from calc.airflow.fittings import look_up
from calc.finding import Band
from calc.guess import multiply
from calc.project import Filter
from calc.results import ShopAir

USUAL_CAKE = Band(6507.0, 2e4, 6e4)
"""Specific resistance of the dust cake [1/s] where the file gives none. Wood-panel dust on felt: 6 507 new, 10 208 and
29 729 after months (Dembinski and others, Applied Sciences 11 (2021) 8965); twice that for sander dust on pleats, and
the middle of the two ends (common practice, no source)."""

USUAL_WORKING = Band(0.50, 0.55, 0.60)
"""Share of a pleated filter's area that works with dust on it (Kim and others, Powder Technology 311 (2017) 522)."""

CLEAN_TIMES = (0.5, 1.0, 3.0)
"""Clean media's loss over what the file makes it, low, best and high: new cloth often lets through more than is stated
(common practice, no source); worn in it lost 0.28 where 0.10 inH2O was assumed (study of 34 systems, see tests)."""


def find_clean_resistance(filter_: Filter) -> float:
    """Return the clean media's loss over face speed [Pa s/m].

    From the permeability, loss straight in proportion to face speed (Darcy; ASTM D737 names the pressure), or from a
    loss at a flow through one filter. Raises ValueError when the file gives neither.
    """
    if filter_.permeability_ms:
        return (filter_.permeability_pa or 125.0) / filter_.permeability_ms
    if filter_.loss_pa is None or not filter_.loss_at_m3s:
        raise ValueError(f"{filter_.name}: give the permeability, or a loss at a flow")
    return filter_.loss_pa * filter_.media_m2 / filter_.loss_at_m3s


def find_hours(areal_kgm2: float, media_m2: float, dust_kgs: float) -> float:
    """Return the hours it takes dust [kg/s] to lay a load [kg/m2] on the media; infinite without dust."""
    return areal_kgm2 * media_m2 / dust_kgs / 3600 if dust_kgs > 0 else math.inf


def find_cake(filter_: Filter) -> Band:
    """Return the cake's resistance [1/s] to air and dust reckoned over all of the media, with its band."""
    given, works = filter_.cake_resistance, filter_.working_area
    cake = USUAL_CAKE if given is None else Band(given, given, given)
    share = USUAL_WORKING if works is None else Band(works, works, works)
    return multiply(cake, over=(Band(share.low**2, share.best**2, share.high**2),))


@dataclass(frozen=True)
class BankMember:
    """One kind of filter in the bank, per filter: loss = opening q^2 + (clean + cake W) q.

    cake: of dust spread over all of the media, though only a share of it works: it lies the thicker there, and the air
    goes through it the faster, so its loss is K2 W V over that share squared. cake_spread: low and high over best
    """

    filter: Filter
    opening: tuple[float, float, float]
    clean: float
    cake: float
    cake_spread: Band

    def find_flow(self, pressure_pa: float, linear: float, which: int) -> tuple[float, float]:
        """Return the flow [m3/s] of one filter at a pressure and the slope of flow over pressure."""
        a = self.opening[which]
        root = math.sqrt(linear * linear + 4 * a * pressure_pa)
        return 2 * pressure_pa / (linear + root), 1 / root


class FilterBank:
    """Several filters side by side under one box. Dust lies evenly, as kg/m2, on all media.

    Across the media (S + K2 W) V: fabric-filter equation, US EPA Air Pollution Control Cost Manual, section 6
    chapter 1 (from memory); the opening's loss, by the square law, comes on top.
    Flow through media is viscous: its loss does not fall with thin air, and a shop's warmth moves the viscosity of air
    by 2 % for 10 K, which is left out.
    """

    __slots__ = ("cake_spread", "count", "media_m2", "members")

    def __init__(self, filters: tuple[Filter, ...], air: ShopAir) -> None:
        members = []
        for filter_ in filters:
            opening = look_up("filter opening")
            per = air.density_kgm3 / 2 / find_area(filter_.bore_mm / 1000) ** 2
            given = filter_.permeability_ms is None  # a stated loss has the opening in it already
            spread = (0.0, 0.0, 0.0) if given else (opening.low * per, opening.best * per, opening.high * per)
            clean = find_clean_resistance(filter_) / filter_.media_m2
            cake = find_cake(filter_)
            around = Band(cake.low / cake.best, 1.0, cake.high / cake.best)
            members.append(BankMember(filter_, spread, clean, cake.best / filter_.media_m2, around))
        self.members = tuple(members)
        self.media_m2 = sum(m.filter.media_m2 * m.filter.count for m in members)
        self.count = sum(m.filter.count for m in members)
        self.cake_spread = max((m.cake_spread for m in members), key=lambda each: each.high / each.low)

    def find_loss(self, flow: float, which: int, areal: float = 0.0, times: float = 1.0) -> tuple[float, float]:
        """Return the pressure [Pa] over the bank at a flow [m3/s] and its slope.

        areal: dust load [kg/m2]; times: the clean media's loss multiplied (CLEAN_TIMES); which: set of coefficients
        """
        if flow <= 0:
            flow = 1e-9
        first = self.members[0]
        if len(self.members) == 1:
            n = first.filter.count
            q = flow / n
            linear = first.clean * times + first.cake * areal
            a = first.opening[which]
            return (a * q + linear) * q, (2 * a * q + linear) / n
        linears = [m.clean * times + m.cake * areal for m in self.members]
        pressure = flow / sum(m.filter.count / k for m, k in zip(self.members, linears, strict=True))
        slope = pressure / flow
        for _ in range(40):
            total = gain = 0.0
            for member, linear in zip(self.members, linears, strict=True):
                q, dq = member.find_flow(pressure, linear, which)
                total += member.filter.count * q
                gain += member.filter.count * dq
            slope = 1 / gain
            step = (flow - total) * slope
            pressure += step
            if abs(step) < 1e-11 * pressure:
                break
        return pressure, slope

    def share_flow(self, flow: float, which: int, areal: float = 0.0) -> tuple[float, ...]:
        """Return the flow [m3/s] through one filter of each kind."""
        pressure = self.find_loss(flow, which, areal)[0]
        return tuple(m.find_flow(pressure, m.clean + m.cake * areal, which)[0] for m in self.members)

    def find_media(self, flow: float, which: int, areal: float = 0.0) -> float:
        """Return the pressure [Pa] over the media alone, worst kind."""
        shares = self.share_flow(flow, which, areal)
        return max((m.clean + m.cake * areal) * q for m, q in zip(self.members, shares, strict=True))

    def find_load(self, flow: float, pressure_pa: float, which: int) -> float | None:
        """Return the dust load [kg/m2] at which the bank loses a pressure at a flow; None when clean already does."""
        if self.find_loss(flow, which)[0] >= pressure_pa:
            return None
        first = self.members[0]
        if len(self.members) == 1:
            q = flow / first.filter.count
            return (pressure_pa / q - first.opening[which] * q - first.clean) / first.cake
        low, high = 0.0, 1.0
        while self.find_loss(flow, which, high)[0] < pressure_pa:
            high *= 2
            if high > 1e6:
                return None
        for _ in range(60):
            middle = (low + high) / 2
            if self.find_loss(flow, which, middle)[0] < pressure_pa:
                low = middle
            else:
                high = middle
        return (low + high) / 2
