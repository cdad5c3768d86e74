"""Remedies: for each finding that is tight or fails, what mends it, found by running the model again.

A change counts only if the finding gets clearly better and no other check gets worse. The least disturbing changes come
first: a second gate opened, a hose shortened, a filter added, a machine's drop changed, a run changed, all mains. Where
it does not fit and none of them mends it, other ways of the ducts are tried, and then the pairs of its best singles.
"""

from __future__ import annotations

from collections.abc import Iterable
from itertools import combinations

from calc.airflow.balance import NoBalance
from calc.airflow.scenarios import Opened, Solved, solve_scenario
from calc.airflow.system import System
from calc.airflow.velocities import Limits
from calc.finding import Amount, Said, say
from calc.results import Remedy
from calc.sizing.changes import (
    Change,
    list_machine_changes,
    list_machine_reroutes,
    list_run_reroutes,
    list_shop_changes,
)
from calc.sizing.checks import About, Check, check_scenarios
from calc.sizing.trials import FIRST_LOOK, Trial, Trials, is_broken, is_mended

MOST_TREATED = 12  # findings treated of each kind, worst first: keeps the work in proportion on large shops
MOST_REMEDIES = 3  # a finding
MOST_RUNS = 4  # that are changed one by one
MOST_PAIRED, BEST_SINGLES = 6, 6  # findings that pairs are tried for; singles that pairs are made of
MANY: tuple[About, ...] = ("flow", "velocity")  # the kinds of finding there may be very many of
SHOP_CHECKS = ("blower.motor", "blower.curve_end", "filter.air_to_media")
LEAST_GAIN = 0.01  # of a limit: a change that brings less is not worth its wood, published coefficients spread far more
WORST = 2  # rank of what does not fit


def _rank(checks: Iterable[Check], about: About) -> list[Check]:
    """Return the checks of a kind that do not simply fit, worst first."""
    return sorted((c for c in checks if c.rank > 0 and c.about == about), key=lambda c: -c.shortfall)


def list_untried(checks: dict[str, Check]) -> tuple[str, ...]:
    """Return the keys of the findings that no change is tried for, as there are worse ones enough of their kind."""
    return tuple(check.key for about in MANY for check in _rank(checks.values(), about)[MOST_TREATED:])


def find_remedies(system: System, limits: Limits, solved: list[Solved], checks: dict[str, Check]) -> tuple[Remedy, ...]:
    """Return up to three remedies a finding, least disturbing first; a pair where no single change mends."""
    bad = [c for c in checks.values() if c.rank > 0 and c.about != "curve end"]
    if not bad:
        return ()
    flows, speeds = (_rank(bad, about)[:MOST_TREATED] for about in MANY)
    others = [c for c in bad if c.about not in MANY]
    trials = Trials(system, limits, checks, solved)
    runs = list(dict.fromkeys(c.subject.name for c in speeds if c.subject.kind == "run"))
    runs += [r for c in flows[:3] for r in system.network.walk_down(c.subject.name) if r not in runs]
    shop = [trials.run(change) for change in list_shop_changes(system, limits, runs[:MOST_RUNS])]
    machines = {m.name: m for m in system.project.machines}
    single: dict[str, list[Trial]] = {}
    other_ways: list[Trial] | None = None
    pairs = Pairs(trials)
    found: list[Remedy] = []
    for check in [*flows, *speeds, *others]:
        mine = [_open_second(trials, check)] if check.about == "velocity" else []
        remedies = [remedy for remedy in mine if remedy is not None]
        subject = check.subject.name if check.subject.kind == "machine" else check.scenario
        at_machine = check.about in MANY and (check.alone or check.place == "drop") and subject in machines
        tried: list[Trial] = []
        if at_machine:
            if subject not in single:
                changes = list_machine_changes(system.project, machines[subject])
                single[subject] = [trials.run(change) for change in changes]
            tried += single[subject]
        tried += shop if check.about != "air to media" else _keep_media(shop)
        remedies += _choose(trials, check, tried)
        if check.rank == WORST and not remedies and check.about in MANY:
            if other_ways is None:
                other_ways = [trials.run(change) for change in list_run_reroutes(system.project, runs[:MOST_RUNS])]
            ways = [trials.run(change) for change in list_machine_reroutes(machines[subject])] if at_machine else []
            tried += [*ways, *other_ways]
            remedies += _choose(trials, check, [*ways, *other_ways])
        if check.rank == WORST and not remedies:
            remedies += pairs.choose(check, tried)
        found += sorted(remedies, key=lambda r: r.verdict.value != "fits")[:MOST_REMEDIES]
    return tuple(found)


def _keep_media(tried: list[Trial]) -> list[Trial]:
    """Return the changes that spare the filters by more media: choking the shop is no cure for too small a filter."""
    return [trial for trial in tried if trial.more_media]


def _choose(trials: Trials, check: Check, tried: list[Trial]) -> list[Remedy]:
    """Return the changes that mend a check and break nothing."""
    found: list[Remedy] = []
    enough = False
    for trial in tried:
        if trial.more_media and enough:
            continue  # one filter more mends it: two more are dearer and say nothing new
        after = trial.after
        if not is_mended(check, after) or not trials.breaks_nothing(after, check.key, trial.machine):
            continue
        new = after[check.key] if trial.machine is None else trials.find_worst_now(after, check.key, trial.machine)
        gain = check.shortfall - new.shortfall
        if gain >= LEAST_GAIN and new.rank < check.rank and trials.confirm(trial, check):
            before_value = Amount(check.value.best, check.kind)
            what = _say_changes(trial)
            found.append(Remedy(check.key, what, before_value, Amount(new.value.best, new.kind), new.verdict))
            enough = enough or (trial.more_media and new.rank == 0)
    return found


def _say_changes(trial: Trial) -> Said:
    """Return a change in words, or two as one sentence."""
    first, *others = (change.what for change in trial.changes)
    return say("remedies.pair", first=first, second=others[0]) if others else first


class Pairs:
    """Pairs of changes, tried for what does not fit and no single change mends; each pair once, for every finding."""

    def __init__(self, trials: Trials) -> None:
        self.trials = trials
        self.tried: list[Trial] = []
        self.left = MOST_PAIRED

    def choose(self, check: Check, singles: list[Trial]) -> list[Remedy]:
        """Return the pair of a check's six best singles that mends it best and breaks nothing; none where none does.

        The best single is the one that brings the check furthest, whether it breaks another or not: its partner may
        mend that.
        """
        if self.left == 0:
            return []
        self.left -= 1
        helping = [t for t in singles if check.key in t.after and _find_gain(check, t) > 0]
        best = sorted(helping, key=lambda trial: -_find_gain(check, trial))[:BEST_SINGLES]
        pairs: list[Trial] = []
        for one, other in combinations(best, 2):  # those that promise most come first
            if one.changes[0].clashes(other.changes[0]):
                continue
            pair = self.run(one.changes[0], other.changes[0])
            if is_mended(check, pair.after):
                pairs.append(pair)
                if len(self.trials.solved) > FIRST_LOOK:
                    break  # a large shop takes the first that mends
        for pair in sorted(pairs, key=lambda pair: (pair.after[check.key].rank, -_find_gain(check, pair))):
            if remedies := _choose(self.trials, check, [pair]):
                return remedies
        return []

    def run(self, one: Change, other: Change) -> Trial:
        """Return the trial of two changes, run the first time it is asked for."""
        wanted = (one.what, other.what)
        for trial in self.tried:
            if tuple(change.what for change in trial.changes) == wanted:
                return trial
        self.tried.append(self.trials.run(one, other))
        return self.tried[-1]


def _find_gain(check: Check, trial: Trial) -> float:
    """Return how much nearer its limit, or further inside, a check comes: as a share of the limit."""
    return check.shortfall - trial.after[check.key].shortfall


def list_places(names: list[str]) -> Said | str:
    """Return the names as one part of a sentence: *a*, *b* or *c*."""
    told: Said | str = names[0]
    for name in names[1:]:
        told = say("remedies.list_last" if name is names[-1] else "remedies.list_more", before=told, name=name)
    return told


def _open_second(trials: Trials, check: Check) -> Remedy | None:
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
                or any(is_broken(trials.checks[c.key], c) for c in shop)
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
