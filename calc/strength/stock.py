"""What panel stock and other material is like: stiffness, density, how it holds a screw."""

from __future__ import annotations

from dataclasses import dataclass

from calc.project import Panel


@dataclass(frozen=True)
class Stock:
    """bending_pa: modulus, lower end of the published range; breaking_pa: bending strength; density in kg/m3.

    gravity: specific gravity for the withdrawal equation
    """

    bending_pa: float
    breaking_pa: float
    density: float
    gravity: float
    source: str


# lower ends of the ranges in USDA Forest Products Laboratory, Wood Handbook, ch. 12, Tables 12-1 and 12-3; the OSB row
# was read, the others are from memory
_HANDBOOK = "Wood Handbook (FPL-GTR-282, 2021) ch. 12, lower end of the range, from memory"
_STOCKS: tuple[tuple[tuple[str, ...], Stock], ...] = (
    (("mdf", "fibreboard", "fiberboard"), Stock(3.59e9, 24e6, 750.0, 0.50, _HANDBOOK)),
    (("osb", "strand"), Stock(1.92e9, 12e6, 640.0, 0.45, "Wood Handbook (FPL-GTR-190) Table 12-3, across the strands")),
    (("particle", "chipboard", "melamine"), Stock(2.76e9, 15e6, 720.0, 0.45, _HANDBOOK)),
    (("birch", "hardwood", "beech"), Stock(6.96e9, 33.7e6, 680.0, 0.55, _HANDBOOK)),
    (("ply",), Stock(6.96e9, 33.7e6, 560.0, 0.45, _HANDBOOK)),
)
_UNKNOWN = Stock(
    1.92e9, 12e6, 700.0, 0.42, "stock not known by name: the weakest board of the tables, stated assumption"
)

LINING_DENSITY = {"carpet": 250.0, "foam": 35.0, "wool": 60.0, "felt": 200.0}
_LINING_UNKNOWN = 250.0


def find_stock(panel: Panel) -> Stock:
    """Return what is known of a panel stock by its name; the project's own modulus and density come first."""
    name = panel.stock.lower()
    stock = next((found for words, found in _STOCKS if any(word in name for word in words)), _UNKNOWN)
    modulus = panel.bending_pa if panel.bending_pa is not None else stock.bending_pa
    density = panel.density if panel.density is not None else stock.density
    source = "project file" if panel.bending_pa is not None else stock.source
    return Stock(modulus, stock.breaking_pa, density, stock.gravity, source)


def find_lining_density(stock: str) -> float:
    """Return a lining's density [kg/m3] by its name (common practice, no source)."""
    return next((d for word, d in LINING_DENSITY.items() if word in stock.lower()), _LINING_UNKNOWN)
