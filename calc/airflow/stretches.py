"""What the network of ducts is made of: its stretches by the names of their places, and the flows found in them."""

from __future__ import annotations

from dataclasses import dataclass, field

from calc.airflow.chains import Chain
from calc.airflow.items import Item

ROOT = "separator"


def name_pickup(machine: str, pickup: str) -> str:
    """Return the place name of one of a machine's pickups. Names in a project file hold no line breaks."""
    return f"{machine}\n{pickup}"


@dataclass(kw_only=True)
class Stretch:
    """One stretch of duct in the network (a run, a machine's shared part, or a pickup), with its items and chains."""

    name: str
    items: list[Item]
    into: str
    chains: tuple[Chain, ...] = ()
    leak_m2: float = 0.0  # all gates that hang on its upstream joint and beyond, when shut
    seams: float = 0.0  # seams of everything beyond its upstream joint
    own_seams: float = 0.0
    join_items: int = 0  # so many of its last items belong to the join at its end
    children: list[str] = field(default_factory=list)


@dataclass(frozen=True, kw_only=True)
class Flows:
    """A balanced network. flow, suction: by place; suction [Pa] is total pressure below the room at its upstream joint.

    places: open stretches from the hoods down; residual_pa: worst imbalance at any joint
    """

    places: tuple[str, ...]
    flow: dict[str, float]
    suction: dict[str, float]
    blower_flow: float
    root_suction: float
    leak_m3s: float
    gate_leak_m3s: float
    residual_pa: float
    steps: int
