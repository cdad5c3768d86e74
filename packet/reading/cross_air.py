"""What must agree between the fields of ducts, machines and blower; skips what could not be read."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from itertools import pairwise
from typing import Any

from calc.measures.quantity import write_amount
from packet.reading.context import Reading
from packet.reading.problem import Place, find_nearest, list_words, quote_found
from packet.reading.tables import Items, NamedValues, Values

SEPARATOR = "separator"
ABSURD_JUMP, LARGE_JUMP = 3.0, 1.9
"""From one diameter to the next: more is a slip of the pen, more is unusual (common practice, no source)."""


def check_air(project: Values, reading: Reading) -> None:
    """Note every disagreement among separator, ducts, machines, gate sets and gauge."""
    runs = project["ducts"] if isinstance(project["ducts"], NamedValues) else None
    machines = [m for m in project["machines"] or [] if isinstance(m, Values)]
    if runs is not None:
        check_runs(runs, reading)
        check_machines_on_runs(machines, runs, reading)
    check_names("machine", machines, reading)
    for machine in machines:
        check_machine(machine, reading)
    check_machine_names(project, machines, reading)
    for pieces, place, where in list_piece_rows(project, runs, machines):
        check_pieces(pieces, place, where, reading)
    check_make_up_opening(project["shop"], reading)
    check_separator(project["separator"], reading)


def check_make_up_opening(shop: Any, reading: Reading) -> None:
    """The opening is given one way only: two ways could disagree."""
    opening = shop["make_up_opening"] if isinstance(shop, Values) else None
    if not isinstance(opening, Values):
        return
    ways = ("diameter", "size", "area")
    if sum(opening.is_given(way) for way in ways) != 1:
        reading.fault(
            opening.place,
            opening.where,
            "the opening needs one of diameter, size and area",
            expected=f"one of: {list_words(ways)}",
            example="make_up_opening: {size: 24 x 28 in}",
        )


def check_runs(runs: NamedValues, reading: Reading) -> None:
    """Every run must lead to the separator: known names, no loop."""
    into = {name: run["into"] for name, run in runs.items.items() if isinstance(run, Values)}
    for name, run in runs.items.items():
        if name == SEPARATOR:
            reading.fault(
                runs.places[name], run.where, "a run cannot be called 'separator'", mend="give it another name"
            )
        if not isinstance(run, Values) or run["into"] is None:
            continue
        target = run["into"]
        if target != SEPARATOR and target not in runs.items:
            names = tuple(dict.fromkeys((SEPARATOR, *runs.items)))
            reading.fault(
                run.place_of("into"),
                run.where.key("into"),
                f"no run is called {quote_found(target)}",
                expected=list_words(names),
                nearest=find_nearest(target, names),
            )
        if run.is_given("pieces") and has_no_pieces(run):
            reading.fault(
                run.place_of("pieces"),
                run.where.key("pieces"),
                "a run without pieces",
                example="[{pipe: 6 in, length: 12 ft}]",
            )
    for loop in find_loops(into):
        run = runs.items[loop[0]]
        reading.fault(
            run.place_of("into"),
            run.where.key("into"),
            f"the ducts go round in a loop: {' > '.join([*loop, loop[0]])}",
            mend="lead one of them into the separator",
        )


def has_no_pieces(owner: Values) -> bool:
    """Tell whether the file gives no piece here: the key is left out, or its list is empty."""
    pieces = owner["pieces"]
    return not pieces.typed if isinstance(pieces, Items) else not owner.is_given("pieces")


def find_loops(into: dict[str, Any]) -> Iterator[list[str]]:
    """Yield each loop once, starting with its first run in the file's order."""
    looped: set[str] = set()
    cleared: set[str] = set()
    for start in into:
        trail: list[str] = []
        name: Any = start
        while name in into and name not in trail and name not in cleared:
            trail.append(name)
            name = into[name]
        if name in trail and name not in looped:
            loop = trail[trail.index(name) :]
            looped.update(loop)
            yield loop
        cleared.update(trail)


def check_machines_on_runs(machines: list[Values], runs: NamedValues, reading: Reading) -> None:
    used = {run["into"] for run in runs.items.values() if isinstance(run, Values)}
    for machine in machines:
        on = machine["on"]
        used.add(on)
        if on is not None and runs.items and on not in runs.items:
            reading.fault(
                machine.place_of("on"),
                machine.where.key("on"),
                f"no run is called {quote_found(on)}",
                expected=list_words(tuple(runs.items)),
                nearest=find_nearest(on, runs.items),
            )
    for name, run in runs.items.items():
        if name not in used and isinstance(run, Values):
            reading.warn(runs.places[name], run.where, f"no machine and no run leads into {quote_found(name)}")


def check_names(what: str, items: Iterable[Values], reading: Reading) -> None:
    """Names must differ, also when written large or small."""
    first: dict[str, Values] = {}
    for item in items:
        name = item["name"]
        if name is None:
            continue
        if other := first.get(name.lower()):
            reading.fault(
                item.place_of("name"),
                item.where.key("name"),
                f"two {what}s are called {quote_found(name)}: line "
                f"{other.place_of('name').line} and line {item.place_of('name').line}",
                mend="give each its own name",
            )
        first.setdefault(name.lower(), item)


def check_machine(machine: Values, reading: Reading) -> None:
    """One hood or several pickups, each with a diameter it can be drawn with."""
    if machine.is_given("hood") and machine.is_given("pickups"):
        reading.fault(
            machine.place_of("pickups"),
            machine.where.key("pickups"),
            "both hood and pickups",
            mend="keep hood for one port, pickups for several",
        )
    pickups = [p for p in machine["pickups"] or [] if isinstance(p, Values)]
    check_names("pickup", pickups, reading)
    for owner in pickups or [machine]:
        check_hood(owner, machine, reading)


def check_hood(owner: Values, machine: Values, reading: Reading) -> None:
    """A hood has its own diameter, or that of the first piece behind it: the pickup's own, or the machine's."""
    hood = owner["hood"]
    if owner.is_given("hood") and not isinstance(hood, Values):
        return
    place, where = owner.place_of("hood"), owner.where.key("hood")
    if (hood is None or not hood.is_given("diameter")) and has_no_pieces(owner) and has_no_pieces(machine):
        reading.fault(place, where, "the port has no diameter", example="hood: {kind: plain, diameter: 5 in}")
    if hood is None:
        return
    kind = hood["kind"]
    if kind == "given" and not hood.is_given("coefficient"):
        reading.fault(
            place, where, "a given hood without its coefficient", example="hood: {kind: given, coefficient: 0.9}"
        )
    if kind in ("cabinet", "slot") and not hood.is_given("opening"):
        reading.fault(
            place,
            where,
            f"a {kind} without its opening",
            expected="the free area through which air gets in",
            example=f"hood: {{kind: {kind}, opening: 20 in2}}",
        )


def check_machine_names(project: Values, machines: list[Values], reading: Reading) -> None:
    """Gate sets and gauge must name machines that are there."""
    names = [m["name"] for m in machines if m["name"]]
    sets = [s for s in project["gate_sets"] or [] if isinstance(s, Values)]
    check_names("gate set", sets, reading)
    for gate_set in sets:
        opened = gate_set["open"] or []
        for name in dict.fromkeys(opened):
            if name not in names:
                refuse_machine(
                    gate_set, "open", name, names, reading, gate_set.place_of_item("open", opened.index(name))
                )
            elif opened.count(name) > 1:
                again = opened.index(name, opened.index(name) + 1)
                place = gate_set.place_of_item("open", again)
                reading.fault(place, gate_set.where.key("open"), f"{quote_found(name)} stands twice")
    gauge = project["gauge"]
    if isinstance(gauge, Values) and gauge["read_at"] and gauge["read_at"] not in names:
        refuse_machine(gauge, "read_at", gauge["read_at"], names, reading)


def refuse_machine(
    owner: Values, key: str, name: str, names: list[str], reading: Reading, place: Place | None = None
) -> None:
    reading.fault(
        place or owner.place_of(key),
        owner.where.key(key),
        f"no machine is called {quote_found(name)}",
        expected=list_words(names),
        nearest=find_nearest(name, names),
    )


def list_piece_rows(
    project: Values, runs: NamedValues | None, machines: list[Values]
) -> Iterator[tuple[Any, Place, Any]]:
    """Yield every row of pieces with its place."""
    for owner in [*(runs.items.values() if runs else ()), *machines]:
        if isinstance(owner, Values):
            yield owner["pieces"], owner.place_of("pieces"), owner.where.key("pieces")
            for pickup in owner["pickups"] or []:
                yield pickup["pieces"], pickup.place_of("pieces"), pickup.where.key("pieces")
    for key in ("link", "delivery"):
        yield project[key], project.place_of(key), project.where.key(key)


def check_pieces(pieces: Any, place: Place, where: Any, reading: Reading) -> None:
    """Loss given one way; no absurd jump of diameter from piece to piece."""
    found = [piece for piece in pieces or [] if isinstance(piece, Values)]
    for piece in found:
        if piece.variant == "part":
            check_one_of(piece, ("loss", "coefficient"), reading)
        if piece.variant == "hose" and piece["stretched"] and piece["length"] and piece["stretched"] < piece["length"]:
            reading.fault(
                piece.place_of("stretched"),
                piece.where.key("stretched"),
                "shorter than the hose as installed",
                expected="its length stretched out straight, the longer of the two",
            )
    for before, after in pairwise(found):
        leaves, enters = read_ends(before)[1], read_ends(after)[0]
        if leaves is None or enters is None:
            continue
        jump = max(leaves, enters) / min(leaves, enters)
        sizes = " to ".join(write_amount(d * 1000, "length_mm", reading.reader) for d in (leaves, enters))
        if jump >= ABSURD_JUMP:
            reading.fault(
                after.place, after.where, f"the duct jumps from {sizes}", mend="is one of them in another unit?"
            )
        elif jump >= LARGE_JUMP:
            reading.warn(after.place, after.where, f"the duct jumps from {sizes}", mend="add a taper, if there is one")


def read_ends(piece: Values) -> tuple[float | None, float | None]:
    """Return the diameters at which the air enters and leaves a piece."""
    value = piece["diameter"] if piece.variant == "part" else piece[piece.variant]
    if piece.variant == "taper":
        return (value[0], value[1]) if value and len(value) == 2 else (None, None)
    return value, value


def check_one_of(owner: Values, keys: tuple[str, str], reading: Reading) -> None:
    """Note when both or none of two keys are given."""
    given = [key for key in keys if owner.is_given(key)]
    if len(given) != 1:
        found = f"both {keys[0]} and {keys[1]}" if given else f"neither {keys[0]} nor {keys[1]}"
        reading.fault(owner.place, owner.where, found, expected=f"one of the two: {keys[0]} or {keys[1]}")


def check_separator(separator: Any, reading: Reading) -> None:
    if not isinstance(separator, Values) or separator["kind"] in (None, "none"):
        return
    check_one_of(separator, ("loss", "coefficient"), reading)
    inlet = separator["inlet"]
    if separator.is_given("coefficient") and not separator.is_given("inlet"):
        reading.fault(
            separator.place_of("coefficient"),
            separator.where.key("coefficient"),
            "a coefficient without the inlet it counts on",
            example="inlet: 8 in",
        )
    if isinstance(inlet, Values):
        given = {key for key in ("diameter", "width", "height") if inlet.is_given(key)}
        if given not in ({"diameter"}, {"width", "height"}):
            reading.fault(
                inlet.place,
                inlet.where,
                f"an inlet with {' and '.join(sorted(given)) or 'no size'}",
                expected="a diameter, or width and height",
                example="inlet: {width: 4 in, height: 8 in}",
            )
