"""Make-up air: the opening that lets into the room what the blower sends outdoors."""

from __future__ import annotations

import math
from collections.abc import Sequence

from calc.project import Shop
from calc.results import MakeUpAir, Scenario
from calc.sizing.appliances import LIMITS, choose_limit

DISCHARGE = 0.6  # sharp-edged opening, any text on fluid flow


def find_opening(flow_m3s: float, depression_pa: float, density_kgm3: float) -> float:
    """Return the opening [m2] that lets a flow in at a depression: A = Q / (0.6 sqrt(2 dp / rho)), orifice equation.

    Raises ValueError for a depression that is not positive.
    """
    if depression_pa <= 0:
        raise ValueError("the depression must be above 0 Pa")
    return flow_m3s / (DISCHARGE * math.sqrt(2 * depression_pa / density_kgm3))


def find_depression(flow_m3s: float, opening_m2: float, density_kgm3: float) -> float:
    """Return how far [Pa] a room falls that gets a flow by one opening: dp = rho/2 (Q / 0.6 A)^2, orifice equation.

    What leaks in elsewhere is not counted, nor is wind. Raises ValueError for an opening that is not positive.
    """
    if opening_m2 <= 0:
        raise ValueError("the opening must be above 0")
    return density_kgm3 / 2 * (flow_m3s / (DISCHARGE * opening_m2)) ** 2


def find_most(scenarios: Sequence[Scenario]) -> Scenario:
    """Return the gates, one alone or a set of the project file, with which the blower moves the most air."""
    return max((s for s in scenarios if s.kind != "all"), key=lambda s: s.flow.best)


def describe_make_up(shop: Shop, flow_m3s: float, density_kgm3: float, machines: tuple[str, ...] = ()) -> MakeUpAir:
    """Return the opening the shop needs, and what the opening it has does. machines: those open at that flow."""
    depression = choose_limit(shop.flued_appliance, shop.appliance_draught_pa)
    limit, given = LIMITS[shop.flued_appliance], shop.make_up_opening_m2
    return MakeUpAir(
        flow_m3s=flow_m3s,
        machines=machines,
        depression_pa=depression,
        opening_m2=find_opening(flow_m3s, depression, density_kgm3),
        needed=shop.clean_air == "outdoors",
        appliance=shop.flued_appliance,
        limit_pa=limit.most_pa,
        limit_source=limit.source,
        asked_pa=shop.appliance_draught_pa,
        given_m2=given,
        given_depression_pa=None if given is None else find_depression(flow_m3s, given, density_kgm3),
    )
