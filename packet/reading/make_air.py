"""Values of blower, separator, ducts and machines to the typed project. Called only when nothing was at fault."""

from __future__ import annotations

from types import MappingProxyType
from typing import Any

from calc import project as p
from calc.airflow.curve import draw_rated_curve
from packet.reading.values import Values

STANDARD_DENSITY = p.Blower.curve_density


def make_blower(values: Values) -> p.Blower:
    rating, footprint = values["rating"], values["footprint"]
    if rating:
        curve = draw_rated_curve(rating["free_flow"], rating["shut_off"])
    else:
        curve = tuple(p.CurvePoint(flow, pressure) for flow, pressure in values["curve"])
    sound, bands = values["sound"], values["sound_bands"]
    speeds = [speed for speed in (values["curve_speed"], values["runs_at"]) if speed is not None]
    return p.Blower(
        curve=curve,
        curve_is=values["curve_is"],
        outlet_m=values["outlet"],
        power_w=values["power"],
        inlet_m=values["inlet"],
        curve_density=STANDARD_DENSITY if values["curve_density"] is None else values["curve_density"],
        curve_speed=speeds[0] if speeds else None,
        runs_at=speeds[-1] if speeds else None,
        from_rating=bool(rating),
        sound_db=sound.value if sound else None,
        sound_at_m=sound.at if sound else None,
        sound_bands_db=MappingProxyType(dict(sorted(bands.items.items()))) if bands else MappingProxyType({}),
        efficiency=values["efficiency"],
        weight_kg=values["weight"],
        motor_top_mm=values["motor_top"],
        stands_on=values["stands_on"],
        footprint_mm=(footprint.width_mm, footprint.height_mm) if footprint else None,
        height_mm=values["height"],
    )


def make_separator(values: Values | None) -> p.Separator:
    if values is None or values["kind"] == "none":
        return p.Separator("none")
    loss, inlet = values["loss"], values["inlet"]
    return p.Separator(
        kind=values["kind"],
        captures=values["captures"],
        loss_pa=loss.value if loss else None,
        loss_at_m3s=loss.at if loss else None,
        coefficient=values["coefficient"],
        inlet_width_m=inlet["width"] if inlet else None,
        inlet_height_m=inlet["height"] if inlet else None,
        inlet_diameter_m=inlet["diameter"] if inlet else None,
        body_diameter_m=values["body"],
        turns=values["turns"],
    )


def make_pieces(rows: list[Values] | None) -> tuple[p.Piece, ...]:
    return tuple(make_piece(row) for row in rows or [])


def make_piece(row: Values) -> p.Piece:
    match row.variant:
        case "pipe":
            return p.Pipe(row["pipe"], row["length"], row["material"])
        case "hose":
            return p.Hose(row["hose"], row["length"], row["stretched"], row["wall"])
        case "elbow":
            return p.Elbow(row["elbow"], row["turn"], row["radius"], row["make"], row["count"])
        case "taper":
            angle = None if row["angle"] >= 179.9 else row["angle"]
            return p.Taper(row["taper"][0], row["taper"][1], angle)
        case "throat":
            return p.Throat(row["throat"], row["length"])
        case "gate":
            return p.OpenGate(row["gate"])
        case "part":
            loss = row["loss"]
            return p.OtherPart(
                row["part"],
                row["diameter"],
                loss.value if loss else None,
                loss.at if loss else None,
                row["coefficient"],
            )
    raise TypeError(f"no piece of duct: {row.variant}")


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
    return p.Run(
        name, values["into"], make_pieces(values["pieces"]), make_join(values["join"]), values["leakage_class"]
    )


def make_machine(values: Values) -> p.Machine:
    pieces = make_pieces(values["pieces"])
    rows = values["pickups"]
    if rows:
        pickups = tuple(
            p.Pickup(row["name"], make_hood(row["hood"], own := make_pieces(row["pieces"]), pieces), own)
            for row in rows
        )
    else:
        pickups = (p.Pickup("port", make_hood(values["hood"], pieces, ())),)
    gate = values["gate"]
    return p.Machine(
        name=values["name"],
        on=values["on"],
        needs_m3s=values["needs"],
        pickups=pickups,
        pieces=pieces,
        gate=p.Gate(gate["diameter"], gate["leak"]) if isinstance(gate, Values) else None,
        join=make_join(values["join"]),
        dust_kgs=values["dust"],
        fine_dust=values["fine_dust"],
        speed_ms=values["speed"],
    )


def make_hood(values: Values | None, own: tuple[p.Piece, ...], behind: tuple[p.Piece, ...]) -> p.Hood:
    """Return the hood; its diameter is that of the first piece behind it when the file does not say."""
    diameter = values["diameter"] if values else None
    if diameter is None:
        diameter = find_first_diameter((*own, *behind))
    if values is None:
        return p.Hood("plain", diameter)
    return p.Hood(
        values["kind"], diameter, values["angle"], values["rectangular"], values["opening"], values["coefficient"]
    )


def find_first_diameter(pieces: tuple[p.Piece, ...]) -> float:
    first = pieces[0]
    return first.from_m if isinstance(first, p.Taper) else first.diameter_m


def make_gate_sets(rows: list[Values] | None) -> tuple[p.GateSet, ...]:
    return tuple(p.GateSet(row["name"], tuple(row["open"])) for row in rows or [])


def make_dust(values: Values) -> p.Dust:
    return p.Dust(
        made_kgs=values["made"],
        hours_a_day=values["hours_a_day"],
        branch_speed_ms=values["branch_speed"],
        main_speed_ms=values["main_speed"],
        woods=tuple(values["woods"]),
        speed_source=values["speed_source"],
    )


def make_noise(values: Values) -> p.Noise:
    others: list[Any] = values["others"] or []
    worn = values["protector"]
    return p.Noise(
        values["ear"],
        values["hours_a_day"],
        tuple(p.NoiseSource(row["name"], row["level"]) for row in others),
        p.Protector(worn["kind"], worn["rating"], worn["rating_is"]) if worn else None,
    )
