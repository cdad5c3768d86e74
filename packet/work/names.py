"""All names that a file of words may use: those of a project's facts, and what stands behind the dot of each."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import fields, is_dataclass
from typing import Any

from packet.work.ducts import MachineFacts, PickupFacts, PieceFacts, RunFacts
from packet.work.facts import Options, PanelSides, PartFacts, PortFacts
from packet.work.lift import LiftFacts
from packet.work.paper import BoardFacts, PaperFacts
from packet.work.screws import ScrewFacts

SHAPES: Mapping[str, type] = {
    "options": Options, "ports": PortFacts, "runs": RunFacts, "delivery": PieceFacts, "flexible": PieceFacts,
    "machines": MachineFacts, "worst": MachineFacts, "lift": LiftFacts, "paper": PaperFacts,
    "gauge_boards": BoardFacts, "panels": PartFacts, "lining_pieces": PartFacts, "jointed": PartFacts,
    "holed": PanelSides, "cleat_screws": ScrewFacts, "rail_screw_sizes": ScrewFacts,
}  # fmt: skip
"""What stands behind the dot of a name, or of each in a list of that name."""

INNER: Mapping[str, type] = {"pieces": PieceFacts, "pickups": PickupFacts}
"""The same for lists inside those."""


def list_inner(shape: type) -> tuple[str, ...]:
    """Return the names behind the dot."""
    return tuple(field.name for field in fields(shape))


def list_names(facts: Mapping[str, Any]) -> Iterator[tuple[str, Any]]:
    """Return each name with what it is in this project: plain ones, calls, then ``ports[0].hole`` and the like.

    None where this project has none of that.
    """
    plain = sorted(name for name in facts if name not in SHAPES)
    yield from ((name, facts[name]) for name in plain if not callable(facts[name]))
    yield from ((f"{name}(mm)", facts[name](75.0)) for name in plain if callable(facts[name]))
    for name, shape in SHAPES.items():
        yield from _list_inside(name, shape, facts[name])


def _list_inside(name: str, shape: type, value: Any) -> Iterator[tuple[str, Any]]:
    many = isinstance(value, tuple)
    first = (value[0] if value else None) if many else value
    for inner in list_inner(shape):
        inside = getattr(first, inner) if is_dataclass(first) else None
        yield f"{name}[0].{inner}" if many else f"{name}.{inner}", inside
        if inner == "pickups" and name == "machines":
            pickups = next((each.pickups for each in value if each.pickups), ())
            yield from _list_inside(f"{name}[0].pickups", PickupFacts, pickups)
