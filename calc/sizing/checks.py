"""The checks that a change of ducts or filters can turn: flows, velocities, air-to-media, motor, end of the curve."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property
from typing import Literal

from calc.airflow.scenarios import Solved, find_duct_flows, make_band
from calc.airflow.system import System
from calc.airflow.velocities import Limits
from calc.finding import Band, Limit, Subject, Verdict, decide
from calc.measures.quantity import Kind

# Cartridges on wood dust: 1 to 2 cfm/ft2, common practice, no source. The upper end is the limit.
AIR_TO_MEDIA_MS = 2 * 0.00508

About = Literal["flow", "velocity", "motor", "curve end", "air to media"]
ABOUT: tuple[About, ...] = ("flow", "velocity", "motor", "curve end", "air to media")
"""The order in which findings are listed."""

_RANK = {Verdict.FITS: 0, Verdict.TIGHT: 1, Verdict.DOES_NOT_FIT: 2}


@dataclass(frozen=True, kw_only=True)
class Check:
    """One value with its band against its limit.

    about: what is checked; place: ``run`` or ``drop`` for a velocity; scenario: the gates it happens with;
    alone: they are one gate alone
    """

    key: str
    about: About
    subject: Subject
    scenario: str
    kind: Kind
    value: Band
    limit: Limit
    alone: bool = False
    place: str = ""

    @cached_property
    def verdict(self) -> Verdict:
        return decide(self.value, self.limit)

    @property
    def rank(self) -> int:
        """How bad: 0 fits, 1 tight, 2 does not fit."""
        return _RANK[self.verdict]

    @property
    def shortfall(self) -> float:
        """How far the best value is past the limit, as a share of it; negative when there is room."""
        return -self.limit.find_room(self.value.best) / self.limit.value


def keep_worse(checks: dict[str, Check], check: Check) -> None:
    """Keep the worse of two checks with the same key."""
    old = checks.get(check.key)
    if old is None or (check.rank, check.shortfall) > (old.rank, old.shortfall):
        checks[check.key] = check


def find_flow_band(solved: Solved) -> Band:
    """Return the blower's flow in a scenario with its band."""
    return make_band((solved.low.blower_flow, solved.best.blower_flow, solved.high.blower_flow))


def find_power_band(system: System, flow: Band) -> Band:
    """Return the shaft power [W] over a band of flows; what is not known of wheel and efficiency widens it."""
    powers = [system.blower.power.find(q) for q in (flow.low, flow.best, flow.high)]
    return Band(min(power.low for power in powers), powers[1].best, max(power.high for power in powers))


def check_scenarios(system: System, limits: Limits, solved: list[Solved]) -> dict[str, Check]:
    """Return the checks of some scenarios, by key. All gates open counts for the motor only."""
    checks: dict[str, Check] = {}
    for one in solved:
        name = one.opened.name
        flow = find_flow_band(one)
        most = Limit(system.project.blower.power_w, "at most")
        keep_worse(
            checks,
            Check(
                key="blower.motor", about="motor", subject=Subject("blower"), scenario=name, kind="power_w",
                value=find_power_band(system, flow), limit=most,
            ),
        )  # fmt: skip
        if one.opened.kind == "all":
            continue
        _check_flows(system, one, checks)
        _check_velocities(system, limits, one, checks)
        face = Band(*(v / system.bank.media_m2 for v in (flow.low, flow.best, flow.high)))
        keep_worse(
            checks,
            Check(
                key="filter.air_to_media", about="air to media", subject=Subject("filters"), scenario=name,
                kind="face_speed_ms", value=face, limit=Limit(AIR_TO_MEDIA_MS, "at most"),
            ),
        )  # fmt: skip
        keep_worse(
            checks,
            Check(
                key="blower.curve_end", about="curve end", subject=Subject("blower"), scenario=name,
                kind="flow_m3s", value=flow, limit=Limit(system.blower.last_flow, "at most"),
            ),
        )  # fmt: skip
    return checks


def _check_velocities(system: System, limits: Limits, one: Solved, checks: dict[str, Check]) -> None:
    for row in find_duct_flows(system, limits, one):
        keep_worse(
            checks,
            Check(
                key=f"velocity.{row.place}", about="velocity", scenario=one.opened.name, kind="speed_ms",
                subject=Subject("machine" if row.kind == "drop" else "run", row.place),
                value=row.speed, limit=Limit(row.limit_ms, "at least"), alone=one.opened.kind == "alone",
                place=row.kind,
            ),
        )  # fmt: skip


def _check_flows(system: System, one: Solved, checks: dict[str, Check]) -> None:
    opened = one.opened
    for machine in opened.open:
        key = f"flow.{machine}" if opened.kind == "alone" else f"flow.{opened.name}.{machine}"
        keep_worse(
            checks,
            Check(
                key=key, about="flow", subject=Subject("machine", machine), scenario=opened.name, kind="flow_m3s",
                value=one.find_band(machine), limit=Limit(system.needs[machine], "at least"),
                alone=opened.kind == "alone",
            ),
        )  # fmt: skip
