"""The findings on the ducts as drawn: pieces of unlike size that meet, and machines that no gate closes."""

from __future__ import annotations

from collections import Counter

from calc.airflow.completing import list_left_out
from calc.airflow.ducts import find_area, find_velocity_pressure
from calc.airflow.fittings import find_taper
from calc.airflow.items import size_of
from calc.airflow.scenarios import Solved
from calc.airflow.system import System
from calc.finding import Amount, Finding, Subject, Verdict, say, tell
from calc.project import Taper

REDUCER_DEG = 30.0
"""Full angle of the reducer that is named as the mend (common practice, no source)."""


def judge_steps(system: System, solved: list[Solved]) -> list[Finding]:
    """Return a finding on every reducer that the file leaves out: what the step costs, and what a taper would."""
    found, seen = [], Counter[str]()
    for place, step in list_left_out(system.project):
        flow = max((one.best.flow.get(place, 0.0) for one in solved if one.opened.kind == "alone"), default=0.0)
        if not place:
            flow = max(one.best.blower_flow for one in solved if one.opened.kind == "alone")
        sudden, smooth = (_find_loss(system, each, flow) for each in (step, Taper(step.from_m, step.to_m, REDUCER_DEG)))
        sizes = {"before": size_of(step.from_m), "after": size_of(step.to_m)}
        angle = Amount(REDUCER_DEG, "angle_deg")
        seen[place] += 1
        found.append(
            tell(
                f"step.{place or 'blower'}.{seen[place]}",
                say("judging_ducts.step", place=place, **sizes)
                if place
                else say("judging_ducts.step_at_blower", **sizes),
                say("judging_ducts.step_why", lost=Amount(sudden, "pressure_pa"), flow=Amount(flow, "flow_m3s")),
                Verdict.TIGHT,
                topic="air",
                subjects=(_name_subject(system, place),),
                mends=(say("judging_ducts.step_mend", lost=Amount(smooth, "pressure_pa"), angle=angle, **sizes),),
                source="sudden: Borda and Carnot, or SMACNA HVAC Systems Duct Design 1990, Table 14-12 A",
            )
        )
    return found


def judge_unclosed(system: System, solved: list[Solved]) -> list[Finding]:
    """Return a finding on each machine that no gate closes: the air it takes from the one it leaves least."""
    found = []
    alone = [one for one in solved if one.opened.kind == "alone"]
    for name in system.network.unclosed:
        others = [one for one in alone if one.opened.name != name]
        if not others:
            continue
        least = min(others, key=lambda one: one.best.flow[one.opened.name] / system.needs[one.opened.name])
        found.append(
            tell(
                f"gate.{name}",
                say("judging_ducts.unclosed", machine=name, other=least.opened.name),
                say("judging_ducts.unclosed_why"),
                Verdict.TIGHT,
                topic="air",
                value=least.best.flow[name],
                kind="flow_m3s",
                subjects=(Subject("machine", name),),
                mends=(say("judging_ducts.unclosed_mend", machine=name),),
            )
        )
    return found


def _find_loss(system: System, taper: Taper, flow_m3s: float) -> float:
    found, at_m = find_taper(taper)
    return found.best * find_velocity_pressure(flow_m3s / find_area(at_m), system.air.density_kgm3)


def _name_subject(system: System, place: str) -> Subject:
    if not place:
        return Subject("blower")
    return Subject("machine" if place in system.needs else "run", place)
