"""The balance of an open network: flows at which every joint has one pressure and the blower makes what is asked.

Newton's steps on all flows at once; as the network is a tree, each step is solved exactly from the hoods down to the
blower and back (no recursion, time in proportion to the open stretches).
"""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping, Sequence

from calc.airflow.chains import BEST, Chain
from calc.airflow.network import Network
from calc.airflow.stretches import ROOT, Flows

WHOLE_STEPS, MOST_STEPS = 25, 150
MOST_FLOW_M3S = 1e4
"""A step beyond this leads nowhere: a thousand times the largest blower a project file may have."""


def find_leak(suction_pa: float, leak_m2: float, seams: float, density_kgm3: float) -> float:
    """Return the flow [m3/s] leaking in: effective area times sqrt(2 p / rho), and seams times p^0.65.

    The network hands in its joints' total pressure; the wall feels the static one, one velocity pressure more: leaks
    come out a little low, by a tenth or so where ducts run at transport velocity.
    """
    if suction_pa <= 0:
        return 0.0
    return leak_m2 * float((2 * suction_pa / density_kgm3) ** 0.5) + seams * float(suction_pa**0.65)


class NoBalance(ArithmeticError):
    """Blower and ducts find no balance. machines: those whose gates stand open."""

    def __init__(self, machines: tuple[str, ...]) -> None:
        super().__init__(f"no balance with these gates open: {', '.join(machines)}")
        self.machines = machines


class Balance:
    """Newton's method on the open part of the tree.

    open_machines: those opened; what nothing closes is open besides
    which: set of coefficients; apart: places (run or machine, its pickups with it) that take another set
    """

    def __init__(
        self, network: Network, open_machines: Sequence[str], which: int = BEST, apart: Mapping[str, int] | None = None
    ) -> None:
        self.network, self.rho, self.open_machines = network, network.air.density_kgm3, tuple(open_machines)
        open_machines = network.list_drawing(open_machines)
        unlike = apart or {}
        open_runs: set[str] = set()
        names: list[str] = []
        chains: list[Chain] = []
        downs: list[str] = []
        for name in open_machines:
            machine = network.machines[name]
            for pickup in network.pickups[name]:
                names.append(pickup.name)
                chains.append(pickup.chains[unlike.get(name, which)])
                downs.append(name)
            run = machine.into
            while run != ROOT and run not in open_runs:
                open_runs.add(run)
                run = network.runs[run].into
        for name in open_machines:
            names.append(name)
            chains.append(network.machines[name].chains[unlike.get(name, which)])
            downs.append(network.machines[name].into)
        ordered = sorted(open_runs, key=network.rank.__getitem__)
        for run in ordered:
            names.append(run)
            chains.append(network.runs[run].chains[unlike.get(run, which)])
            downs.append(network.runs[run].into)
        index = {name: i for i, name in enumerate(names)}
        self.names, self.chains = names, chains
        self.down = [index.get(d, -1) if d != ROOT else -1 for d in downs]
        n = len(names)
        self.leaf = [True] * n
        for d in self.down:
            if d >= 0:
                self.leaf[d] = False
        self._find_open_leaks(open_machines, ordered, index)

    def _find_open_leaks(self, open_machines: Sequence[str], open_runs: list[str], index: dict[str, int]) -> None:
        """Find what still leaks at each open joint: everything beyond it less what is open."""
        network = self.network
        n = len(self.names)
        self.area, self.seam = [0.0] * (n + 1), [0.0] * (n + 1)  # the last one is the separator's inlet
        self.area[n], self.seam[n] = network.root_leak, network.root_seams
        for name in open_runs:
            run, i = network.runs[name], index[name]
            self.area[i] += run.leak_m2
            self.seam[i] += run.seams - run.own_seams / 2
            d = index[run.into] if run.into != ROOT else n
            self.area[d] -= run.leak_m2
            self.seam[d] -= run.seams - run.own_seams / 2
        for name in open_machines:
            self.area[index[network.machines[name].into]] -= network.shut_leak[name]
        self.area = [0.0 if a < 1e-15 else a for a in self.area]
        self.seam = [0.0 if s < 1e-18 else s for s in self.seam]

    def _start(self, start: Flows | None) -> tuple[list[float], list[float]]:
        n = len(self.names)
        if start is not None and start.places == tuple(self.names):
            return [start.flow[name] for name in self.names], [start.suction[name] for name in self.names]
        flows = [0.0] * n
        for i in range(n):
            if self.leaf[i]:
                flows[i] = 0.25
            if self.down[i] >= 0:
                flows[self.down[i]] += flows[i]
        return flows, [1000.0] * n

    def _leak(self, i: int, pressure: float) -> tuple[float, float]:
        """Return the leak into joint i at a suction, and its slope."""
        if not self.area[i] and not self.seam[i]:
            return 0.0, 0.0
        p = max(pressure, 1e-3)
        gate = self.area[i] * float((2 * p / self.rho) ** 0.5)
        seam = self.seam[i] * float(p**0.65)
        return gate + seam, (0.5 * gate + 0.65 * seam) / p

    def solve(self, find_head: Callable[[float], tuple[float, float]], start: Flows | None) -> Flows:
        """Return the balance with the blower. Raises NoBalance where there is none."""
        root_p = 2000.0 if start is None else start.root_suction
        return self._iterate(find_head, root_p, start) or self._solve_slowly(find_head)

    def solve_at(self, root_p: float, start: Flows | None = None) -> Flows:
        """Return the flows with the root held at a suction. Raises NoBalance when none are found."""
        found = self._iterate(None, root_p, start)
        if found is None:
            raise NoBalance(self.open_machines)
        return found

    def _iterate(
        self, find_head: Callable[[float], tuple[float, float]] | None, root_p: float, start: Flows | None
    ) -> Flows | None:
        """Take Newton's steps until nothing moves; None when they go in circles or out of all bounds.

        Half steps after a while: where a duct's flow turns from laminar to turbulent the loss has a corner, and whole
        steps may jump to and fro across it.
        """
        flows, pressures = self._start(start)
        root_q = sum(q for q, d in zip(flows, self.down, strict=True) if d < 0)
        for step in range(1, MOST_STEPS + 1):
            part = 1.0 if step <= WHOLE_STEPS else 0.5
            root_q, root_p, change = self._step(flows, pressures, root_q, root_p, find_head, part)
            if not (math.isfinite(change) and root_q < MOST_FLOW_M3S):
                return None
            if change < 1e-10 or (step > WHOLE_STEPS and change < 1e-8):
                return self._finish(flows, pressures, root_q, root_p, step)
        return None

    def _step(
        self,
        flows: list[float],
        pressures: list[float],
        root_q: float,
        root_p: float,
        find_head: Callable[[float], tuple[float, float]] | None,
        part: float,
    ) -> tuple[float, float, float]:
        """Take one Newton step in place; return the new root flow and suction and the largest relative change.

        Towards the blower: how much flow each joint offers at a suction, as offer + gain x suction. Back: what each
        stretch then carries. find_head None: the root's suction is held. part: of the step that is taken
        """
        n = len(flows)
        offer, gain = [0.0] * (n + 1), [0.0] * (n + 1)
        stretch_offer, stretch_gain = [0.0] * n, [0.0] * n
        losses, slopes = [0.0] * n, [0.0] * n
        for i in range(n):
            q = flows[i]
            loss, slope = self.chains[i].find_loss(q)
            losses[i], slopes[i] = loss, slope
            if self.leaf[i]:
                resist, head = slope, loss - slope * q
            else:
                leak, dleak = self._leak(i, pressures[i])
                a, b = offer[i] + leak - dleak * pressures[i], gain[i] + dleak
                resist, head = 1 / b + slope, loss - slope * q - a / b
            resist = max(resist, 1e-3)  # a stretch that loses nothing
            stretch_gain[i] = 1 / resist
            stretch_offer[i] = -head / resist
            d = self.down[i]
            offer[d] += stretch_offer[i]
            gain[d] += stretch_gain[i]
        leak, dleak = self._leak(n, root_p)
        a, b = offer[n] + leak - dleak * root_p, gain[n] + dleak
        change = 0.0
        if find_head is not None:
            head, dhead = find_head(root_q)
            if 1 - b * dhead < 0.1:
                dhead = min(dhead, 0.0)  # the blower's curve rises as fast as the ducts ask: no whole Newton step
            new_q = (a + b * (head - dhead * root_q)) / (1 - b * dhead)
            new_q = max(root_q + part * (new_q - root_q), 0.2 * root_q)
            new_p = max((new_q - a) / b, 1e-3)
            change = abs(new_q - root_q) / max(abs(root_q), 1e-9)
            root_q, root_p = new_q, new_p
        else:
            root_q = a + b * root_p
        for i in range(n - 1, -1, -1):
            d = self.down[i]
            below = root_p if d < 0 else pressures[d]
            new = stretch_offer[i] + stretch_gain[i] * below
            old = flows[i]
            new = max(old + part * (new - old), 0.2 * old)
            if not self.leaf[i]:
                pressures[i] = max(below - losses[i] - slopes[i] * (new - old), 1e-3)
            flows[i] = new
            change = max(change, abs(new - old) / max(old, 1e-9))
        return root_q, root_p, change

    def _solve_slowly(self, find_head: Callable[[float], tuple[float, float]]) -> Flows:
        """Close in on the suction at the separator from both sides: slow, sure; for blower curves that rise.

        Raises NoBalance where the blower makes more than the ducts ask at any flow.
        """
        low, high = 1e-3, 1.0
        flows = self.solve_at(high)
        while find_head(flows.blower_flow)[0] > high and high < 1e6:
            low, high = high, 2 * high
            flows = self.solve_at(high, flows)
        still = self.solve_at(low, flows)
        over = find_head(still.blower_flow)[0] - low
        under = find_head(flows.blower_flow)[0] - high
        if over <= 0:
            return still  # a blower that makes no pressure moves no air
        if under > 0:
            raise NoBalance(self.open_machines)  # the further on its curve, the more the blower has left
        kept = 0
        for _ in range(80):
            if high - low < 1e-12 * high or under == 0:
                break
            middle = high - under * (high - low) / (under - over)  # false position, as Illinois has it
            flows = self.solve_at(middle, flows)
            excess = find_head(flows.blower_flow)[0] - middle
            if abs(excess) < 1e-10 * middle:
                break
            if excess > 0:
                low, over, under, kept = middle, excess, under / 2 if kept == 1 else under, 1
            else:
                high, under, over, kept = middle, excess, over / 2 if kept == -1 else over, -1
        return flows

    def _finish(self, flows: list[float], pressures: list[float], root_q: float, root_p: float, steps: int) -> Flows:
        residual = 0.0
        for i, q in enumerate(flows):
            below = root_p if self.down[i] < 0 else pressures[self.down[i]]
            above = 0.0 if self.leaf[i] else pressures[i]
            residual = max(residual, abs(above + self.chains[i].find_loss(q)[0] - below))
        n = len(flows)
        joints = [(i, pressures[i]) for i in range(n) if not self.leaf[i]] + [(n, root_p)]
        leak = sum(self._leak(i, p)[0] for i, p in joints)
        gates = sum(self.area[i] * float((2 * p / self.rho) ** 0.5) for i, p in joints)
        by_name = dict(zip(self.names, flows, strict=True))
        suction = {name: 0.0 if self.leaf[i] else pressures[i] for i, name in enumerate(self.names)}
        return Flows(
            places=tuple(self.names),
            flow=by_name,
            suction=suction,
            blower_flow=root_q,
            root_suction=root_p,
            leak_m3s=leak,
            gate_leak_m3s=gates,
            residual_pa=residual,
            steps=steps,
        )

    def find_demand(self, flow: float) -> float:
        """Return the suction [Pa] at the separator that draws a flow [m3/s] through the open gates."""
        low, high = 1e-3, 100.0
        flows = self.solve_at(high)
        while flows.blower_flow < flow and high < 1e7:
            low, high = high, 2 * high
            flows = self.solve_at(high, flows)
        for _ in range(50):
            middle = (low + high) / 2
            flows = self.solve_at(middle, flows)
            if flows.blower_flow < flow:
                low = middle
            else:
                high = middle
        return (low + high) / 2
