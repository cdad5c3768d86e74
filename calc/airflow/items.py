"""Turns the pieces of a project into items that lose pressure, each with its low, best and high loss."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from calc.airflow.ducts import Friction, lay_hose, lay_pipe
from calc.airflow.fittings import Coefficient, find_change, find_elbow, find_hood, find_join, find_taper, look_up
from calc.finding import Amount, Said, say
from calc.project import Elbow, Hood, Hose, Join, OpenGate, OtherPart, Piece, Pipe, Taper, Throat

ItemKind = Literal["hood", "friction", "fitting", "join", "part", "filter"]
FRICTION_SOURCE = "Darcy and Weisbach; Colebrook, from memory; ASHRAE Handbook Fundamentals, Duct Design"
SLACK_SOURCE = (
    "ribbed hose 2.5 to 3.75 times smooth pipe: common practice, no source; slack between the hose's whole length and "
    "ASHRAE's equation for film duct (from memory): common practice, no source"
)


@dataclass(frozen=True, kw_only=True)
class Item:
    """One thing on the way of the air.

    Exactly one of coefficient (on diameter_m), friction (low, best, high) and resistance is set; resistance is
    pressure over flow squared [Pa/(m3/s)^2] at standard air: low, best, high.
    """

    what: Said
    section: str
    kind: ItemKind
    diameter_m: float | None
    coefficient: Coefficient | None = None
    friction: tuple[Friction, Friction, Friction] | None = None
    resistance: tuple[float, float, float] | None = None
    source: str = ""


def size_of(diameter_m: float) -> Amount:
    """Return a diameter as an amount to be said in the reader's shop units."""
    return Amount(diameter_m * 1000, "length_mm")


def make_hood_item(hood: Hood, section: str) -> Item:
    """Return the entry loss of a hood."""
    found = find_hood(hood)
    what = say(f"items.hood_{hood.kind}", diameter=size_of(hood.diameter_m))
    return Item(
        what=what, section=section, kind="hood", diameter_m=hood.diameter_m, coefficient=found, source=found.source
    )


def make_change_item(from_m: float, to_m: float, section: str) -> Item:
    """Return the loss of a sudden change of diameter that no taper smooths."""
    found, at = find_change(from_m, to_m, None)
    what = say("items.sudden", before=size_of(from_m), after=size_of(to_m))
    return Item(what=what, section=section, kind="fitting", diameter_m=at, coefficient=found, source=found.source)


def get_ends(piece: Piece) -> tuple[float, float]:
    """Return the diameters [m] of a piece, where the air enters and where it leaves."""
    if isinstance(piece, Taper):
        return piece.from_m, piece.to_m
    return piece.diameter_m, piece.diameter_m


def make_piece_item(piece: Piece, section: str) -> Item:
    """Return the loss of one piece. Raises ValueError when a part has neither a loss nor a coefficient."""
    d = get_ends(piece)[0]
    size = size_of(d)
    if isinstance(piece, Pipe):
        what = say("items.pipe", diameter=size, length=Amount(piece.length_m, "length_m"))
        return Item(
            what=what, section=section, kind="friction", diameter_m=d, friction=lay_pipe(piece), source=FRICTION_SOURCE
        )
    if isinstance(piece, Hose):
        what = say(f"items.hose_{_judge_slack(piece)}", diameter=size, length=Amount(piece.length_m, "length_m"))
        source = SLACK_SOURCE if piece.wall == "ribbed" else FRICTION_SOURCE
        return Item(what=what, section=section, kind="friction", diameter_m=d, friction=lay_hose(piece), source=source)
    if isinstance(piece, Throat):
        pipe = Pipe(piece.diameter_m, piece.length_m, "steel")
        return Item(
            what=say("items.throat", diameter=size), section=section, kind="friction", diameter_m=d,
            friction=lay_pipe(pipe), source=FRICTION_SOURCE,
        )  # fmt: skip
    if isinstance(piece, Elbow):
        found = find_elbow(piece)
        turn, count = Amount(piece.turn_deg, "angle_deg"), Amount(float(piece.count), "count")
        what = say("items.elbow" if piece.count == 1 else "items.elbows", diameter=size, turn=turn, count=count)
        return Item(
            what=what,
            section=section,
            kind="fitting",
            diameter_m=d,
            coefficient=found.scale(piece.count),
            source=found.source,
        )
    if isinstance(piece, Taper):
        if piece.left_out:
            return make_change_item(piece.from_m, piece.to_m, section)
        found, at = find_taper(piece)
        what = say("items.taper", before=size_of(piece.from_m), after=size_of(piece.to_m))
        return Item(what=what, section=section, kind="fitting", diameter_m=at, coefficient=found, source=found.source)
    if isinstance(piece, OpenGate):
        found = look_up("gate open")
        return Item(
            what=say("items.gate", diameter=size),
            section=section,
            kind="fitting",
            diameter_m=d,
            coefficient=found,
            source=found.source,
        )
    return make_part_item(piece, section)


def _judge_slack(hose: Hose) -> Literal["taut", "slack", "slackest"]:
    """Return whether a hose is longer than its way; laboratories stopped at 45 % compression, slackest is beyond."""
    if not hose.stretched_m or hose.stretched_m <= hose.length_m:
        return "taut"
    return "slack" if hose.length_m >= 0.55 * hose.stretched_m else "slackest"


def make_part_item(part: OtherPart, section: str) -> Item:
    """Return the loss of a named part. Raises ValueError when the file gives it no loss."""
    what = say("items.part", part=part.name)
    if part.coefficient is not None:
        k = part.coefficient
        found = Coefficient(k, k, k, "duct", "project file")
        return Item(
            what=what,
            section=section,
            kind="part",
            diameter_m=part.diameter_m,
            coefficient=found,
            source="project file",
        )
    if part.loss_pa is None or not part.loss_at_m3s:
        raise ValueError(f"{part.name}: give a loss at a flow, or a coefficient")
    k = part.loss_pa / part.loss_at_m3s**2
    return Item(
        what=what, section=section, kind="part", diameter_m=part.diameter_m, resistance=(k, k, k), source="project file"
    )


def make_items(pieces: tuple[Piece, ...], section: str) -> list[Item]:
    """Return the items of a chain of pieces whose sizes meet (see calc.airflow.completing)."""
    return [make_piece_item(piece, section) for piece in pieces]


def make_join_items(join: Join, from_m: float, to_m: float, section: str, into: str) -> list[Item]:
    """Return the loss of a branch [diameter m] entering a run: the join, and the step to the run's diameter in it.

    What goes straight in costs nothing here: a reducer, where it takes one, is a piece of its own.
    """
    if join.kind == "straight":
        return []
    found = find_join(join)
    angle = Amount(90.0 if join.kind == "tee" else join.angle_deg, "angle_deg")
    what = say(f"items.join_{join.kind}", angle=angle, run=into)
    items = [Item(what=what, section=section, kind="join", diameter_m=from_m, coefficient=found, source=found.source)]
    if abs(to_m - from_m) > 0.01 * from_m:
        items.append(make_change_item(from_m, to_m, section))
    return items
