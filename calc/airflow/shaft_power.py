"""Power at the blower's shaft: how it runs with the flow by the kind of wheel, or as the maker's power curve has it.

Power of a wheel goes with flow as Euler's relation has it, P ~ c + x + b x^2: x the share of free flow, c what a closed
wheel draws, b the blades' bend: 0 for radial blades, more for blades that lean forward, less for backward ones. So a
forward wheel's power rises ever more steeply and a radial one's straight, both to free flow; a backward wheel's has its
largest value inside: Faber and Kell's Heating and Air-Conditioning of Buildings, chapter 17 (read). No printed table of
the shapes was found: c 0.2 to 0.4 and b 0.62 either way are common practice, no source; good to 10 points of the
largest power. Efficiency sets the height: the best that the blower reaches anywhere on its curve.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from calc.airflow.curve import MonotoneCurve
from calc.finding import Band
from calc.project import Blower, PowerPoint, WheelKind

BENDS: dict[WheelKind, float] = {"radial": 0.0, "forward": 0.62, "backward": -0.62}
"""b of each wheel."""
BEND_SPREAD = 0.2  # either way: blades lean more or less
CLOSED = (0.2, 0.25, 0.4)
"""c: low, best, high."""

EFFICIENCY_SPREAD = 0.1  # either way, of an efficiency nobody measured: wheels for dust, 45 to 65 %, no source
STEPS = 48  # of the curve, where its best efficiency is looked for


@dataclass(frozen=True)
class PowerShape:
    """How a wheel's power runs with the share of free flow: closed + x + bend x^2, of no unit."""

    closed: float
    bend: float

    def find(self, share: float) -> float:
        """Return the power, as a multiple that only its own other values compare with."""
        return self.closed + share + self.bend * share * share


def list_shapes(wheel: WheelKind) -> tuple[PowerShape, tuple[PowerShape, ...]]:
    """Return a wheel's best shape, and those at the corners of what is known of it."""
    bend = BENDS[wheel]
    corners = tuple(PowerShape(c, bend + by) for c in (CLOSED[0], CLOSED[-1]) for by in (-BEND_SPREAD, BEND_SPREAD))
    return PowerShape(CLOSED[1], bend), corners


class WheelPower:
    """Shaft power [W] by flow [m3/s] from the blower's own air power: by the wheel, the worst of all where unknown.

    find_air: air power [W] at a flow; last_flow, free_flow: end of the curve and flow with no duct on; sure: whether
    the efficiency is known, or widens the band
    """

    def __init__(
        self, blower: Blower, find_air: Callable[[float], float], last_flow: float, free_flow: float, sure: bool
    ) -> None:
        self.free_flow = free_flow
        best, spread = blower.efficiency, 0.0 if sure else EFFICIENCY_SPREAD
        self.bests: list[tuple[PowerShape, float]] = []  # of each wheel it may be: shape and height [W]
        self.ends: list[tuple[PowerShape, float]] = []
        airs = [(last_flow * i / STEPS, find_air(last_flow * i / STEPS)) for i in range(1, STEPS + 1)]
        for wheel in (blower.wheel,) if blower.wheel else tuple(BENDS):
            shape, corners = list_shapes(wheel)
            self.bests.append((shape, self._find_height(shape, airs) / best))
            for corner in corners:
                height = self._find_height(corner, airs)
                self.ends += [(corner, height / (best + by)) for by in (-spread, spread)]

    def _find_height(self, shape: PowerShape, airs: list[tuple[float, float]]) -> float:
        """Return what the shape is multiplied by [W] where the best efficiency anywhere on the curve is 1."""
        return max(air / shape.find(flow / self.free_flow) for flow, air in airs)

    def find(self, flow: float) -> Band:
        """Return the shaft power [W] at a flow [m3/s]."""
        share = flow / self.free_flow
        bests = [height * shape.find(share) for shape, height in self.bests]
        ends = [height * shape.find(share) for shape, height in self.ends]
        return Band(min(*bests, *ends), max(bests), max(*bests, *ends))

    def find_worst(self, flow: float) -> tuple[PowerShape, float]:
        """Return the shape that asks most at a flow [m3/s], and what it is multiplied by [W]."""
        share = flow / self.free_flow
        return max(self.bests, key=lambda one: one[1] * one[0].find(share))


class MakerPower:
    """Shaft power [W] by flow [m3/s] as the maker's curve has it, at another speed and density by the fan laws.

    P ~ rho N^3: AMCA 201 and ASHRAE Handbook Systems and Equipment (from memory). Raises ValueError for a bad curve.
    """

    def __init__(self, points: tuple[PowerPoint, ...], speed_ratio: float, density_ratio: float) -> None:
        scaled = [(p.flow_m3s * speed_ratio, p.power_w * speed_ratio**3 * density_ratio) for p in points]
        self.curve = MonotoneCurve([flow for flow, _ in scaled], [power for _, power in scaled])

    def find(self, flow: float) -> Band:
        """Return the shaft power [W] at a flow [m3/s]; it has no band of its own."""
        power = self.curve.find(flow)[0]
        return Band(power, power, power)
