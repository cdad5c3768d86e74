"""Changes tried by running the model again: each once, its checks kept for every finding."""

from __future__ import annotations

from dataclasses import dataclass, field

from calc.airflow.balance import NoBalance
from calc.airflow.scenarios import Solved, solve_scenario
from calc.airflow.system import System
from calc.airflow.velocities import Limits
from calc.finding import Said
from calc.sizing.changes import Change
from calc.sizing.checks import Check, check_scenarios, keep_worse

HARDLY = 0.005  # of a limit: a change this small is none
FIRST_LOOK = 60  # scenarios, tightest first, that a change for the whole shop must pass before all others are tried


@dataclass(frozen=True)
class Trial:
    """One change, or two that go together, and the checks after it; none where blower and ducts find no balance."""

    changes: tuple[Change, ...]
    after: dict[str, Check] = field(hash=False)

    @property
    def machine(self) -> str | None:
        """The machine that alone is changed; None where more is."""
        names = {change.machine for change in self.changes}
        return names.pop() or None if len(names) == 1 else None

    @property
    def more_media(self) -> bool:
        """Whether filters are added."""
        return any(change.more_media for change in self.changes)


class Trials:
    """Changes tried once each; their checks kept for every finding."""

    def __init__(self, system: System, limits: Limits, checks: dict[str, Check], solved: list[Solved]) -> None:
        self.system, self.limits, self.checks, self.solved = system, limits, checks, solved
        self.before: dict[str, dict[str, Check]] = {}
        self.confirmed: list[tuple[Said, ...]] = []
        self.whole: list[dict[str, Check]] = []
        self.alone = {
            one.opened.open[0]: check_scenarios(system, limits, [one]) for one in solved if one.opened.kind == "alone"
        }

    def list_tightest(self) -> list[Solved]:
        """Return the scenarios with the least room, and those that are not one gate alone."""
        if len(self.solved) <= FIRST_LOOK:
            return self.solved
        room = {name: max(c.shortfall for c in checks.values()) for name, checks in self.alone.items()}
        first = set(sorted(room, key=lambda name: -room[name])[:FIRST_LOOK])
        return [one for one in self.solved if one.opened.kind != "alone" or one.opened.open[0] in first]

    def list_touched(self, machine: str) -> list[Solved]:
        """Return the scenarios that judge a machine's change: those its gate is open in.

        All gates open is judged by the motor alone; on a large shop one machine does not turn it, and it is left out.
        """
        small = len(self.solved) <= FIRST_LOOK
        return [one for one in self.solved if machine in one.opened.open and (small or one.opened.kind != "all")]

    def run(self, *changes: Change) -> Trial:
        """Return the trial of one change or of two that go together."""
        return Trial(changes, self.find_after(changes))

    def find_after(self, changes: tuple[Change, ...], all_of_them: bool = False) -> dict[str, Check]:
        """Return the checks after changes; only those they can touch, on a large shop the tightest first.

        None at all where blower and ducts then find no balance: such a change mends nothing.
        """
        system = self.system
        if machine := Trial(changes, {}).machine:
            changed = system.project.get_machine(machine)
            for change in changes:
                changed = change.change_machine(changed)
            other = system.swap_machine(changed)
            limits = self.limits.swap_machine(changed, other.network)
            wanted = self.list_touched(machine)
        else:
            project = system.project
            for change in changes:
                project = change.apply(project)
            other = System(project, system.air)
            limits = Limits(project, other.network)
            wanted = self.solved if all_of_them else self.list_tightest()
        try:
            solved = [solve_scenario(other, one.opened, with_three=False) for one in wanted]
        except NoBalance:
            return {}
        return check_scenarios(other, limits, solved)

    def find_worst_now(self, after: dict[str, Check], key: str, machine: str) -> Check:
        """Return the worst of a check once one machine is changed: as changed, and with the other gates as before."""
        worst = {key: after[key]}
        for name, checks in self.alone.items():
            if name != machine and key in checks:
                keep_worse(worst, checks[key])
        return worst[key]

    def confirm(self, trial: Trial, check: Check) -> bool:
        """Tell whether a change for the whole shop still mends and breaks nothing when every gate is tried."""
        if trial.machine is not None or len(self.solved) <= FIRST_LOOK:
            return True
        what = tuple(change.what for change in trial.changes)
        if what not in self.confirmed:
            self.confirmed.append(what)
            self.whole.append(self.find_after(trial.changes, all_of_them=True))
        after = self.whole[self.confirmed.index(what)]
        return is_mended(check, after) and self.breaks_nothing(after, check.key, None)

    def is_worse(self, after: Check, name: str) -> bool:
        """Tell whether a check is worse than with this machine's gate open alone."""
        old = self.alone[name].get(after.key)
        return old is not None and after.rank > old.rank

    def get_before(self, machine: str | None) -> dict[str, Check]:
        """Return the checks as they were, over the scenarios a change at this machine touches (None: over all)."""
        if machine is None:
            return self.checks
        if machine not in self.before:
            self.before[machine] = check_scenarios(self.system, self.limits, self.list_touched(machine))
        return self.before[machine]

    def breaks_nothing(self, after: dict[str, Check], target: str, machine: str | None) -> bool:
        """Tell whether no check is worse than before: in verdict, or further past a limit it is already past."""
        before = self.get_before(machine)
        return not any(key != target and is_broken(before.get(key), check) for key, check in after.items())


def is_broken(old: Check | None, new: Check) -> bool:
    """Tell whether a check is worse than it was; what had room may lose some of it."""
    if old is None:
        return False
    return new.rank > old.rank or (new.rank > 0 and new.shortfall > max(old.shortfall, 0.0) + HARDLY)


def is_mended(old: Check, after: dict[str, Check]) -> bool:
    """Tell whether a check now fits, or at least its best value passes the limit."""
    new = after.get(old.key)
    return new is not None and new.rank < old.rank and (new.rank == 0 or new.shortfall <= 0)
