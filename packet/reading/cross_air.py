"""What must agree between the fields of ducts, machines and blower; skips what could not be read."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from itertools import pairwise
from typing import Any

from calc.measures.quantity import write_amount
from packet.reading.context import Reading
from packet.reading.problem import find_nearest, list_words, quote_found
from packet.reading.values import Items, NamedValues, Values

SEPARATOR = "separator"
ABSURD_JUMP, LARGE_JUMP = 3.0, 1.9
"""From one diameter to the next: more is a slip of the pen, more is unusual (common practice, no source)."""


def check_air(project: Values, reading: Reading) -> None:
    """Note every disagreement among separator, ducts, machines, gate sets and gauge."""
    runs = project["ducts"] if isinstance(project["ducts"], NamedValues) else None
    machines = [m for m in project["machines"] or [] if isinstance(m, Values)]
    if runs is not None:
        check_runs(runs)
        check_machines_on_runs(machines, runs)
    check_names("machine", machines)
    for machine in machines:
        check_machine(machine)
    check_machine_names(project, machines)
    check_moved(project, machines)
    if runs is not None:
        check_straight_ends(runs, machines)
    for pieces in list_piece_rows(project, runs, machines):
        check_pieces(pieces, reading)
    check_make_up_opening(project["shop"])
    check_separator(project["separator"])


def check_make_up_opening(shop: Any) -> None:
    """The opening is given one way only: two ways could disagree."""
    opening = shop["make_up_opening"] if isinstance(shop, Values) else None
    if not isinstance(opening, Values):
        return
    ways = ("diameter", "size", "area")
    if sum(opening.is_given(way) for way in ways) != 1:
        opening.fault(
            "",
            "the opening needs one of diameter, size and area",
            expected=f"one of: {list_words(ways)}",
            example="make_up_opening: {size: 24 x 28 in}",
        )


def check_runs(runs: NamedValues) -> None:
    """Every run must lead to the separator: known names, no loop."""
    into = {name: run["into"] for name, run in runs.items.items() if isinstance(run, Values)}
    for name, run in runs.items.items():
        if name == SEPARATOR:
            runs.fault(name, "a run cannot be called 'separator'", mend="give it another name")
        if not isinstance(run, Values) or run["into"] is None:
            continue
        target = run["into"]
        if target != SEPARATOR and target not in runs.items:
            names = tuple(dict.fromkeys((SEPARATOR, *runs.items)))
            run.fault(
                "into",
                f"no run is called {quote_found(target)}",
                expected=list_words(names),
                nearest=find_nearest(target, names),
            )
        if run.is_given("pieces") and has_no_pieces(run):
            run.fault("pieces", "a run without pieces", example="[{pipe: 6 in, length: 12 ft}]")
    for loop in find_loops(into):
        run = runs.items[loop[0]]
        run.fault(
            "into",
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


def check_machines_on_runs(machines: list[Values], runs: NamedValues) -> None:
    used = {run["into"] for run in runs.items.values() if isinstance(run, Values)}
    for machine in machines:
        on = machine["on"]
        used.add(on)
        if on is not None and runs.items and on not in runs.items:
            machine.fault(
                "on",
                f"no run is called {quote_found(on)}",
                expected=list_words(tuple(runs.items)),
                nearest=find_nearest(on, runs.items),
            )
    for name, run in runs.items.items():
        if name not in used and isinstance(run, Values):
            runs.warn(name, f"no machine and no run leads into {quote_found(name)}")


def check_names(what: str, items: Iterable[Values]) -> None:
    """Names must differ, also when written large or small."""
    first: dict[str, Values] = {}
    for item in items:
        name = item["name"]
        if name is None:
            continue
        if other := first.get(name.lower()):
            item.fault(
                "name",
                f"two {what}s are called {quote_found(name)}: line "
                f"{other.place_of('name').line} and line {item.place_of('name').line}",
                mend="give each its own name",
            )
        first.setdefault(name.lower(), item)


def check_machine(machine: Values) -> None:
    """One hood or several pickups, each with a diameter it can be drawn with."""
    if machine.is_given("hood") and machine.is_given("pickups"):
        machine.fault("pickups", "both hood and pickups", mend="keep hood for one port, pickups for several")
    pickups = [p for p in machine["pickups"] or [] if isinstance(p, Values)]
    check_names("pickup", pickups)
    for owner in pickups or [machine]:
        check_hood(owner, machine)


def check_moved(project: Values, machines: list[Values]) -> None:
    """Machines that share a hose moved by hand have the same ducts, and are never open together."""
    sharing: dict[str, list[Values]] = {}
    for machine in machines:
        if machine["moved"] and isinstance(machine["on"], str):
            sharing.setdefault(machine["on"], []).append(machine)
    for run, (first, *others) in sharing.items():
        if not others:
            first.fault(
                "moved",
                f"no other machine on {quote_found(run)} shares this hose",
                expected="moved: yes at each machine that the hose goes to",
                mend="leave it out where the hose stays",
            )
        for other in others:
            for key in ("pieces", "gate", "join"):
                if strip_places(other[key]) != strip_places(first[key]):
                    other.fault(
                        key if other.is_given(key) else "moved",
                        f"one hose is moved between {quote_found(first['name'])} and {quote_found(other['name'])}, "
                        f"but {key} is not the same at both",
                        expected=f"the same {key} at both",
                        mend="leave out moved where each has its own",
                    )
                    break
    hose_of = {machine["name"]: run for run, members in sharing.items() for machine in members}
    for gate_set in project["gate_sets"] or []:
        if isinstance(gate_set, Values):
            check_one_hose(gate_set, hose_of)


def check_one_hose(gate_set: Values, hose_of: dict[str, str]) -> None:
    """A hose is on one machine at a time."""
    taken: dict[str, str] = {}
    for item, name in enumerate(gate_set["open"] or []):
        run = hose_of.get(name)
        if run is not None and taken.setdefault(run, name) != name:
            gate_set.fault(
                "open",
                f"{quote_found(taken[run])} and {quote_found(name)} share one hose that is moved by hand",
                item,
                expected="one of the two",
            )


def strip_places(value: Any) -> Any:
    """Return a value of the file without where it stands."""
    match value:
        case Values():
            return value.variant, tuple((key, strip_places(value[key])) for key in value.group.keys)
        case list():
            return tuple(strip_places(each) for each in value)
    return value


def check_straight_ends(runs: NamedValues, machines: list[Values]) -> None:
    """One duct alone can go straight into the end of a run; the separator may have several inlets."""
    first: dict[str, str] = {}
    shared: set[str] = set()
    rows = [(name, run, run["into"]) for name, run in runs.items.items() if isinstance(run, Values)]
    rows += [(machine["name"], machine, machine["on"]) for machine in machines]
    for name, row, into in rows:
        if row["join"] != "straight" or into not in runs.items:
            continue
        if row.group.keys and "moved" in row.group.keys and row["moved"]:
            if into in shared:
                continue
            shared.add(into)
        if into in first:
            row.fault(
                "join",
                f"{quote_found(first[into])} goes straight into the end of {quote_found(into)} already",
                expected="join: {wye: 45 deg} for all but one",
                mend="moved: yes at each machine where one hose is moved by hand from machine to machine",
            )
        first.setdefault(into, name)


def check_hood(owner: Values, machine: Values) -> None:
    """A hood has its own diameter, or that of the first piece behind it: the pickup's own, or the machine's."""
    hood = owner["hood"]
    if owner.is_given("hood") and not isinstance(hood, Values):
        return
    if (hood is None or not hood.is_given("diameter")) and has_no_pieces(owner) and has_no_pieces(machine):
        owner.fault("hood", "the port has no diameter", example="hood: {kind: plain, diameter: 5 in}")
    if hood is None:
        return
    kind = hood["kind"]
    if kind == "given" and not hood.is_given("coefficient"):
        owner.fault("hood", "a given hood without its coefficient", example="hood: {kind: given, coefficient: 0.9}")
    if kind in ("cabinet", "slot") and not hood.is_given("opening"):
        owner.fault(
            "hood",
            f"a {kind} without its opening",
            expected="the free area through which air gets in",
            example=f"hood: {{kind: {kind}, opening: 20 in2}}",
        )


def check_machine_names(project: Values, machines: list[Values]) -> None:
    """Gate sets and gauge must name machines that are there."""
    names = [m["name"] for m in machines if m["name"]]
    sets = [s for s in project["gate_sets"] or [] if isinstance(s, Values)]
    check_names("gate set", sets)
    for gate_set in sets:
        opened = gate_set["open"] or []
        for name in dict.fromkeys(opened):
            if name not in names:
                refuse_machine(gate_set, "open", name, names, opened.index(name))
            elif opened.count(name) > 1:
                again = opened.index(name, opened.index(name) + 1)
                gate_set.fault("open", f"{quote_found(name)} stands twice", again)
    gauge = project["gauge"]
    if isinstance(gauge, Values) and machines and gauge["read_at"] and gauge["read_at"] not in names:
        refuse_machine(gauge, "read_at", gauge["read_at"], names)


def refuse_machine(owner: Values, key: str, name: str, names: list[str], item: int | None = None) -> None:
    found = f"no machine is called {quote_found(name)}"
    owner.fault(key, found, item, expected=list_words(names), nearest=find_nearest(name, names))


def list_piece_rows(project: Values, runs: NamedValues | None, machines: list[Values]) -> Iterator[Any]:
    """Yield every row of pieces."""
    for owner in [*(runs.items.values() if runs else ()), *machines]:
        if isinstance(owner, Values):
            yield owner["pieces"]
            for pickup in owner["pickups"] or []:
                yield pickup["pieces"]
    yield project["link"]
    yield project["delivery"]


def check_pieces(pieces: Any, reading: Reading) -> None:
    """Loss given one way; no absurd jump of diameter from piece to piece."""
    found = [piece for piece in pieces or [] if isinstance(piece, Values)]
    for piece in found:
        if piece.variant == "part":
            check_one_of(piece, ("loss", "coefficient"))
        if piece.variant == "hose" and piece["stretched"] and piece["length"] and piece["stretched"] < piece["length"]:
            piece.fault(
                "stretched",
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
            after.fault("", f"the duct jumps from {sizes}", mend="is one of them in another unit?")
        elif jump >= LARGE_JUMP:
            after.warn("", f"the duct jumps from {sizes}", mend="add a taper, if there is one")


def read_ends(piece: Values) -> tuple[float | None, float | None]:
    """Return the diameters at which the air enters and leaves a piece."""
    value = piece["diameter"] if piece.variant == "part" else piece[piece.variant]
    if piece.variant == "taper":
        return (value[0], value[1]) if value and len(value) == 2 else (None, None)
    return value, value


def check_one_of(owner: Values, keys: tuple[str, str]) -> None:
    """Note when both or none of two keys are given."""
    given = [key for key in keys if owner.is_given(key)]
    if len(given) != 1:
        found = f"both {keys[0]} and {keys[1]}" if given else f"neither {keys[0]} nor {keys[1]}"
        owner.fault("", found, expected=f"one of the two: {keys[0]} or {keys[1]}")


def check_separator(separator: Any) -> None:
    if not isinstance(separator, Values) or separator["kind"] in (None, "none"):
        return
    check_one_of(separator, ("loss", "coefficient"))
    inlet = separator["inlet"]
    if separator.is_given("coefficient") and not separator.is_given("inlet"):
        separator.fault("coefficient", "a coefficient without the inlet it counts on", example="inlet: 8 in")
    if isinstance(inlet, Values):
        given = {key for key in ("diameter", "width", "height") if inlet.is_given(key)}
        if given not in ({"diameter"}, {"width", "height"}):
            inlet.fault(
                "",
                f"an inlet with {' and '.join(sorted(given)) or 'no size'}",
                expected="a diameter, or width and height",
                example="inlet: {width: 4 in, height: 8 in}",
            )
