"""Absorption: what share of the sound that meets a lining or a bare panel does not come back, by octave band."""

from __future__ import annotations

from collections.abc import Mapping

from calc.finding import Band

OCTAVES = (125, 250, 500, 1000, 2000, 4000)

TABLES: dict[str, tuple[float, ...]] = {
    # general table of absorption, as repeated by public pages
    "heavy carpet on a hard ground": (0.02, 0.06, 0.14, 0.37, 0.60, 0.65),
    "carpet on felt or foam rubber": (0.08, 0.24, 0.57, 0.69, 0.71, 0.73),
    "carpet, kind not told": (0.01, 0.02, 0.06, 0.15, 0.25, 0.45),
    "polyurethane foam, 1 in": (0.13, 0.22, 0.68, 1.00, 0.92, 0.97),
    "polyurethane foam, 1/2 in": (0.09, 0.11, 0.22, 0.60, 0.88, 0.94),
    # Barron, Industrial Noise Control and Acoustics, 2003, Appendix D
    "open-cell foam, 2 in": (0.16, 0.25, 0.57, 0.82, 0.86, 0.86),
    "plywood 3/16 in, 2 in air": (0.38, 0.24, 0.17, 0.10, 0.08, 0.05),
    # Vorlaender, Auralization, 2008, as in the tables of pyroomacoustics
    "wood 16 mm on studs": (0.18, 0.12, 0.10, 0.09, 0.08, 0.07),
    "thin plywood panelling": (0.42, 0.21, 0.10, 0.08, 0.06, 0.06),
}
"""Random-incidence absorption from 125 Hz to 4 kHz."""

KINDS: dict[str, tuple[str, ...]] = {
    "carpet": ("heavy carpet on a hard ground", "carpet on felt or foam rubber", "carpet, kind not told"),
    "carpet on felt": ("carpet on felt or foam rubber", "heavy carpet on a hard ground"),
    "foam": ("polyurethane foam, 1 in", "open-cell foam, 2 in"),
    "thin foam": ("polyurethane foam, 1/2 in", "polyurethane foam, 1 in"),
    "board": ("wood 16 mm on studs", "thin plywood panelling", "plywood 3/16 in, 2 in air"),
}
"""Tables by kind of lining: the first is taken, from the least to the greatest of all of them is the band."""

FOAMS = frozenset({"foam", "thin foam"})
THIN_FOAM_MM = 20.0


def find_kind(stock: str, thickness_mm: float) -> str:
    """Return which kind of lining a stock is by its name; what nobody knows is a board, which takes little."""
    name = stock.lower()
    if "foam" in name:
        return "thin foam" if thickness_mm < THIN_FOAM_MM else "foam"
    if any(word in name for word in ("felt", "pad", "underlay")):
        return "carpet on felt"
    return "carpet" if "carpet" in name else "board"


def find_absorption(kind: str, hz: int, given: Mapping[int, float] | None = None) -> Band:
    """Return the absorption of a kind in an octave band; what the file gives of a band stands without a band.

    A reverberation room can measure above 1, which no wall absorbs: it counts as 1.
    """
    if given and hz in given:
        told = min(given[hz], 1.0)
        return Band(told, told, told)
    place = OCTAVES.index(hz)
    row = [TABLES[name][place] for name in KINDS[kind]]
    return Band(min(row), row[0], max(row))
