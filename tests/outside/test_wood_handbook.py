"""Screws and boards against the USDA Forest Products Laboratory's Wood Handbook."""

from __future__ import annotations

from itertools import pairwise

import pytest
from scipy.integrate import quad

from calc.project import Panel
from calc.stock import find_stock, share_along
from calc.strength.fasteners import WITHDRAWAL_FACTOR, find_withdrawal
from tests.outside.check import hold_against

pytestmark = pytest.mark.outside

POUND = 4.4482216
SCREWS = "USDA FPL, Wood Handbook (FPL-GTR-282), ch. 8, withdrawal of wood screws 15 700 G2 D L, from memory"


@pytest.mark.parametrize(("gravity", "published"), [(0.70, 1261.652), (0.50, 643.7)])
def test_withdrawal_in_inches(gravity: float, published: float) -> None:
    computed = find_withdrawal(gravity, 0.164 * 25.4, 25.4) / POUND
    assert computed == pytest.approx(published, rel=0.001)


def test_allowed_withdrawal_table() -> None:
    """2850 G2 D is the allowed load per inch: 109 lbf for G 0.45 and D 0.190 in; ultimate over 5.5."""
    computed = find_withdrawal(0.45, 0.190 * 25.4, 25.4) / POUND / (15700 / 2850)
    hold_against(
        "No. 10, G 0.45 [lbf/in]",
        "allowed withdrawal, 109 lbf per inch for G 0.45 and 0.190 in; common practice, no source",
        109,
        computed,
        rel=0.01,
    )
    assert 5.0 <= WITHDRAWAL_FACTOR <= 6.0  # a fifth to a sixth of the ultimate (design practice, from memory)


TABLE = "USDA FPL, Wood Handbook (FPL-GTR-190, 2010), Table 12-1"


@pytest.mark.parametrize(
    ("stock", "low", "high", "strength", "source"),
    [
        ("fir plywood", 6.96e9, 8.55e9, 33.72e6, TABLE),
        ("3/4 MDF", 3.59e9, 3.59e9, 35.85e6, TABLE),
        ("particle board", 2.76e9, 4.14e9, 15.17e6, TABLE),
        ("OSB", 4.41e9, 6.28e9, 21.80e6, TABLE),
    ],
)
def test_stiffness_and_strength_are_the_low_end(
    stock: str, low: float, high: float, strength: float, source: str
) -> None:
    found = find_stock(Panel(stock=stock, thickness_mm=18.0, nominal_mm=18.0))
    hold_against(f"modulus of {stock}, along [GPa]", source, low / 1e9, found.along_pa / 1e9, rel=0.005)
    hold_against(f"strength of {stock}, along [MPa]", source, strength / 1e6, found.breaking_along_pa / 1e6, rel=0.005)
    assert found.along_pa <= high
    assert found.across_pa <= found.along_pa


def test_osb_across_its_strands() -> None:
    source = "USDA FPL, Wood Handbook (FPL-GTR-190, 2010), Table 12-3, perpendicular, low end"
    hold_against(
        "modulus of OSB, across [GPa]",
        source,
        1.92,
        find_stock(Panel(stock="OSB", thickness_mm=18.0, nominal_mm=18.0)).across_pa / 1e9,
        rel=0.005,
    )


BIRCH = "Handbook of Finnish Plywood (Finnish Forest Industries Federation, 2002), birch plywood, mean, from memory"


@pytest.mark.parametrize(
    ("thick_mm", "along", "across"),
    [(6.4, 12737, 4763), (9.2, 11395, 6105), (12.0, 10719, 6781), (14.8, 10316, 7184), (17.6, 10048, 7452),
     (20.4, 9858, 7642)],
)  # fmt: skip
def test_birch_plywood_along_and_across(thick_mm: float, along: float, across: float) -> None:
    """The shape over the thicknesses; the level is taken a tenth lower, at the lower of two published figures."""
    stock = find_stock(Panel(stock="birch plywood", thickness_mm=thick_mm, nominal_mm=thick_mm))
    low = 8.98 / 10.05
    hold_against(f"birch {thick_mm} mm, along [N/mm2]", BIRCH, low * along, stock.along_pa / 1e6, rel=0.001)
    hold_against(f"birch {thick_mm} mm, across [N/mm2]", BIRCH, low * across, stock.across_pa / 1e6, rel=0.001)


def test_crossed_veneers_by_quadrature() -> None:
    """E z2 over the thickness, the veneers' moduli by turns, over that of solid wood."""
    veneers = (1.1, 1.4, 1.4, 2.0, 1.4, 1.4, 1.1)
    ends = [sum(veneers[:count]) - sum(veneers) / 2 for count in range(len(veneers) + 1)]
    for turned, computed in enumerate(share_along(veneers, 0.05)):
        moduli = [0.05 if (number + turned) % 2 else 1.0 for number in range(len(veneers))]
        parts = [
            modulus * quad(lambda z: z * z, low, high)[0]
            for modulus, (low, high) in zip(moduli, pairwise(ends), strict=True)
        ]
        share = 12 * sum(parts) / sum(veneers) ** 3
        way = ("along", "across")[turned]
        hold_against(f"crossed veneers, {way}", "scipy.integrate.quad", share, computed, rel=1e-9)


def test_a_strip_on_edge_bends_as_half_its_veneers() -> None:
    source = "Handbook of Finnish Plywood (2002), birch 18 mm in tension: about 9.1 along and 8.4 across, from memory"
    stock = find_stock(Panel(stock="birch plywood", thickness_mm=17.6, nominal_mm=17.6))
    hold_against("birch on edge [GPa]", source, 8.75 * 8.98 / 10.05, stock.on_edge_pa / 1e9, rel=0.03)


@pytest.mark.parametrize(
    ("stock", "kind"),
    [("pine board", "boards"), ("solid oak", "boards"), ("edge-glued spruce", "boards"), ("solid birch", "boards"),
     ("softwood plywood", "veneers"), ("poplar ply", "veneers"), ("spruce plywood", "veneers"), ("CDX", "veneers"),
     ("hardboard", "Table"), ("particle board", "Table"), ("oriented strand board", "strands"), ("bamboo", "not known"),
     ("honeycomb", "not known")],
)  # fmt: skip
def test_which_stock_a_name_is(stock: str, kind: str) -> None:
    """Boards are weak across, a twentieth of along (Wood Handbook ch. 5, from memory); unknown ones weak both ways."""
    found = find_stock(Panel(stock=stock, thickness_mm=18.0, nominal_mm=18.0))
    assert kind in found.source
    assert (found.across_pa < 0.1 * found.along_pa) == (kind == "boards")
    assert (found.across_pa == found.along_pa) == (kind in ("Table", "not known"))


def test_moduli_of_the_file_come_first() -> None:
    plain = find_stock(Panel(stock="birch plywood", thickness_mm=18.0, nominal_mm=18.0))
    along = find_stock(Panel(stock="birch plywood", thickness_mm=18.0, nominal_mm=18.0, bending_pa=2 * plain.along_pa))
    assert along.across_pa == pytest.approx(2 * plain.across_pa)
    across = find_stock(Panel(stock="birch plywood", thickness_mm=18.0, nominal_mm=18.0, across_pa=3e9))
    assert (across.along_pa, across.across_pa) == (plain.along_pa, 3e9)
    both = find_stock(Panel(stock="MDF", thickness_mm=18.0, nominal_mm=18.0, bending_pa=8e9, across_pa=5e9))
    assert (both.along_pa, both.across_pa) == (8e9, 5e9)
    for stock in (along, across, both):
        assert "project file" in stock.source
        assert stock.poisson**2 * stock.across_pa / stock.along_pa < 1
    hard = find_stock(Panel(stock="solid pine", thickness_mm=18.0, nominal_mm=18.0, bending_pa=5e8, across_pa=3e10))
    assert hard.poisson**2 * hard.across_pa / hard.along_pa < 1


def test_thick_veneers_are_weak_across() -> None:
    source = "plywood of 3 to 5 thick plies: 5 to 30 % of along, from memory"
    for thick in (9.5, 12.0, 18.0):
        stock = find_stock(Panel(stock="fir plywood", thickness_mm=thick, nominal_mm=thick))
        hold_against(
            f"fir plywood {thick} mm, across over along", source, 0.175, stock.across_pa / stock.along_pa, abs=0.125
        )
