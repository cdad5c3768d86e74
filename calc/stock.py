"""What panel stock and other material is like: stiffness and strength along and across its grain, density."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace

from calc.project import Panel


@dataclass(frozen=True, kw_only=True)
class Stock:
    """Moduli [Pa] in bending along and across the grain, in-plane shear modulus [Pa], bending strengths [Pa], kg/m3.

    poisson: stretch along, narrowing across; gravity: specific gravity for the withdrawal equation
    """

    along_pa: float
    across_pa: float
    shear_pa: float
    poisson: float
    breaking_along_pa: float
    breaking_across_pa: float
    density: float
    gravity: float
    source: str

    @property
    def on_edge_pa(self) -> float:
        """Return the modulus [Pa] of a strip bent on edge: all its layers bend alike, about half of them along."""
        return (self.along_pa + self.across_pa) / 2


def _make_even(modulus_pa: float, breaking_pa: float, density: float, gravity: float, source: str) -> Stock:
    """Return a board that is alike both ways: shear modulus E / 2 (1 + nu), nu 0.3."""
    shear = modulus_pa / (2 * (1 + EVEN_POISSON))
    return Stock(
        along_pa=modulus_pa,
        across_pa=modulus_pa,
        shear_pa=shear,
        poisson=EVEN_POISSON,
        breaking_along_pa=breaking_pa,
        breaking_across_pa=breaking_pa,
        density=density,
        gravity=gravity,
        source=source,
    )


EVEN_POISSON = 0.3
PLY_POISSON = 0.02
"""Plywood stretched along its face grain hardly narrows: the crossed veneers hold it (handbooks, from memory)."""

BIRCH_VENEER_MM, BIRCH_FACE_MM = 1.4, 1.1
BIRCH_ALONG_PA = 17.5e9
"""What a birch veneer brings along its grain; with crossed veneers counted as none, out come to the last digit the
moduli of birch plywood in the Handbook of Finnish Plywood (Finnish Forest Industries Federation, 2002; from memory)."""

BIRCH_LOW = 8.98 / 10.05
"""The lower of two published moduli of 18 mm birch plywood over the handbook's mean."""

BIRCH_BREAKING_PA = (39e6, 29e6)
"""Bending strength of birch plywood along and across: the least of the characteristic values of 6.5 to 21 mm in the
Handbook of Finnish Plywood (2002), from memory."""

THICK_VENEER_MM = 3.2
"""Veneers of softwood and faced plywood: an eighth of an inch (common practice, no source)."""

VENEER_ACROSS = 1 / 35
"""A veneer across its grain over along: rule of the US section properties (second-hand)."""

HANDBOOK = "USDA FPL Wood Handbook (FPL-GTR-190, 2010) Table 12-1, low end"
BOARD_PLY_PA = 6.96e9
"""Plywood, lowest of Wood Handbook (FPL-GTR-190, 2010) Table 12-1: along the face grain."""


def count_plies(thickness_mm: float, veneer_mm: float, sanded_mm: float = 0.0) -> int:
    """Return how many veneers make up a sheet: odd, at least 3. sanded_mm: what sanding takes off both faces."""
    return max(3, 2 * round(((thickness_mm + sanded_mm) / veneer_mm - 1) / 2) + 1)


def share_along(veneers_mm: tuple[float, ...], across: float = 0.0) -> tuple[float, float]:
    """Return the bending stiffness of crossed veneers along and across the face grain, over that of solid wood.

    veneers_mm: from face to face, the first along; across: a veneer's modulus across its grain over along. Parallel
    axis theorem (beam theory).
    """
    whole = sum(veneers_mm)
    place, along, crossed = -whole / 2, 0.0, 0.0
    for number, thick in enumerate(veneers_mm):
        part = ((place + thick) ** 3 - place**3) / 3
        along += part * (across if number % 2 else 1.0)
        crossed += part * (1.0 if number % 2 else across)
        place += thick
    solid = whole**3 / 12
    return along / solid, crossed / solid


def make_birch(thickness_mm: float) -> Stock:
    """Return thin-veneer birch plywood of a measured thickness."""
    count = count_plies(thickness_mm, BIRCH_VENEER_MM, 2 * (BIRCH_VENEER_MM - BIRCH_FACE_MM))
    inner = (BIRCH_VENEER_MM,) * (count - 2)
    along, across = share_along((BIRCH_FACE_MM, *inner, BIRCH_FACE_MM))
    modulus = BIRCH_LOW * BIRCH_ALONG_PA
    return Stock(
        along_pa=along * modulus,
        across_pa=across * modulus,
        shear_pa=0.62e9,
        poisson=PLY_POISSON,
        breaking_along_pa=BIRCH_BREAKING_PA[0],
        breaking_across_pa=BIRCH_BREAKING_PA[1],
        density=680.0,
        gravity=0.55,
        source="Handbook of Finnish Plywood (2002), birch: stiffness less a tenth for its spread, least strength; "
        "from memory",
    )


def make_thick_veneer(thickness_mm: float) -> Stock:
    """Return plywood of thick veneers, softwood or faced: the handbook's one number is along its face grain."""
    count = count_plies(thickness_mm, THICK_VENEER_MM)
    along, across = share_along((thickness_mm / count,) * count, VENEER_ACROSS)
    return Stock(
        along_pa=BOARD_PLY_PA,
        across_pa=BOARD_PLY_PA * across / along,
        shear_pa=0.45e9,
        poisson=PLY_POISSON,
        breaking_along_pa=33.7e6,
        breaking_across_pa=33.7e6 * across / along,
        density=560.0,
        gravity=0.45,
        source=f"{HANDBOOK}, along; across: crossed veneers of 1/8 in; twisting stiffness from memory",
    )


def _keep(stock: Stock) -> Callable[[float], Stock]:
    return lambda _: stock


_MDF = _make_even(3.59e9, 35.85e6, 750.0, 0.50, HANDBOOK)
_PARTICLE = _make_even(2.76e9, 15.17e6, 720.0, 0.45, HANDBOOK)
_OSB = Stock(
    along_pa=4.41e9,
    across_pa=1.92e9,
    shear_pa=1.1e9,
    poisson=0.2,
    breaking_along_pa=21.8e6,
    breaking_across_pa=12e6,
    density=640.0,
    gravity=0.45,
    source=f"{HANDBOOK}, along the strands; across: FPL-GTR-190 Table 12-3; twisting stiffness from memory",
)
_SOLID = Stock(
    along_pa=7.0e9,
    across_pa=0.35e9,
    shear_pa=0.4e9,
    poisson=0.4,
    breaking_along_pa=40e6,
    breaking_across_pa=2e6,
    density=450.0,
    gravity=0.35,
    source="boards of light softwood, Wood Handbook (FPL-GTR-190, 2010) ch. 5, across a twentieth of along; "
    "from memory",
)
_STOCKS: tuple[tuple[tuple[str, ...], Callable[[float], Stock]], ...] = (
    (("mdf", "fibreboard", "fiberboard", "hardboard"), _keep(_MDF)),
    (("osb", "strand"), _keep(_OSB)),
    (("particle", "chipboard", "melamine"), _keep(_PARTICLE)),
    (("solid", "glued-up", "edge-glued", "lumber", "timber"), _keep(_SOLID)),
    (("birch", "beech"), make_birch),
    (("ply", "lauan", "luan", "cdx"), make_thick_veneer),
    (("pine", "spruce", "fir", "cedar", "poplar", "softwood", "hardwood"), _keep(_SOLID)),
)
_UNKNOWN = _make_even(
    1.92e9, 12e6, 700.0, 0.42, "stock not known by name: the weakest board of the tables, stated assumption"
)

LINING_DENSITY = {"carpet": 250.0, "foam": 35.0, "wool": 60.0, "felt": 200.0}
_LINING_UNKNOWN = 250.0


def find_stock(panel: Panel) -> Stock:
    """Return what is known of a panel stock by its name and thickness; the project file's own figures come first.

    A modulus in the file is along the grain; the other stiffnesses keep their share of it, but for one across the
    grain that stands in the file too.
    """
    name = panel.stock.lower()
    make = next((found for words, found in _STOCKS if any(word in name for word in words)), _keep(_UNKNOWN))
    stock = make(panel.thickness_mm)
    if panel.density is not None:
        stock = replace(stock, density=panel.density)
    if panel.bending_pa is not None:
        share = panel.bending_pa / stock.along_pa
        source = "project file, along the grain; across and twisting in the usual share"
        stock = replace(
            stock,
            along_pa=panel.bending_pa,
            across_pa=share * stock.across_pa,
            shear_pa=share * stock.shear_pa,
            source=source,
        )
    if panel.across_pa is not None:
        along = "project file" if panel.bending_pa is not None else stock.source
        # a plate narrows no more across than its stiffness there allows: nu^2 E across / E along stays below 1
        poisson = min(stock.poisson, 0.5 * (stock.along_pa / panel.across_pa) ** 0.5)
        stock = replace(
            stock, across_pa=panel.across_pa, poisson=poisson, source=f"project file, across the grain; along: {along}"
        )
    return stock


def find_lining_density(stock: str) -> float:
    """Return a lining's density [kg/m3] by its name (common practice, no source)."""
    return next((d for word, d in LINING_DENSITY.items() if word in stock.lower()), _LINING_UNKNOWN)
