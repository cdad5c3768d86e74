"""The checks that a change of ducts or filters can turn: flows, velocities, air-to-media, motor, end of the curve."""

from __future__ import annotations

from dataclasses import dataclass

from calc.airflow.scenarios import Solved, find_duct_flows, judge_at_least, judge_at_most, make_band
from calc.airflow.system import System
from calc.airflow.velocities import Limits
from calc.finding import Verdict
from calc.measures.quantity import Kind
from calc.results import Band

# Cartridges on wood dust: 1 to 2 cfm/ft2, common practice, no source. The upper end is the limit.
AIR_TO_MEDIA_MS = 2 * 0.00508

# Shaft to air, where the file does not say: wheels for dust, 45 to 65 %, common practice, no source.
EFFICIENCIES = (0.45, 0.65)

_RANK = {Verdict.FITS: 0, Verdict.TIGHT: 1, Verdict.DOES_NOT_FIT: 2}


@dataclass(frozen=True)
class Check:
    """One value with its band against its limit.

    subject: machine, run or scenario; place: ``run`` or ``drop`` for a velocity; scenario: the gates it happens with;
    alone: they are one gate alone
    """

    key: str
    subject: str
    scenario: str
    kind: Kind
    value: Band
    limit: float
    at_least: bool
    verdict: Verdict
    alone: bool = False
    place: str = ""

    @property
    def rank(self) -> int:
        """How bad: 0 fits, 1 tight, 2 does not fit."""
        return _RANK[self.verdict]

    @property
    def shortfall(self) -> float:
        """How far the best value is past the limit, as a share of it; negative when there is room."""
        over = self.value.best / self.limit - 1
        return -over if self.at_least else over


def keep_worse(checks: dict[str, Check], check: Check) -> None:
    """Keep the worse of two checks with the same key."""
    old = checks.get(check.key)
    if old is None or (check.rank, check.shortfall) > (old.rank, old.shortfall):
        checks[check.key] = check


def find_flow_band(solved: Solved) -> Band:
    """Return the blower's flow in a scenario with its band."""
    return make_band((solved.low.blower_flow, solved.best.blower_flow, solved.high.blower_flow))


def find_power_band(system: System, flow: Band) -> Band:
    """Return the shaft power [W] over a band of flows; an efficiency that was only assumed widens it."""
    powers = [system.blower.describe_point(q, ()).shaft_power_w for q in (flow.low, flow.best, flow.high)]
    if not system.project.is_assumed("blower.efficiency"):
        return make_band((powers[0], powers[1], powers[2]))
    used = system.project.blower.efficiency
    return Band(min(powers) * used / EFFICIENCIES[1], powers[1], max(powers) * used / EFFICIENCIES[0])


def check_scenarios(system: System, limits: Limits, solved: list[Solved]) -> dict[str, Check]:
    """Return the checks of some scenarios, by key. All gates open counts for the motor only."""
    checks: dict[str, Check] = {}
    for one in solved:
        name = one.opened.name
        flow = find_flow_band(one)
        power = find_power_band(system, flow)
        most = system.project.blower.power_w
        keep_worse(checks, Check("blower.motor", name, name, "power_w", power, most, False, judge_at_most(power, most)))
        if one.opened.kind == "all":
            continue
        alone = one.opened.kind == "alone"
        _check_flows(system, one, checks)
        for row in find_duct_flows(system, limits, one):
            key = f"velocity.{row.place}"
            keep_worse(
                checks,
                Check(key, row.place, name, "speed_ms", row.speed, row.limit_ms, True, row.verdict, alone, row.kind),
            )
        face = Band(*(v / system.bank.media_m2 for v in (flow.low, flow.best, flow.high)))
        verdict = judge_at_most(face, AIR_TO_MEDIA_MS)
        keep_worse(
            checks, Check("filter.air_to_media", name, name, "face_speed_ms", face, AIR_TO_MEDIA_MS, False, verdict)
        )
        last = system.blower.last_flow
        keep_worse(
            checks, Check("blower.curve_end", name, name, "flow_m3s", flow, last, False, judge_at_most(flow, last))
        )
    return checks


def _check_flows(system: System, one: Solved, checks: dict[str, Check]) -> None:
    opened = one.opened
    for machine in opened.open:
        band = one.find_band(machine)
        needs = system.needs[machine]
        key = f"flow.{machine}" if opened.kind == "alone" else f"flow.{opened.name}.{machine}"
        keep_worse(
            checks,
            Check(
                key,
                machine,
                opened.name,
                "flow_m3s",
                band,
                needs,
                True,
                judge_at_least(band, needs),
                opened.kind == "alone",
            ),
        )
