"""How far each duct's flow may lie off when several gates share the air: its own losses high, the others' low.

With several gates open it is not enough to take all coefficients high or all low: the shares then hardly move. A
machine gets least when its own way is dear and the others' ways are cheap, and most the other way round.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING

from calc.airflow.chains import HIGH, LOW
from calc.airflow.filters import CLEAN_TIMES

if TYPE_CHECKING:
    from calc.airflow.stretches import Flows
    from calc.airflow.system import System

MOST_APART = 8
"""Up to so many open gates each duct is balanced on its own; beyond, all at once and closely."""

Spread = Mapping[str, tuple[float, float]]
"""Place -> lowest and highest flow [m3/s]."""


def find_spread(system: System, open_machines: tuple[str, ...], best: Flows, low: Flows, high: Flows) -> Spread:
    """Return the lowest and highest flow of each open place; empty with one hood open, where low and high say it."""
    open_machines = system.network.list_drawing(open_machines)
    if len(open_machines) < 2:
        return {}
    return (
        _balance_each(system, open_machines, best, low, high)
        if len(open_machines) <= MOST_APART
        else (_estimate_all(system, open_machines, best, low, high))
    )


def _list_feeding(system: System, open_machines: tuple[str, ...]) -> dict[str, list[str]]:
    """Return the open machines behind each place, machines first."""
    feeding: dict[str, list[str]] = {name: [name] for name in open_machines}
    for name in open_machines:
        for run in system.network.walk_down(name):
            feeding.setdefault(run, []).append(name)
    return feeding


def _balance_each(
    system: System, open_machines: tuple[str, ...], best: Flows, low: Flows, high: Flows
) -> dict[str, tuple[float, float]]:
    """Balance once for each place with its own way high and the rest low, and once the other way round."""
    feeding = _list_feeding(system, open_machines)
    spread = {}
    for place, machines in feeding.items():
        if len(machines) == len(open_machines):
            spread[place] = (low.flow[place], high.flow[place])
            continue
        own = {name for name, behind in feeding.items() if set(behind) <= set(machines) or set(machines) <= set(behind)}
        others = [name for name in feeding if name not in own]
        least = system.balance(
            open_machines, HIGH, times=CLEAN_TIMES[HIGH], start=best, apart=dict.fromkeys(others, LOW)
        )
        most = system.balance(open_machines, LOW, times=CLEAN_TIMES[LOW], start=best, apart=dict.fromkeys(others, HIGH))
        spread[place] = (least.flow[place], most.flow[place])
    return spread


def _estimate_all(
    system: System, open_machines: tuple[str, ...], best: Flows, low: Flows, high: Flows
) -> dict[str, tuple[float, float]]:
    """Return bounds for many gates, within about a tenth: one machine more or less hardly moves its joint's pressure.

    The joints' lowest pressures come with all machines' ways cheap and mains and filters dear; there each machine is
    taken dear alone. A run's bounds are those of the machines behind it.
    """
    starved = system.balance(
        open_machines, HIGH, times=CLEAN_TIMES[HIGH], start=best, apart=dict.fromkeys(open_machines, LOW)
    )
    spoilt = system.balance(
        open_machines, LOW, times=CLEAN_TIMES[LOW], start=best, apart=dict.fromkeys(open_machines, HIGH)
    )
    spread = {
        name: (_shift(system, starved, name, LOW, HIGH), _shift(system, spoilt, name, HIGH, LOW))
        for name in open_machines
    }
    for place, machines in _list_feeding(system, open_machines).items():
        if len(machines) == len(open_machines):
            spread[place] = (low.flow[place], high.flow[place])
        elif place not in spread:
            middle = sum(best.flow[name] for name in machines)
            least, most = (sum(spread[name][side] for name in machines) / middle for side in (0, 1))
            spread[place] = (least * best.flow[place], most * best.flow[place])
    return spread


def _shift(system: System, flows: Flows, machine: str, was: int, becomes: int) -> float:
    """Return a machine's flow [m3/s] with its coefficients changed and the suction at its joint as it is."""
    network, before = system.network, flows.flow[machine]

    def find_loss(share: float, which: int) -> float:
        hoods = [p.chains[which].find_loss(share * flows.flow[p.name])[0] for p in network.pickups[machine]]
        return network.machines[machine].chains[which].find_loss(share * before)[0] + max(hoods, default=0.0)

    target, share = find_loss(1.0, was), 1.0
    for _ in range(4):  # near the square law, so it settles at once
        lost = find_loss(share, becomes)
        share *= (target / lost) ** 0.5 if lost > 0 else 1.0
    return share * before
