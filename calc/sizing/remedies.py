"""Remedies: for each finding that is tight or fails, single changes that mend it, found by running the model again.

A change counts only if the finding gets clearly better and no other check gets worse. The least disturbing changes come
first: a second gate opened, a hose shortened, a filter added, a machine's drop changed, a run changed, all mains.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace

from calc.airflow.balance import NoBalance
from calc.airflow.items import size_of
from calc.airflow.scenarios import Opened, Solved, solve_scenario
from calc.airflow.system import System
from calc.airflow.velocities import Limits
from calc.finding import Amount, Said, say
from calc.project import Hose, Machine, Pickup, Piece, Pipe, Throat
from calc.results import Remedy
from calc.settled import Settled
from calc.sizing.checks import About, Check, check_scenarios, keep_worse
from calc.sizing.choices import (
    change_filters,
    change_runs,
    list_sizes,
    measure_hoses,
    resize_piece,
    shorten_hoses,
)

MOST_TREATED = 12  # findings treated of each kind, worst first: keeps the work in proportion on large shops
MOST_REMEDIES = 3  # a finding
MANY: tuple[About, ...] = ("flow", "velocity")  # the kinds of finding there may be very many of
SHOP_CHECKS = ("blower.motor", "blower.curve_end", "filter.air_to_media")
HARDLY = 0.005  # of a limit: a change this small is none
LEAST_GAIN = 0.01  # of a limit: a change that brings less is not worth its wood, published coefficients spread far more
FIRST_LOOK = 60  # scenarios, tightest first, that a change for the whole shop must pass before all others are tried


@dataclass(frozen=True)
class Change:
    """A single change, to the whole project or to one machine."""

    what: Said
    project: Settled | None = None
    machine: Machine | None = None
    more_media: bool = False


def _pick_size(project: Settled, size_m: float, step: int) -> float | None:
    """Return the next duct size [m] up (1) or down (-1); None at the end of the list."""
    sizes = list_sizes(project)
    bigger = [s for s in sizes if s > size_m + 1e-3]
    smaller = [s for s in sizes if s < size_m - 1e-3]
    if step > 0:
        return min(bigger, default=None)
    return max(smaller, default=None)


def resize_drop(machine: Machine, from_m: float, to_m: float) -> Machine:
    """Return a machine whose hoods, hose and pipe of one diameter have another. The gate stays."""

    def change(piece: Piece) -> Piece:
        if isinstance(piece, Throat) and abs(piece.diameter_m - from_m) < 1e-4:
            return replace(piece, diameter_m=to_m)
        return resize_piece(piece, from_m, to_m)

    def change_pickup(pickup: Pickup) -> Pickup:
        hood = pickup.hood
        if abs(hood.diameter_m - from_m) < 1e-4:
            hood = replace(hood, diameter_m=to_m)
        return replace(pickup, hood=hood, pieces=tuple(change(piece) for piece in pickup.pieces))

    return replace(
        machine,
        pieces=tuple(change(piece) for piece in machine.pieces),
        pickups=tuple(change_pickup(pickup) for pickup in machine.pickups),
    )


def list_machine_changes(project: Settled, machine: Machine) -> Iterable[Change]:
    """Return what can be changed at one machine: half the hose, a wider port, a drop one size up or down."""
    length = measure_hoses(machine)
    if length > 0.6:
        hoses = sum(isinstance(p, Hose) for p in machine.all_pieces)
        what = say(
            "remedies.shorten_hose" if hoses == 1 else "remedies.shorten_hoses", machine=machine.name,
            before=Amount(length, "length_m"), after=Amount(length / 2, "length_m"),
        )  # fmt: skip
        yield Change(what, machine=shorten_hoses(machine, 0.5))
    pieces = machine.all_pieces
    throats = sorted({p.diameter_m for p in pieces if isinstance(p, Throat)})
    for throat in throats:
        wider = _pick_size(project, throat, 1)
        if wider:
            what = say(
                "remedies.widen_port", machine=machine.name,
                before=size_of(throat), after=size_of(wider),
            )  # fmt: skip
            yield Change(what, machine=resize_drop(machine, throat, wider))
    ducts = sorted({p.diameter_m for p in pieces if isinstance(p, Pipe | Hose)})
    for size in ducts:
        for step in (1, -1):
            other = _pick_size(project, size, step)
            if other:
                what = say(
                    "remedies.resize_drop", machine=machine.name,
                    before=size_of(size), after=size_of(other),
                )  # fmt: skip
                yield Change(what, machine=resize_drop(machine, size, other))


def list_shop_changes(system: System, limits: Limits, runs: list[str]) -> Iterable[Change]:
    """Return what can be changed for all: more filters, these runs one by one or all runs, a size up or down."""
    project = system.project
    count = project.filters[0].count
    for more in (1, 2):
        what = say("remedies.more_filters", count=Amount(float(count + more), "count"))
        yield Change(what, change_filters(project, count + more), more_media=True)
    straight = [r.name for r in project.runs if any(isinstance(p, Pipe | Hose) for p in r.pieces)]
    for name in runs:
        for step in (-1, 1):
            size = _pick_size(project, limits.widest[name], step)
            if size and name in straight:
                what = say("remedies.resize_run", run=name, after=size_of(size))
                yield Change(what, change_runs(project, frozenset({name}), size))
    widest = {limits.widest[name] for name in straight}
    if len(straight) > 1 and max(widest, default=0) - min(widest, default=0) < 1e-3:
        for step in (-1, 1):
            size = _pick_size(project, max(widest), step)
            if size:
                what = say("remedies.resize_all_runs", after=size_of(size))
                yield Change(what, change_runs(project, frozenset(straight), size))


class _Trials:
    """Changes tried once each; their checks kept for every finding."""

    def __init__(self, system: System, limits: Limits, checks: dict[str, Check], solved: list[Solved]) -> None:
        self.system, self.limits, self.checks, self.solved = system, limits, checks, solved
        self.before: dict[str, dict[str, Check]] = {}
        self.confirmed: list[Said] = []
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

    def run(self, change: Change, all_of_them: bool = False) -> dict[str, Check]:
        """Return the checks after a change; only those it can touch, on a large shop the tightest first.

        None at all where blower and ducts then find no balance: such a change mends nothing.
        """
        if change.machine is not None:
            other = self.system.swap_machine(change.machine)
            limits = self.limits.swap_machine(change.machine, other.network)
            wanted = self.list_touched(change.machine.name)
        else:
            assert change.project is not None
            other = System(change.project, self.system.air)
            limits = Limits(change.project, other.network)
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

    def confirm(self, change: Change, check: Check) -> bool:
        """Tell whether a change for the whole shop still mends and breaks nothing when every gate is tried."""
        if change.machine is not None or len(self.solved) <= FIRST_LOOK:
            return True
        if change.what not in self.confirmed:
            self.confirmed.append(change.what)
            self.whole.append(self.run(change, all_of_them=True))
        after = self.whole[self.confirmed.index(change.what)]
        return _mends(check, after) and self.breaks_nothing(after, check.key, None)

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
        return not any(key != target and _breaks(before.get(key), check) for key, check in after.items())


def _breaks(old: Check | None, new: Check) -> bool:
    """Tell whether a check is worse than it was; what had room may lose some of it."""
    if old is None:
        return False
    return new.rank > old.rank or (new.rank > 0 and new.shortfall > max(old.shortfall, 0.0) + HARDLY)


def _mends(old: Check, after: dict[str, Check]) -> bool:
    """Tell whether a check now fits, or at least its best value passes the limit."""
    new = after.get(old.key)
    return new is not None and new.rank < old.rank and (new.rank == 0 or new.shortfall <= 0)


def _rank(checks: Iterable[Check], about: About) -> list[Check]:
    """Return the checks of a kind that do not simply fit, worst first."""
    return sorted((c for c in checks if c.rank > 0 and c.about == about), key=lambda c: -c.shortfall)


def list_untried(checks: dict[str, Check]) -> tuple[str, ...]:
    """Return the keys of the findings that no change is tried for, as there are worse ones enough of their kind."""
    return tuple(check.key for about in MANY for check in _rank(checks.values(), about)[MOST_TREATED:])


def find_remedies(system: System, limits: Limits, solved: list[Solved], checks: dict[str, Check]) -> tuple[Remedy, ...]:
    """Return up to three remedies a finding, least disturbing first."""
    bad = [c for c in checks.values() if c.rank > 0 and c.about != "curve end"]
    if not bad:
        return ()
    flows, speeds = (_rank(bad, about)[:MOST_TREATED] for about in MANY)
    others = [c for c in bad if c.about not in MANY]
    trials = _Trials(system, limits, checks, solved)
    treated = [*flows, *speeds, *others]
    runs = list(dict.fromkeys(c.subject.name for c in speeds if c.subject.kind == "run"))
    runs += [r for c in flows[:3] for r in system.network.walk_down(c.subject.name) if r not in runs]
    shop = [(change, trials.run(change)) for change in list_shop_changes(system, limits, runs[:4])]
    machines = {m.name: m for m in system.project.machines}
    single: dict[str, list[tuple[Change, dict[str, Check]]]] = {}
    found: list[Remedy] = []
    for check in treated:
        mine = [_open_second(trials, check)] if check.about == "velocity" else []
        remedies = [remedy for remedy in mine if remedy is not None]
        subject = check.subject.name if check.subject.kind == "machine" else check.scenario
        at_machine = check.about in MANY and (check.alone or check.place == "drop")
        if at_machine and subject in machines:
            if subject not in single:
                changes = list_machine_changes(system.project, machines[subject])
                single[subject] = [(change, trials.run(change)) for change in changes]
            remedies += _choose(trials, check, single[subject])
        remedies += _choose(trials, check, shop if check.about != "air to media" else _keep_flow(shop))
        found += sorted(remedies, key=lambda r: r.verdict.value != "fits")[:MOST_REMEDIES]
    return tuple(found)


def _keep_flow(tried: list[tuple[Change, dict[str, Check]]]) -> list[tuple[Change, dict[str, Check]]]:
    """Return the changes that spare the filters by more media: choking the shop is no cure for too small a filter."""
    return [(change, after) for change, after in tried if change.project is not None and change.more_media]


def _choose(trials: _Trials, check: Check, tried: list[tuple[Change, dict[str, Check]]]) -> list[Remedy]:
    """Return the changes that mend a check and break nothing."""
    found: list[Remedy] = []
    enough = False
    for change, after in tried:
        if change.more_media and enough:
            continue  # one filter more mends it: two more are dearer and say nothing new
        machine = change.machine.name if change.machine else None
        if not _mends(check, after) or not trials.breaks_nothing(after, check.key, machine):
            continue
        new = after[check.key] if machine is None else trials.find_worst_now(after, check.key, machine)
        gain = check.shortfall - new.shortfall
        if gain >= LEAST_GAIN and new.rank < check.rank and trials.confirm(change, check):
            before_value = Amount(check.value.best, check.kind)
            found.append(Remedy(check.key, change.what, before_value, Amount(new.value.best, new.kind), new.verdict))
            enough = enough or (change.more_media and new.rank == 0)
    return found


def list_places(names: list[str]) -> Said | str:
    """Return the names as one part of a sentence: *a*, *b* or *c*."""
    told: Said | str = names[0]
    for name in names[1:]:
        told = say("remedies.list_last" if name is names[-1] else "remedies.list_more", before=told, name=name)
    return told


def _open_second(trials: _Trials, check: Check) -> Remedy | None:
    """Return a second gate that, opened too, keeps a run's dust moving whichever of its machines works alone."""
    system, limits = trials.system, trials.limits
    if check.subject.kind != "run":
        return None
    slow = [name for name, checks in trials.alone.items() if check.key in checks and checks[check.key].rank > 0]
    if not 0 < len(slow) <= MOST_TREATED:
        return None
    names = [m.name for m in system.project.machines]
    feeding = [name for name in names if check.subject.name in system.network.walk_down(name) and name not in slow]
    for other in feeding[:MOST_TREATED]:
        worst: Check | None = None
        for name in slow:
            try:
                pair = solve_scenario(system, Opened(f"{name} and {other}", "set", (name, other)), with_three=False)
            except NoBalance:
                worst = None
                break
            after = check_scenarios(system, limits, [pair])
            flow = after[f"flow.{pair.opened.name}.{name}"]
            here = after[check.key]
            ways = [after[f"velocity.{run}"] for run in system.network.walk_down(name)]
            ways.append(after[f"velocity.{name}"])
            shop = [after[key] for key in SHOP_CHECKS]
            if (
                flow.rank > 0
                or here.rank >= check.rank
                or any(trials.is_worse(w, name) for w in ways)
                or any(_breaks(trials.checks[c.key], c) for c in shop)
            ):
                worst = None
                break
            worst = here if worst is None or here.shortfall > worst.shortfall else worst
        if worst is not None:
            what = say("remedies.open_second", other=other, machines=list_places(slow))
            return Remedy(
                check.key,
                what,
                Amount(check.value.best, check.kind),
                Amount(worst.value.best, worst.kind),
                worst.verdict,
            )
    return None
