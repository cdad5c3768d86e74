"""Choice tables: the same shop with another number of filters, another trunk, a shorter hose; the model run again."""

from __future__ import annotations

from dataclasses import replace

from calc.airflow.balance import NoBalance
from calc.airflow.chains import BEST
from calc.airflow.ducts import find_area
from calc.airflow.loading import find_clean_me
from calc.airflow.stretches import ROOT, Flows
from calc.airflow.system import System
from calc.airflow.velocities import Limits
from calc.project import Aired, Elbow, Filter, Hose, Machine, OpenGate, Piece, Pipe, Run
from calc.results import FilterChoice, HoseChoice, TrunkChoice

# Duct as sold: inches, and millimetres for metric shops.
INCH_SIZES_M = tuple(round(inches * 0.0254, 4) for inches in (4, 5, 6, 7, 8, 9, 10, 12))
METRIC_SIZES_M = (0.100, 0.125, 0.150, 0.160, 0.180, 0.200, 0.224, 0.250, 0.300)


def list_sizes(project: Aired) -> tuple[float, ...]:
    """Return the duct diameters [m] this shop can buy."""
    return INCH_SIZES_M if project.display.system == "inch" else METRIC_SIZES_M


def resize_piece(piece: Piece, from_m: float, to_m: float) -> Piece:
    """Return a piece at another diameter, where it had the old one; other pieces as they are."""
    if isinstance(piece, Pipe | Hose | Elbow | OpenGate) and abs(piece.diameter_m - from_m) < 1e-4:
        return replace(piece, diameter_m=to_m)
    return piece


def resize_run(run: Run, to_m: float) -> Run:
    """Return a run at another diameter: all pieces of its widest pipe's size change."""
    from_m = max(p.diameter_m for p in run.pieces if isinstance(p, Pipe | Hose))
    return replace(run, pieces=tuple(resize_piece(piece, from_m, to_m) for piece in run.pieces))


def change_runs(project: Aired, names: frozenset[str], to_m: float) -> Aired:
    """Return the project with these runs at another diameter."""
    runs = tuple(resize_run(run, to_m) if run.name in names else run for run in project.runs)
    return replace(project, runs=runs)


def change_filters(project: Aired, count: int) -> Aired:
    """Return the project with another number of the kind of filter that it has most of."""
    most = pick_kind(project)
    return replace(project, filters=tuple(replace(f, count=count) if f is most else f for f in project.filters))


def pick_kind(project: Aired) -> Filter:
    """Return the kind of filter that there is most media of."""
    return max(project.filters, key=lambda each: (each.count * each.media_m2, each.name))


def shorten_hoses(machine: Machine, share: float) -> Machine:
    """Return a machine with every hose at a share of its length."""

    def shorten(piece: Piece) -> Piece:
        if not isinstance(piece, Hose):
            return piece
        stretched = None if piece.stretched_m is None else piece.stretched_m * share
        return replace(piece, length_m=piece.length_m * share, stretched_m=stretched)

    pickups = tuple(replace(p, pieces=tuple(shorten(piece) for piece in p.pieces)) for p in machine.pickups)
    return replace(machine, pieces=tuple(shorten(piece) for piece in machine.pieces), pickups=pickups)


def measure_hoses(machine: Machine) -> float:
    """Return the length [m] of all hose on a machine."""
    return sum(piece.length_m for piece in machine.all_pieces if isinstance(piece, Hose))


def _balance_all(system: System) -> dict[str, Flows] | None:
    """Return the flows with each gate open alone; None where blower and ducts find no balance."""
    try:
        return {m.name: system.balance((m.name,)) for m in system.project.machines}
    except NoBalance:
        return None


def _count_short(system: System, clean: dict[str, Flows]) -> int:
    return sum(flows.flow[name] < system.needs[name] for name, flows in clean.items())


def choose_filters(system: System, read_at: str, most: int = 6) -> tuple[FilterChoice, ...]:
    """Return the shop with 1 to 6 filters of the kind it has most of; figures at the gauge's gate."""
    rows = []
    for count in range(1, most + 1):
        other = System(change_filters(system.project, count), system.air)
        clean = _balance_all(other)
        if clean is None:
            continue
        flows = clean[read_at]
        hours = find_clean_me(other, Limits(other.project, other.network), clean, read_at).hours_later
        rows.append(
            FilterChoice(
                count=count,
                flow_m3s=flows.flow[read_at],
                face_speed_ms=flows.blower_flow / other.bank.media_m2,
                reading_pa=other.find_reading(flows, BEST),
                hours=hours,
                machines_short=_count_short(other, clean),
                is_design=count == pick_kind(system.project).count,
            )
        )
    return tuple(rows)


def list_trunk(project: Aired) -> frozenset[str]:
    """Return the runs that enter the separator and have pipe or hose in them."""
    return frozenset(
        r.name for r in project.runs if r.into == ROOT and any(isinstance(p, Pipe | Hose) for p in r.pieces)
    )


def choose_trunk(system: System, worst: str) -> tuple[TrunkChoice, ...]:
    """Return the shop with its trunk at each diameter sold, the worst machine alone; the design's own among them."""
    trunk = list_trunk(system.project)
    if not trunk:
        return ()
    limits = Limits(system.project, system.network)
    top = [name for name in system.network.walk_down(worst) if name in trunk]
    if not top:
        return ()
    design = limits.widest[top[0]]
    rows = []
    sizes = [size for size in list_sizes(system.project) if abs(size - design) > 1e-3]
    for size in sorted([*sizes, design]):
        if not 0.6 * design <= size <= 1.7 * design:
            continue
        is_design = abs(size - design) < 1e-6
        other = system if is_design else System(change_runs(system.project, trunk, size), system.air)
        clean = _balance_all(other)
        if clean is None:
            continue
        other_limits = Limits(other.project, other.network)
        settling: set[str] = set()
        for name, flows in clean.items():
            for run in other.network.walk_down(name):
                speed = flows.flow[run] / find_area(other_limits.widest[run])
                if run in trunk and speed < other_limits.find_run_limit(run, [name]):
                    settling.add(run)
        flows, run = clean[worst], top[0]
        loss = other.network.runs[run].chains[BEST].find_loss(flows.flow[run])[0]
        rows.append(
            TrunkChoice(
                diameter_m=size,
                machine=worst,
                flow_m3s=flows.flow[worst],
                needs_m3s=system.needs[worst],
                speed_ms=flows.flow[run] / find_area(size),
                limit_ms=other_limits.find_run_limit(run, [worst]),
                loss_pa=loss,
                machines_short=_count_short(other, clean),
                runs_settling=len(settling),
                is_design=is_design,
            )
        )
    return tuple(rows)


def choose_hoses(system: System, machines: set[str]) -> tuple[HoseChoice, ...]:
    """Return the machines with hose, worst first, and their air with half the hose. machines: always among them."""
    rows = []
    for machine in system.project.machines:
        length = measure_hoses(machine)
        if length == 0 or (len(system.project.machines) > 40 and machine.name not in machines):
            continue
        other = system.swap_machine(shorten_hoses(machine, 0.5))
        before = system.balance((machine.name,)).flow[machine.name]
        try:
            after = other.balance((machine.name,)).flow[machine.name]
        except NoBalance:
            continue
        rows.append(HoseChoice(machine.name, length, length / 2, before, after))
    return tuple(sorted(rows, key=lambda row: row.flow_m3s / system.needs[row.machine]))
