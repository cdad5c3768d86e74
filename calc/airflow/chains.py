"""A chain of items folded into one curve of loss against flow, fast enough to be asked thousands of times."""

from __future__ import annotations

from collections.abc import Iterable

from calc.airflow.air import STANDARD_DENSITY
from calc.airflow.ducts import find_area, solve_colebrook
from calc.airflow.items import Item
from calc.results import ShopAir

LOW, BEST, HIGH = 0, 1, 2
SETS = (LOW, BEST, HIGH)


class Chain:
    """Loss of a chain at a flow, for one set of coefficients (LOW, BEST or HIGH).

    quadratic: pressure over flow squared [Pa/(m3/s)^2] of all that follows the square law
    frictions: per diameter and roughness: pressure over (f Q^2), Reynolds number over flow, relative roughness
    """

    __slots__ = ("frictions", "quadratic")

    def __init__(self, quadratic: float, frictions: list[tuple[float, float, float]]) -> None:
        self.quadratic = quadratic
        self.frictions = frictions

    def find_loss(self, flow: float) -> tuple[float, float]:
        """Return the loss [Pa] at a flow [m3/s] and its slope [Pa/(m3/s)]."""
        loss = self.quadratic * flow
        slope = 2.0 * loss
        loss *= flow
        for weight, reynolds_per_flow, roughness in self.frictions:
            f, df = solve_colebrook(reynolds_per_flow * flow, roughness)
            weight *= flow
            loss += weight * f * flow
            slope += weight * (2.0 * f + df)
        return loss, slope


def fold_items(items: Iterable[Item], air: ShopAir, which: int) -> Chain:
    """Return the chain of some items with one set of coefficients, at the shop's air."""
    half_density = air.density_kgm3 / 2
    quadratic = 0.0
    frictions: dict[tuple[float, float], float] = {}
    for item in items:
        if item.coefficient is not None and item.diameter_m is not None:
            c = item.coefficient
            value = c.best if which == BEST else c.low if which == LOW else c.high
            quadratic += value * half_density / find_area(item.diameter_m) ** 2
        elif item.resistance is not None:
            quadratic += item.resistance[which] * air.density_kgm3 / STANDARD_DENSITY
        elif item.friction is not None:
            laid = item.friction[which]
            key = (laid.diameter_m, laid.roughness_m)
            frictions[key] = frictions.get(key, 0.0) + laid.factor * laid.length_m
    folded = []
    for (diameter, roughness), length in frictions.items():
        area = find_area(diameter)
        weight = length / diameter * half_density / area**2
        folded.append((weight, air.density_kgm3 * diameter / area / air.viscosity_pas, roughness / diameter))
    return Chain(quadratic, folded)


def find_item_loss(item: Item, flow_m3s: float, air: ShopAir, which: int) -> float:
    """Return the loss [Pa] of one item at a flow [m3/s]."""
    return fold_items((item,), air, which).find_loss(flow_m3s)[0]
