"""Transport velocities: how fast the air must go in each duct to keep its dust moving, and how fast it goes."""

from __future__ import annotations

from copy import copy

from calc.airflow.ducts import find_area
from calc.airflow.network import Network
from calc.airflow.stretches import ROOT, Flows, name_pickup
from calc.project import Aired, Hose, Machine, Piece, Pipe

# Very fine light dust keeps moving at 2,500 to 3,000 fpm: ACGIH Industrial Ventilation, duct design velocities (read).
FINE_DUST_MS = 15.24


def find_widest(pieces: tuple[Piece, ...]) -> float | None:
    """Return the widest pipe or hose [m] among the pieces, where dust settles first; None without any."""
    return max((piece.diameter_m for piece in pieces if isinstance(piece, Pipe | Hose)), default=None)


class Limits:
    """Which transport velocity holds where. A run fed by two machines or more is a main, any other duct a branch."""

    def __init__(self, project: Aired, network: Network) -> None:
        self.project, self.network = project, network
        self.machines = {machine.name: machine for machine in project.machines}
        self.runs = {run.name: run for run in project.runs}
        self.widest = {run.name: find_widest(run.pieces) or network.entering[run.name] for run in project.runs}
        self.fed = dict.fromkeys(self.runs, 0)
        for machine in project.machines:
            self.fed[machine.on] += 1
        for name in network.order:
            into = network.runs[name].into
            if into != ROOT:
                self.fed[into] += self.fed[name]

    def swap_machine(self, machine: Machine, network: Network) -> Limits:
        """Return the limits with one machine changed."""
        limits = copy(self)
        limits.machines = {**self.machines, machine.name: machine}
        limits.network = network
        return limits

    def find_drop_limit(self, machine: Machine) -> float:
        """Return the velocity [m/s] a machine's own drop must keep."""
        return self._fit_dust(machine, self.project.dust.branch_speed_ms)

    def _fit_dust(self, machine: Machine, base: float) -> float:
        if machine.speed_ms is not None:
            return machine.speed_ms
        return min(base, FINE_DUST_MS) if machine.fine_dust else base

    def find_run_limit(self, run: str, feeding: list[str]) -> float:
        """Return the velocity [m/s] a run must keep for the machines that feed it just now."""
        dust = self.project.dust
        base = dust.main_speed_ms if self.fed[run] > 1 else dust.branch_speed_ms
        return max(self._fit_dust(self.machines[name], base) for name in feeding)

    def find_drop(self, machine: Machine, flows: Flows) -> tuple[float, float]:
        """Return the diameter [m] and flow [m3/s] where the air in a machine's own ducts is slowest."""
        found: list[tuple[float, float]] = []
        shared = find_widest(machine.pieces)
        if shared is not None:
            found.append((shared, flows.flow[machine.name]))
        for pickup in machine.pickups:
            widest = find_widest(pickup.pieces)
            if widest is not None:
                flow = flows.flow.get(name_pickup(machine.name, pickup.name), flows.flow[machine.name])
                found.append((widest, flow))
        if not found:
            found.append((max(p.hood.diameter_m for p in machine.pickups), flows.flow[machine.name]))
        return min(found, key=lambda pair: pair[1] / find_area(pair[0]))
