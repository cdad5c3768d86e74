"""The leak hunt in numbers: what the gauge shows with every gate shut, and what that says of the air that leaks in.

With every gate shut only leaks feed the blower. Each leak is an opening: its air goes as the root of the suction on it,
so leaks let more in at shut-off than while a gate is open.
"""

from __future__ import annotations

import datetime
import math
from dataclasses import dataclass

from calc.airflow.chains import BEST
from calc.airflow.system import System
from calc.finding import Limit, Verdict, decide
from calc.gauges.gauge_design import GaugeDesign
from calc.record.diagnosis import find_crossing
from calc.record.entries import Record
from calc.results import Sizing
from calc.settled import SettledShop

ALLOWED_SHARE = 0.10
"""Of the air with the gauge's gate alone open (common practice, no source; the same limit as the sizing's finding)."""


@dataclass(frozen=True, kw_only=True)
class LeakLimits:
    """What passes, with every gate shut and clean filters.

    shut_pa: gauge at the allowed leak, at most
    still_pa: gauge with no leak at all; seen_pa: smallest difference that the eye can tell
    pass_pa: where to call it passed, the eye allowed for; pass_share: the leak it stands for, None: no leak within the
    blower's curve is told by the gauge
    leak_m3s: the allowed leak then; gate_speed_ms: its even share by each gate, as air speed in the widest gate's duct
    """

    shut_pa: float
    still_pa: float
    seen_pa: float
    pass_pa: float
    pass_share: float | None
    leak_m3s: float
    gate_speed_ms: float

    @property
    def is_told(self) -> bool:
        """Whether the gauge tells the allowed leak from none."""
        return abs(self.shut_pa - self.still_pa) >= self.seen_pa


@dataclass(frozen=True)
class LeakFound:
    """A reading with every gate shut. share: leak it stands for, of the air with the gauge's gate open; or None."""

    date: datetime.date
    measured_pa: float
    limits: LeakLimits
    share: float | None
    verdict: Verdict


def find_leak_limits(project: SettledShop, sizing: Sizing, gauge: GaugeDesign) -> LeakLimits:
    """Return what passes the leak hunt of a settled project."""
    return _find_limits(System(project), project, sizing, gauge)


def _find_limits(system: System, project: SettledShop, sizing: Sizing, gauge: GaugeDesign) -> LeakLimits:
    one = _find_leak_at_shut_off(system, sizing)
    leak = ALLOWED_SHARE * one
    seen = gauge.finest.error_pa
    shut, still = find_shut_reading(system, leak), find_shut_reading(system, 0.0)
    passes = max(shut, seen)
    gates = [machine.gate.diameter_m for machine in project.machines if machine.gate]
    area = math.pi / 4 * max(gates, default=0.1) ** 2
    return LeakLimits(
        shut_pa=shut,
        still_pa=still,
        seen_pa=seen,
        pass_pa=passes,
        pass_share=_find_share(system, passes, one),
        leak_m3s=leak,
        gate_speed_ms=leak / max(len(gates), 1) / area,
    )


def _find_leak_at_shut_off(system: System, sizing: Sizing) -> float:
    """Return the whole air with the gauge's gate open, as a leak of that size would be with every gate shut [m3/s]."""
    flow = sizing.get_alone(sizing.gauge_at).flow.best
    suction = system.balance((sizing.gauge_at,), BEST).root_suction
    shut = system.blower.find_total(0.0)[0]
    return flow * math.sqrt(max(shut / suction, 1.0)) if suction > 0 else flow


def find_shut_reading(system: System, leak_m3s: float) -> float:
    """Return the gauge [Pa] with every gate shut and so much leaking in [m3/s], filters clean.

    It is what the filters hold back of the leak.
    """
    return system.bank.find_loss(leak_m3s, BEST)[0] if leak_m3s > 0 else 0.0


def _find_share(system: System, reading_pa: float, one_m3s: float) -> float | None:
    """Return the leak a reading stands for, as a share; None when none up to the whole air gives it."""
    leak = find_crossing(lambda q: find_shut_reading(system, q) - reading_pa, 0.0, one_m3s)
    return None if leak is None else leak / one_m3s


def judge_shut_readings(
    project: SettledShop, sizing: Sizing, gauge: GaugeDesign, record: Record
) -> tuple[LeakFound, ...]:
    """Return every recorded reading with the gates shut, oldest first, with the leak it stands for."""
    dated = [(entry.date, entry.get_value("shutoff.reading")) for entry in record.entries]
    readings = sorted((date, abs(value)) for date, value in dated if value is not None)
    if not readings:
        return ()
    system = System(project)
    limits, one = _find_limits(system, project, sizing, gauge), _find_leak_at_shut_off(system, sizing)
    found = []
    for date, measured in readings:
        over = measured - limits.pass_pa
        verdict = decide(over, Limit(limits.seen_pa, "at most", tight=limits.seen_pa))
        found.append(LeakFound(date, measured, limits, _find_share(system, measured, one), verdict))
    return tuple(found)
