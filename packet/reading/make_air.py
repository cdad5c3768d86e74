"""Values of blower, separator, ducts and machines to the typed project. Called only when nothing was at fault."""

from __future__ import annotations

from typing import Any

from calc import project as p
from calc.airflow.curve import draw_rated_curve
from packet.reading.fill import fill
from packet.reading.values import Values

PIECES: dict[str, type[p.Piece]] = {
    "pipe": p.Pipe,
    "hose": p.Hose,
    "elbow": p.Elbow,
    "taper": p.Taper,
    "throat": p.Throat,
    "gate": p.OpenGate,
    "part": p.OtherPart,
}
SUDDEN_DEG = 179.9


def make_blower(values: Values) -> p.Blower:
    """Return the blower; of one speed alone the other is the same."""
    rating = values["rating"]
    if rating:
        curve = draw_rated_curve(rating["free_flow"], rating["shut_off"])
    else:
        curve = tuple(p.CurvePoint(flow, pressure) for flow, pressure in values["curve"])
    power = tuple(p.PowerPoint(flow, watts) for flow, watts in values["power_curve"] or ())
    speeds = [speed for speed in (values["curve_speed"], values["runs_at"]) if speed is not None] or [None]
    return fill(
        p.Blower, values, curve=curve, from_rating=bool(rating), curve_speed=speeds[0], runs_at=speeds[-1],
        power_curve=power,
    )  # fmt: skip


def make_separator(values: Values | None) -> p.Separator:
    return p.Separator(kind="none") if values is None or values["kind"] == "none" else fill(p.Separator, values)


def make_pieces(rows: list[Values] | None) -> tuple[p.Piece, ...]:
    return tuple(make_piece(row) for row in rows or [])


def make_piece(row: Values) -> p.Piece:
    sudden = row.variant == "taper" and row["angle"] >= SUDDEN_DEG
    return fill(PIECES[row.variant], row, **({"angle_deg": None} if sudden else {}))


def make_join(value: Values | str | None) -> p.Join:
    """Return the join; a tee enters at 90 deg, a wye at 45 deg when no angle is given."""
    match value:
        case None | "wye":
            return p.Join()
        case "straight":
            return p.Join("straight", 0.0)
        case "tee":
            return p.Join("tee", 90.0)
        case Values():
            return p.Join("wye" if value.variant == "wye" else "tee", value[value.variant])
    raise TypeError(f"no join: {value!r}")


def make_run(name: str, values: Values) -> p.Run:
    return fill(p.Run, values, name=name, pieces=make_pieces(values["pieces"]), join=make_join(values["join"]))


def make_machine(values: Values) -> p.Machine:
    pieces, gate = make_pieces(values["pieces"]), values["gate"]
    return fill(
        p.Machine,
        values,
        pickups=make_pickups(values, pieces),
        pieces=pieces,
        gate=fill(p.Gate, gate) if isinstance(gate, Values) else None,
        join=make_join(values["join"]),
        pickups_join=make_join(values["pickups_join"]),
    )


def make_pickups(values: Values, behind: tuple[p.Piece, ...]) -> tuple[p.Pickup, ...]:
    """Return a machine's pickups; without any in the file its one port. behind: the pieces all of them share."""
    rows = values["pickups"]
    if not rows:
        return (p.Pickup("port", make_hood(values["hood"], behind)),)
    pickups = []
    for row in rows:
        own = make_pieces(row["pieces"])
        pickups.append(fill(p.Pickup, row, hood=make_hood(row["hood"], (*own, *behind)), pieces=own))
    return tuple(pickups)


def make_hood(values: Values | None, behind: tuple[p.Piece, ...]) -> p.Hood:
    """Return the hood; its diameter is that of the first piece behind it when the file does not say."""
    diameter = values["diameter"] if values else None
    if diameter is None:
        diameter = find_first_diameter(behind)
    return fill(p.Hood, values, diameter_m=diameter) if values else p.Hood(kind="plain", diameter_m=diameter)


def find_first_diameter(pieces: tuple[p.Piece, ...]) -> float:
    first = pieces[0]
    return first.from_m if isinstance(first, p.Taper) else first.diameter_m


def make_noise(values: Values) -> p.Noise:
    others: list[Any] = values["others"] or []
    worn = values["protector"]
    return fill(
        p.Noise,
        values,
        others=tuple(fill(p.NoiseSource, row) for row in others),
        protector=fill(p.Protector, worn) if worn else None,
    )
