"""The blower: its curve at the shop's air and speed, static and total pressure, power."""

from __future__ import annotations

from collections.abc import Callable
from functools import cached_property
from typing import Literal

from calc.airflow.curve import MonotoneCurve
from calc.airflow.ducts import find_area
from calc.airflow.shaft_power import MakerPower, WheelPower
from calc.project import Blower, CurvePoint
from calc.results import BlowerCurve, BlowerPoint, Plotted, PowerCurve, ShopAir

MOST_BEYOND = 1.5  # of the curve's last flow: where free flow is looked for


def scale_curve(
    points: tuple[CurvePoint, ...], speed_ratio: float, density_ratio: float
) -> tuple[tuple[float, float], ...]:
    """Return a curve's points (flow, pressure) at another speed and air density.

    Q ~ N, p ~ rho N^2: fan laws, AMCA 201 and ASHRAE Handbook Systems and Equipment (from memory).
    """
    return tuple((point.flow_m3s * speed_ratio, point.pressure_pa * speed_ratio**2 * density_ratio) for point in points)


def find_air_power(flow_m3s: float, total_pa: float) -> float:
    """Return the power [W] put into the air: Q times total pressure."""
    return flow_m3s * total_pa


class BlowerModel:
    """The blower's pressures at shop air, in pascals, and its power in watts, by flow in m3/s.

    sure: whether the efficiency is known. Raises ValueError for a bad curve.
    """

    def __init__(self, blower: Blower, air: ShopAir, sure: bool = True) -> None:
        speed = blower.runs_at / blower.curve_speed if blower.runs_at and blower.curve_speed else 1.0
        self.speed_ratio, self.sure = speed, sure
        points = scale_curve(blower.curve, speed, air.density_kgm3 / blower.curve_density)
        self.blower, self.air = blower, air
        self.curve = MonotoneCurve([q for q, _ in points], [p for _, p in points])
        # velocity pressure at the outlet over flow squared: total = static + this (AMCA 201)
        self.per_flow2 = air.density_kgm3 / 2 / find_area(blower.outlet_m) ** 2

    @property
    def last_flow(self) -> float:
        """Flow [m3/s] at the curve's last point."""
        return self.curve.xs[-1]

    def find_total(self, flow: float) -> tuple[float, float]:
        """Return total pressure [Pa] at a flow [m3/s], and its slope."""
        pressure, slope = self.curve.find(flow)
        if self.blower.curve_is == "total":
            return pressure, slope
        return pressure + self.per_flow2 * flow * flow, slope + 2 * self.per_flow2 * flow

    def find_static(self, flow: float) -> float:
        """Return static pressure [Pa] at a flow [m3/s]: total less velocity pressure at the outlet."""
        return self.find_total(flow)[0] - self.per_flow2 * flow * flow

    @cached_property
    def free_flow(self) -> float:
        """Flow [m3/s] with no duct on: no static pressure; the curve goes on as it ended, at most half as far again."""
        low, high = 0.0, MOST_BEYOND * self.last_flow
        if self.find_static(high) > 0:
            return high
        for _ in range(50):
            middle = (low + high) / 2
            low, high = (middle, high) if self.find_static(middle) > 0 else (low, middle)
        return high

    @cached_property
    def power(self) -> WheelPower | MakerPower:
        """The power at the shaft: by the maker's curve if there is one."""
        if points := self.blower.power_curve:
            return MakerPower(points, self.speed_ratio, self.air.density_kgm3 / self.blower.curve_density)
        return WheelPower(self.blower, self.find_air, self.last_flow, self.free_flow, self.sure)

    def find_air(self, flow: float) -> float:
        """Return the air power [W] at a flow [m3/s]."""
        return find_air_power(flow, self.find_total(flow)[0])

    def find_shut_off(self) -> float:
        """Return the highest static pressure [Pa] anywhere on the curve, shut-off included."""
        last = self.last_flow
        return max(self.find_static(last * i / 40) for i in range(41))

    def describe_point(self, flow: float, crossings: tuple[float, ...]) -> BlowerPoint:
        """Return all that is to be known about the blower working at a flow [m3/s]."""
        beyond: Literal["", "before first point", "past last point"] = ""
        if flow > self.last_flow:
            beyond = "past last point"
        elif flow < self.curve.xs[0]:
            beyond = "before first point"
        return BlowerPoint(
            flow_m3s=flow,
            static_pa=self.find_static(flow),
            total_pa=self.find_total(flow)[0],
            outlet_speed_ms=flow / find_area(self.blower.outlet_m),
            air_power_w=self.find_air(flow),
            shaft_power=self.power.find(flow),
            beyond=beyond,
            crossings=crossings,
        )

    def describe_curve(self, steps: int = 48) -> BlowerCurve:
        """Return the curve for drawing."""
        last = self.last_flow
        first = self.curve.xs[0]
        flows = tuple(first + (last - first) * i / steps for i in range(steps + 1))
        static = Plotted("static", flows, tuple(self.find_static(q) for q in flows))
        total = Plotted("total", flows, tuple(self.find_total(q)[0] for q in flows))
        points = Plotted("points", tuple(self.curve.xs), tuple(self.curve.ys))
        return BlowerCurve(
            static=static,
            total=total,
            points=points,
            power=self.describe_power(steps),
            power_w=self.blower.power_w,
            shut_off_pa=self.find_shut_off(),
            end_of_curve_m3s=last,
        )

    def describe_power(self, steps: int) -> PowerCurve:
        """Return air power and shaft power from closed to free flow, for drawing and for what the motor must stand."""
        flows = tuple(self.free_flow * i / steps for i in range(steps + 1))
        shaft = [self.power.find(flow) for flow in flows]
        return PowerCurve(
            flow_m3s=flows,
            air_w=tuple(self.find_air(flow) for flow in flows),
            shaft_low_w=tuple(band.low for band in shaft),
            shaft_w=tuple(band.best for band in shaft),
            shaft_high_w=tuple(band.high for band in shaft),
        )


def find_crossings(excess: Callable[[float], float], low: float, high: float, steps: int = 60) -> tuple[float, ...]:
    """Return every flow [m3/s] between low and high where blower less system changes sign.

    excess: pressure the blower makes less pressure the system asks, at a flow.
    """
    found: list[float] = []
    flows = [low + (high - low) * i / steps for i in range(steps + 1)]
    values = [excess(q) for q in flows]
    for i in range(steps):
        if values[i] == 0.0:
            found.append(flows[i])
        elif values[i] * values[i + 1] < 0:
            found.append(_close_in(excess, flows[i], flows[i + 1], values[i], values[i + 1]))
    if values[-1] == 0.0:
        found.append(flows[-1])
    return tuple(found)


def _close_in(excess: Callable[[float], float], a: float, b: float, at_a: float, at_b: float) -> float:
    """Return the zero between two ends of unlike sign, by false position; an end that stays weighs half (Illinois)."""
    middle, kept = a, 0
    for _ in range(80):
        middle = b - at_b * (b - a) / (at_b - at_a)
        if not a < middle < b or b - a < 1e-13 * b:
            break
        value = excess(middle)
        if value == 0.0:
            break
        if value * at_a > 0:
            a, at_a, at_b, kept = middle, value, at_b / 2 if kept == 1 else at_b, 1
        else:
            b, at_b, at_a, kept = middle, value, at_a / 2 if kept == -1 else at_a, -1
    return middle
