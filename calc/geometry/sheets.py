"""Parts laid out on sheets by straight cuts from edge to edge, as a table saw or a track saw makes them."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True)
class Blank:
    """A part to be cut from a sheet: width_mm runs along the sheet's length unless it is turned."""

    number: str
    name: str
    width_mm: float
    height_mm: float
    may_turn: bool
    grain_across: bool = False  # grain runs along its height: it lies turned on the sheet


@dataclass(frozen=True)
class Placed:
    """A blank on a sheet; x_mm along the sheet's length, y_mm across it, from the lower left corner."""

    blank: Blank
    x_mm: float
    y_mm: float
    along_mm: float
    across_mm: float
    turned: bool


@dataclass(frozen=True)
class Offcut:
    x_mm: float
    y_mm: float
    along_mm: float
    across_mm: float


@dataclass(frozen=True)
class Cut:
    """One straight cut, in order. ``rip`` runs along the sheet's length, ``crosscut`` across it."""

    number: int
    kind: str
    at_mm: float
    start_mm: float
    end_mm: float


@dataclass(frozen=True)
class SheetLayout:
    """One sheet. from_hand: an offcut already in the shop; used: share of its area that becomes parts."""

    number: int
    material: str
    length_mm: float
    width_mm: float
    from_hand: bool
    placed: tuple[Placed, ...]
    cuts: tuple[Cut, ...]
    offcuts: tuple[Offcut, ...]
    used: float


@dataclass(frozen=True)
class SheetPlan:
    """All sheets of one material. to_buy: whole sheets; too_large: blanks that fit no sheet."""

    material: str
    thickness_mm: float
    kerf_mm: float
    layouts: tuple[SheetLayout, ...]
    to_buy: int
    too_large: tuple[Blank, ...]
