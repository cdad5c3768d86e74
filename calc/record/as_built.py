"""What was built, held against what was drawn; the project as measured; nothing here reads or writes a file."""

from __future__ import annotations

import datetime
from collections.abc import Mapping
from dataclasses import dataclass, replace

from calc.box.ports import measure_pail
from calc.box.stack import find_hanging
from calc.finding import Amount, Limit, Said, Verdict, decide
from calc.project import Hose, Machine, Pail, Piece
from calc.record.entries import Record
from calc.record.questions import list_hoses, split_key
from calc.settled import PlacedPort, SettledShop

TOLERANCES_MM: Mapping[str, float] = {
    "box.width": 3.0,
    "box.depth": 3.0,
    "box.height": 3.0,
    "box.panel": 0.5,
    "box.underside": 10.0,
    "shop.ceiling": 6.0,
    "pail": 0.8,
    "hole": 0.8,
    "filters.floor": 12.0,
    "gauge.bore": 0.5,
    "hose": 150.0,
}
"""What may differ before it matters [mm]: a box of sheet goods 3 mm, a hole 1/32 in (common practice, no source)."""


@dataclass(frozen=True, kw_only=True)
class Compared:
    """One measure, drawn and made. off: made less drawn, in the kind's base unit; tolerance in the same unit."""

    key: str
    label: Said
    designed: Amount
    built: Amount
    written: str
    date: datetime.date
    off: float
    tolerance: float
    verdict: Verdict


def find_designed(project: SettledShop) -> dict[str, Amount]:
    """Return what the settled project says for each key of the as-built form that it says something for."""
    box = project.box
    said: dict[str, Amount] = {
        "box.panel": Amount(box.panel.thickness_mm, "length_mm"),
        "shop.ceiling": Amount(project.shop.ceiling_mm, "length_mm"),
        "filters.count": Amount(float(sum(f.count for f in project.filters)), "count"),
        "gauge.bore": Amount(project.gauge.tube_bore_mm, "length_mm"),
        "test.temperature": Amount(project.shop.temperature_k, "temperature_k"),
    }
    sizes = {
        "box.width": box.width_mm,
        "box.depth": box.depth_mm,
        "box.height": box.height_mm,
        "box.underside": box.underside_mm,
    }
    said |= {key: Amount(value, "length_mm") for key, value in sizes.items()}
    hanging = max((find_hanging(project, port) for port in project.ports), default=0.0)
    if hanging:
        said["filters.floor"] = Amount(box.underside_mm - hanging, "length_mm")
    for port in project.ports:
        across = find_pail_across(port.pail)
        said[f"pail.{port.name}"] = Amount(across, "length_mm")
        said[f"hole.{port.name}"] = Amount(across, "length_mm")
    for machine in project.machines:
        said |= {f"hose.{place}": Amount(hose.length_m, "length_m") for place, hose in list_hoses(machine)}
    return said


def find_pail_across(pail: Pail) -> float:
    """Return the pail's mean diameter [mm] at the collar, as its hole is cut to."""
    return measure_pail(pail)[0]


def compare_built(project: SettledShop, record: Record, labels: Mapping[str, Said]) -> tuple[Compared, ...]:
    """Return each measure of the form that was drawn and made, in its order. labels: words by key."""
    rows = []
    drawn = find_designed(project)
    for key, label in labels.items():
        designed, found = drawn.get(key), record.find_latest(key)
        if designed is None or found is None or found[1].value is None:
            continue
        entry, answer = found
        value = answer.value
        assert value is not None
        off = value - designed.value
        tolerance = find_tolerance(key)
        verdict = decide(abs(off), Limit(2 * tolerance, "at most", tight=tolerance))
        rows.append(
            Compared(
                key=key,
                label=label,
                designed=designed,
                built=Amount(value, designed.kind),
                written=answer.written,
                date=entry.date,
                off=off,
                tolerance=tolerance,
                verdict=verdict,
            )
        )
    return tuple(rows)


def find_tolerance(key: str) -> float:
    """Return the tolerance of a key in the base unit of its kind; counts have none, temperatures 5 K."""
    if key == "filters.count":
        return 0.0
    if key == "test.temperature":
        return 5.0
    stem, _ = split_key(key)
    millimetres = TOLERANCES_MM.get(key, TOLERANCES_MM.get(stem, 3.0))
    return millimetres / 1000 if stem == "hose" else millimetres


def apply_record(project: SettledShop, record: Record) -> SettledShop:
    """Return the project with every measured value put in place of the drawn one: to size what really stands there.

    Taken over: box sizes, panel, ceiling, underside, pails, hose lengths, filter count, shop temperature, tube bore.
    """

    def take(key: str, otherwise: float | None) -> float | None:
        found = record.find_latest(key)
        return found[1].value if found is not None and found[1].value is not None else otherwise

    def must(key: str, otherwise: float) -> float:
        value = take(key, otherwise)
        return otherwise if value is None else value

    box = replace(
        project.box,
        width_mm=must("box.width", project.box.width_mm),
        depth_mm=must("box.depth", project.box.depth_mm),
        height_mm=must("box.height", project.box.height_mm),
        underside_mm=must("box.underside", project.box.underside_mm),
        panel=replace(project.box.panel, thickness_mm=must("box.panel", project.box.panel.thickness_mm)),
    )
    shop = replace(
        project.shop,
        ceiling_mm=must("shop.ceiling", project.shop.ceiling_mm),
        temperature_k=must("test.temperature", project.shop.temperature_k),
    )
    count = take("filters.count", None)
    filters = project.filters
    if count is not None and len(filters) == 1 and count >= 1:
        filters = (replace(filters[0], count=int(count)),)
    ports = tuple(_apply_port(port, take(f"pail.{port.name}", None)) for port in project.ports)
    machines = tuple(
        _apply_hoses(machine, {place: take(f"hose.{place}", None) for place, _ in list_hoses(machine)})
        for machine in project.machines
    )
    gauge = replace(project.gauge, tube_bore_mm=must("gauge.bore", project.gauge.tube_bore_mm))
    return replace(project, box=box, shop=shop, filters=filters, ports=ports, machines=machines, gauge=gauge)


def _apply_port(port: PlacedPort, across: float | None) -> PlacedPort:
    if across is None:
        return port
    return replace(port, pail=replace(port.pail, across_mm=(across,), around_mm=None))


def _apply_hoses(machine: Machine, lengths: Mapping[str, float | None]) -> Machine:
    """Return the machine with the measured lengths [m] of its hoses, by the place they hang at."""
    pickups = tuple(
        replace(pickup, pieces=_apply_length(pickup.pieces, lengths.get(f"{machine.name}, {pickup.name}")))
        for pickup in machine.pickups
    )
    return replace(machine, pickups=pickups, pieces=_apply_length(machine.pieces, lengths.get(machine.name)))


def _apply_length(pieces: tuple[Piece, ...], length_m: float | None) -> tuple[Piece, ...]:
    hose = next((piece for piece in pieces if isinstance(piece, Hose)), None)
    if length_m is None or hose is None:
        return pieces
    # A hose longer than it was said to be pulled tight is at least as long as that when it is pulled tight.
    stretched = None if hose.stretched_m is None else max(hose.stretched_m, length_m)
    new = replace(hose, length_m=length_m, stretched_m=stretched)
    return tuple(new if piece is hose else piece for piece in pieces)
