"""Laws every balanced network keeps, whatever the shop."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from calc import project as p
from calc.airflow.balance import Balance, find_leak
from calc.airflow.chains import BEST, HIGH, LOW
from calc.airflow.ledger import write_ledger
from calc.airflow.network import Network
from calc.airflow.system import System
from tests.outside.standard_air import STANDARD
from tests.shop import make_project, make_shop, make_tree, settle_and_size

DIAMETERS = (0.1, 0.125, 0.15, 0.2)
LENGTHS = st.floats(0.3, 12.0)


@st.composite
def shops(draw: st.DrawFn) -> p.Project:
    """A random tree of one to four runs with two to six machines, gates leaking, seams leaking."""
    runs = [
        p.Run(
            "run 0",
            "separator",
            (p.Pipe(draw(st.sampled_from(DIAMETERS)), draw(LENGTHS)),),
            p.Join("straight", 0.0),
            draw(st.sampled_from((0.0, 6.0))),
        )
    ]
    for i in range(1, draw(st.integers(1, 4))):
        into = f"run {draw(st.integers(0, i - 1))}"
        d = draw(st.sampled_from(DIAMETERS))
        pieces = (p.Pipe(d, draw(LENGTHS)), p.Elbow(d, draw(st.sampled_from((45.0, 90.0)))))
        runs.append(p.Run(f"run {i}", into, pieces, p.Join("wye", draw(st.sampled_from((30.0, 45.0))))))
    machines = []
    for i in range(draw(st.integers(2, 6))):
        d = draw(st.sampled_from(DIAMETERS))
        pickups = [p.Pickup("port", p.Hood(kind=draw(st.sampled_from(("plain", "flanged"))), diameter_m=d))]
        if draw(st.booleans()):
            pickups.append(p.Pickup("guard", p.Hood(kind="plain", diameter_m=0.06), (p.Hose(0.06, draw(LENGTHS)),)))
        machines.append(
            p.Machine(
                name=f"machine {i}",
                on=draw(st.sampled_from(runs)).name,
                needs_m3s=0.2,
                pickups=tuple(pickups),
                pieces=(p.Hose(d, draw(LENGTHS)),),
                gate=p.Gate(d, draw(st.sampled_from((0.0, 1e-4)))),
            )
        )
    return make_shop(tuple(runs), tuple(machines))


@settings(max_examples=40, deadline=None, derandomize=True)
@given(shops(), st.integers(1, 5))
def test_balance_at_every_joint(project: p.Project, count: int) -> None:
    system = System(project, STANDARD)
    names = tuple(m.name for m in project.machines[:count])
    flows = system.balance(names)
    network = system.network
    assert flows.residual_pa < 0.1
    for run in network.runs.values():
        if run.name not in flows.flow:
            continue
        fed = [flows.flow[n] for n in names if network.machines[n].into == run.name]
        fed += [flows.flow[r.name] for r in network.runs.values() if r.into == run.name and r.name in flows.flow]
        # continuity: what leaves a joint came in by hoods, runs and leaks (never less than the hoods' air)
        assert flows.flow[run.name] >= sum(fed) - 1e-12
    top = sum(flows.flow[r.name] for r in network.runs.values() if r.into == "separator" and r.name in flows.flow)
    hoods = sum(flows.flow[n] for n in names)
    assert flows.blower_flow == pytest.approx(hoods + flows.leak_m3s, rel=1e-8)
    assert flows.blower_flow >= top - 1e-12


@settings(max_examples=40, deadline=None, derandomize=True)
@given(shops())
def test_opening_a_gate_never_gives_another_more(project: p.Project) -> None:
    system = System(project, STANDARD)
    names = [m.name for m in project.machines]
    before = system.balance(tuple(names[:1]))
    for count in range(2, len(names) + 1):
        after = system.balance(tuple(names[:count]))
        for name in names[: count - 1]:
            assert after.flow[name] <= before.flow[name] * (1 + 1e-9)
        before = after


@settings(max_examples=40, deadline=None, derandomize=True)
@given(shops(), st.data())
def test_more_resistance_never_raises_the_flow(project: p.Project, data: st.DataObject) -> None:
    name = data.draw(st.sampled_from([m.name for m in project.machines]))
    before = System(project, STANDARD).balance((name,))
    run = data.draw(st.sampled_from([r.name for r in project.runs]))
    screen = p.OtherPart("screen", 0.15, coefficient=data.draw(st.floats(0.1, 20.0)))
    runs = tuple(replace(r, pieces=(*r.pieces, screen)) if r.name == run else r for r in project.runs)
    if abs(Network(project, STANDARD).entering[run] - 0.15) > 1e-3:
        runs = tuple(
            replace(r, pieces=(*r.pieces, replace(screen, diameter_m=r.pieces[-1].diameter_m)))  # type: ignore[union-attr]
            if r.name == run
            else r
            for r in project.runs
        )
    after = System(replace(project, runs=runs), STANDARD).balance((name,))
    assert after.flow[name] <= before.flow[name] * (1 + 1e-9)
    assert after.blower_flow <= before.blower_flow * (1 + 1e-9)


@settings(max_examples=30, deadline=None, derandomize=True)
@given(shops())
def test_low_and_high_coefficients_enclose_the_best(project: p.Project) -> None:
    system = System(project, STANDARD)
    name = project.machines[0].name
    low, best, high = (system.balance((name,), which).blower_flow for which in (HIGH, BEST, LOW))
    assert low <= best <= high


@settings(max_examples=30, deadline=None, derandomize=True)
@given(shops())
def test_leaks_rise_with_every_hole(project: p.Project) -> None:
    name = project.machines[0].name
    last = -1.0
    for area in (0.0, 1e-5, 1e-4, 1e-3):
        machines = tuple(
            replace(m, gate=replace(m.gate, leak_m2=area)) if m.name != name and m.gate else m for m in project.machines
        )
        flows = System(replace(project, machines=machines), STANDARD).balance((name,))
        assert flows.leak_m3s > last
        last = flows.leak_m3s


@settings(max_examples=30, deadline=None, derandomize=True)
@given(shops())
def test_blower_power_is_the_sum_of_losses_times_flow(project: p.Project) -> None:
    system = System(project, STANDARD)
    names = tuple(m.name for m in project.machines)
    flows = system.balance(names)
    made = system.blower.find_total(flows.blower_flow)[0] * flows.blower_flow
    spent = system.find_tail(flows.blower_flow, BEST)[0] * flows.blower_flow
    network = system.network
    for place, flow in flows.flow.items():
        stretch = network.runs.get(place) or network.machines.get(place)
        if stretch is None:
            stretch = next(s for s in network.pickups[place.split("\n")[0]] if s.name == place)
        spent += stretch.chains[BEST].find_loss(flow)[0] * flow
    # air that leaks in at a joint loses that joint's whole suction on the way in
    for place in flows.flow:
        if place not in network.runs:
            continue
        run = network.runs[place]
        fed = sum(flows.flow[n] for n in names if network.machines[n].into == place)
        fed += sum(flows.flow[r.name] for r in network.runs.values() if r.into == place and r.name in flows.flow)
        spent += (flows.flow[run.name] - fed) * flows.suction[place]
    top = sum(flows.flow[r.name] for r in network.runs.values() if r.into == "separator" and r.name in flows.flow)
    spent += (flows.blower_flow - top) * flows.root_suction
    assert spent == pytest.approx(made, rel=1e-6)


def test_ledger_ends_at_what_the_blower_makes() -> None:
    system = System(make_project())
    for machine in system.project.machines:
        flows = system.balance((machine.name,))
        rows = write_ledger(system, flows, machine.name)
        assert rows[-1].total_pa == pytest.approx(system.blower.find_total(flows.blower_flow)[0], rel=1e-9)
        assert all(row.low_pa <= row.loss_pa * (1 + 1e-12) <= row.high_pa * (1 + 1e-9) for row in rows)


def test_thousand_machines_all_open_balance() -> None:
    system = System(make_tree(1000), STANDARD)
    flows = system.balance(tuple(m.name for m in system.project.machines))
    assert flows.residual_pa < 0.1
    assert flows.steps < 30


def test_a_deep_chain_of_runs_is_no_trouble() -> None:
    # 3,000 runs one behind another: no recursion, no overflow of the stack
    runs = [p.Run("run 0", "separator", (p.Pipe(0.15, 0.1),), p.Join("straight", 0.0))]
    runs += [p.Run(f"run {i}", f"run {i - 1}", (p.Pipe(0.15, 0.1),), p.Join("straight", 0.0)) for i in range(1, 3000)]
    machine = p.Machine(
        name="far", on="run 2999", needs_m3s=0.2, pickups=(p.Pickup("port", p.Hood(kind="plain", diameter_m=0.15)),)
    )
    flows = System(make_shop(tuple(runs), (machine,)), STANDARD).balance(("far",))
    assert flows.residual_pa < 0.1
    single = p.Run("run 0", "separator", (p.Pipe(0.15, 300.0),), p.Join("straight", 0.0))
    short = System(make_shop((single,), (replace(machine, on="run 0"),)), STANDARD).balance(("far",))
    assert flows.blower_flow == pytest.approx(short.blower_flow, rel=1e-9)


@pytest.mark.parametrize(
    ("runs", "message"),
    [
        ((("a", "b"), ("b", "a")), "loop"),
        ((("a", "nowhere"),), "not there"),
    ],
)
def test_loops_and_loose_ends_are_refused(runs: tuple[tuple[str, str], ...], message: str) -> None:
    made = tuple(p.Run(name, into, (p.Pipe(0.15, 1.0),)) for name, into in runs)
    machine = p.Machine(
        name="m", on=runs[0][0], needs_m3s=0.2, pickups=(p.Pickup("port", p.Hood(kind="plain", diameter_m=0.15)),)
    )
    with pytest.raises(ValueError, match=message):
        Network(make_shop(made, (machine,)), STANDARD)


def test_machine_on_an_unknown_run_is_refused() -> None:
    run = p.Run("a", "separator", (p.Pipe(0.15, 1.0),))
    machine = p.Machine(
        name="m", on="b", needs_m3s=0.2, pickups=(p.Pickup("port", p.Hood(kind="plain", diameter_m=0.15)),)
    )
    with pytest.raises(ValueError, match="m is on b"):
        Network(make_shop((run,), (machine,)), STANDARD)


def test_no_suction_no_leak() -> None:
    assert find_leak(-5.0, 1e-3, 1e-3, 1.2) == 0.0


def test_rising_curve_reports_every_crossing() -> None:
    # a humped curve and a steep system meet three times or once, never in silence
    project = make_project()
    points = tuple(p.CurvePoint(q, h) for q, h in ((0.0, 900.0), (0.1, 500.0), (0.25, 1500.0), (0.45, 100.0)))
    trunk = p.Run(
        "trunk", "separator", (p.OtherPart("coil", 0.15, loss_pa=740.0, loss_at_m3s=0.125),), p.Join("straight", 0.0)
    )
    machine = p.Machine(
        name="m", on="trunk", needs_m3s=0.1, pickups=(p.Pickup("port", p.Hood(kind="bellmouth", diameter_m=0.3)),)
    )
    shop = make_shop((trunk,), (machine,), points, separator=p.Separator(kind="none"), delivery=())
    system = System(replace(shop, filters=project.filters), STANDARD)
    flows = system.balance(("m",))
    crossings = system.find_all_crossings(("m",), flows)
    for flow in crossings:
        asked = Balance(system.network, ("m",)).find_demand(flow) + system.find_tail(flow, BEST)[0]
        assert asked == pytest.approx(system.blower.find_total(flow)[0], rel=1e-4)
    assert min(abs(flow - flows.blower_flow) for flow in crossings) < 1e-3


def test_ledger_lines_explain_themselves() -> None:
    # loss = coefficient x velocity pressure on every line that has one; a plain end's coefficient is 0.93 (ACGIH)
    system = System(make_project())
    rows = write_ledger(system, system.balance(("planer",)), "planer")
    assert rows[0].coefficient == pytest.approx(0.93)
    for row in rows:
        if row.coefficient is not None and row.velocity_pressure_pa is not None:
            assert row.coefficient * row.velocity_pressure_pa == pytest.approx(row.loss_pa, rel=1e-9)
    totals = [row.total_pa for row in rows]
    assert totals == sorted(totals)
    assert totals[-1] == pytest.approx(sum(row.loss_pa for row in rows), rel=1e-9)


def test_order_of_opening_never_changes_a_flow() -> None:
    """Sums run over the ducts in one order whatever the set of names: the same bytes for the same file."""
    system = System(make_project())
    names = tuple(m.name for m in system.project.machines)
    flows = [system.balance(order) for order in (names, tuple(reversed(names)))]
    for name in names:
        assert flows[0].flow[name] == pytest.approx(flows[1].flow[name], rel=1e-9)
    again = System(make_project()).balance(names)
    assert again == flows[0]


def test_a_rising_curve_is_balanced_in_few_steps() -> None:
    """Seventy-odd halvings of the suction took seconds; a balance is found within a few dozen questions."""
    asked = 0
    network = System(make_project()).network

    def find_head(flow: float) -> tuple[float, float]:
        nonlocal asked
        asked += 1
        return 900.0 + 2000.0 * flow, 2000.0

    flows = Balance(network, ["planer"], BEST)._solve_slowly(find_head)
    assert find_head(flows.blower_flow)[0] == pytest.approx(flows.root_suction, rel=1e-8)
    assert asked < 40


def test_suction_in_a_drop_is_that_before_the_join() -> None:
    """By hand along the drop: what hood and duct lose, and the velocity pressure, without the wye behind."""
    sizing = settle_and_size(make_project())
    scenario = sizing.get_alone("planer")
    row = next(d for d in scenario.ducts if d.place == "planer")
    lines = [line for line in scenario.ledger if line.section == "planer"]
    join = next(i for i, line in enumerate(lines) if line.kind == "join")
    lost = sum(line.loss_pa for line in lines[:join])
    speed_pressure = sizing.air.density_kgm3 * row.speed.best**2 / 2
    assert row.suction_pa == pytest.approx(lost + speed_pressure, rel=1e-6)
    assert row.loss_pa == pytest.approx(sum(line.loss_pa for line in lines), rel=1e-6)
