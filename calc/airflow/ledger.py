"""The ledger: every loss on the way of one machine's air, from its hood to the room."""

from __future__ import annotations

from calc.airflow.chains import BEST, HIGH, LOW, SETS, find_item_loss
from calc.airflow.ducts import find_area, find_velocity_pressure
from calc.airflow.filters import CLEAN_TIMES
from calc.airflow.items import Item, size_of
from calc.airflow.stretches import Flows
from calc.airflow.system import System
from calc.finding import say
from calc.results import LedgerRow


def list_items(system: System, flows: Flows, machine: str) -> list[tuple[Item, float]]:
    """Return each item on a machine's way with the flow [m3/s] through it; of several pickups, the one that
    goes straight on: all lose the same down to where they meet."""
    network = system.network
    rows: list[tuple[Item, float]] = []
    pickups = network.pickups[machine]
    if pickups:
        straight = next(each for each in pickups if each.name == network.straight_pickup[machine])
        rows += [(item, flows.flow[straight.name]) for item in straight.items]
    rows += [(item, flows.flow[machine]) for item in network.machines[machine].items]
    for run in network.walk_down(machine):
        rows += [(item, flows.flow[run]) for item in network.runs[run].items]
    rows += [(item, flows.blower_flow) for item in system.tail]
    return rows


def write_ledger(system: System, flows: Flows, machine: str, areal_kgm2: float = 0.0) -> tuple[LedgerRow, ...]:
    """Return the ledger of one machine in a balanced scenario. Its last total is what the blower makes."""
    rows: list[LedgerRow] = []
    total = 0.0
    for item, flow in list_items(system, flows, machine):
        low, best, high = (find_item_loss(item, flow, system.air, which) for which in SETS)
        total += best
        speed = pressure = coefficient = None
        if item.diameter_m is not None:
            speed = flow / find_area(item.diameter_m)
            pressure = find_velocity_pressure(speed, system.air.density_kgm3)
            coefficient = best / pressure if pressure > 0 and item.resistance is None else None
        rows.append(
            LedgerRow(
                what=item.what,
                section=item.section,
                kind=item.kind,
                diameter_m=item.diameter_m,
                flow_m3s=flow,
                speed_ms=speed,
                velocity_pressure_pa=pressure,
                coefficient=coefficient,
                loss_pa=best,
                low_pa=low,
                high_pa=high,
                total_pa=total,
                source=item.source,
            )
        )
    rows += _write_filter_rows(system, flows.blower_flow, total, areal_kgm2)
    return tuple(rows)


def _write_filter_rows(system: System, flow: float, total: float, areal: float) -> list[LedgerRow]:
    """Return the last two lines: the filters' openings and their media (of the kind with the dearest media)."""
    bank = system.bank
    shares = bank.share_flow(flow, BEST, areal)
    member, each = max(zip(bank.members, shares, strict=True), key=lambda pair: pair[0].clean * pair[1])
    bore = member.filter.bore_mm / 1000
    low, best, high = (member.opening[which] * each * each for which in SETS)
    speed = each / find_area(bore)
    pressure = find_velocity_pressure(speed, system.air.density_kgm3)
    media = (member.clean + member.cake * areal) * each
    opening = LedgerRow(
        what=say("ledger.opening", diameter=size_of(bore)),
        section="filters",
        kind="filter",
        diameter_m=bore,
        flow_m3s=each,
        speed_ms=speed,
        velocity_pressure_pa=pressure,
        coefficient=best / pressure if pressure > 0 else None,
        loss_pa=best,
        low_pa=low,
        high_pa=high,
        total_pa=total + best,
        source="box entry and the speed lost in the cartridge, see fittings",
    )
    row = LedgerRow(
        what=say("ledger.media_clean" if areal == 0 else "ledger.media_loaded"),
        section="filters",
        kind="filter",
        diameter_m=None,
        flow_m3s=each,
        speed_ms=each / member.filter.media_m2,
        velocity_pressure_pa=None,
        coefficient=None,
        loss_pa=media,
        low_pa=CLEAN_TIMES[LOW] * member.clean * each + member.cake * areal * each,
        high_pa=CLEAN_TIMES[HIGH] * member.clean * each + member.cake * areal * each,
        total_pa=total + best + media,
        source="in proportion to face speed, ASTM D737; low: half the clean loss, high: three times",
    )
    return [opening, row]
