"""The project with its box settled: nothing that is drilled, hung or cut is left open.

``calc.box.box.settle_box`` alone makes these. Each is the project's own type with plain numbers where that may leave
them open, so that what reads a project reads these too, and the type checker refuses an open project wherever a place
or a size of the box is needed. ``field()`` takes the open type's default away: none of these can be left out.
"""

from __future__ import annotations

from dataclasses import dataclass, field, fields
from typing import Any, overload

from calc.project import Boxed, FilterBox, Inlet, Port, Project


@dataclass(frozen=True, kw_only=True)
class PlacedInlet(Inlet):
    """An inlet whose middle has a place [mm] on its face."""

    across_mm: float = field()
    up_mm: float = field()


@dataclass(frozen=True, kw_only=True)
class PlacedPort(Port):
    """A port whose middle has a place [mm] on its face."""

    across_mm: float = field()
    up_mm: float = field()


@dataclass(frozen=True, kw_only=True)
class SizedBox(FilterBox):
    """A box with its inside sizes [mm], the height of its underside [mm] above the floor, and its inlet placed."""

    width_mm: float
    depth_mm: float
    height_mm: float
    inlet: PlacedInlet
    underside_mm: float = field()


@dataclass(frozen=True, kw_only=True)
class Settled(Boxed):
    """A box that is sized and whose ports all have their places, with or without air."""

    box: SizedBox = field()
    ports: tuple[PlacedPort, ...] = field()


@dataclass(frozen=True, kw_only=True)
class SettledShop(Project, Settled):
    """The same of a whole shop."""

    box: SizedBox = field()
    ports: tuple[PlacedPort, ...] = field()


def place_inlet(inlet: Inlet, across_mm: float, up_mm: float) -> PlacedInlet:
    """Return the inlet at a place [mm] of its face."""
    return PlacedInlet(**_take_over(inlet, across_mm=across_mm, up_mm=up_mm))


def place_port(port: Port, across_mm: float, up_mm: float) -> PlacedPort:
    """Return the port at a place [mm] of its face."""
    return PlacedPort(**_take_over(port, across_mm=across_mm, up_mm=up_mm))


def size_box(
    box: FilterBox, width_mm: float, depth_mm: float, height_mm: float, underside_mm: float, inlet: PlacedInlet
) -> SizedBox:
    """Return the box with its sizes, the height [mm] of its underside and its inlet's place."""
    sizes = {"width_mm": width_mm, "depth_mm": depth_mm, "height_mm": height_mm, "underside_mm": underside_mm}
    return SizedBox(**_take_over(box, inlet=inlet, **sizes))


@overload
def settle_project(project: Project, box: SizedBox, ports: tuple[PlacedPort, ...]) -> SettledShop: ...


@overload
def settle_project(project: Boxed, box: SizedBox, ports: tuple[PlacedPort, ...]) -> Settled: ...


def settle_project(project: Boxed, box: SizedBox, ports: tuple[PlacedPort, ...]) -> Settled:
    """Return the project with its sized box and its placed ports."""
    kind = SettledShop if isinstance(project, Project) else Settled
    return kind(**_take_over(project, box=box, ports=ports))


def _take_over(whole: Any, **settled: Any) -> dict[str, Any]:
    return {each.name: getattr(whole, each.name) for each in fields(whole)} | settled
