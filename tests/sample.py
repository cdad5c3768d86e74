"""An invented project made in Python, for tests that want one without reading a file."""

from __future__ import annotations

import datetime

from calc import project as p

CURVE = ((0, 11.6), (400, 11.4), (800, 10.0), (1200, 6.6), (1500, 2.4))  # cfm, inH2O
INCH, FOOT, CFM, INH2O, POUND = 25.4, 0.3048, 0.00047194744, 249.0889, 0.45359237


def make_pipe(inches: float, feet: float) -> p.Pipe:
    return p.Pipe(inches * INCH / 1000, feet * FOOT)


def make_machine(name: str, on: str, cfm: float, hose_in: float, hose_ft: float, gate_in: float = 6.0) -> p.Machine:
    d = hose_in * INCH / 1000
    return p.Machine(
        name,
        on,
        cfm * CFM,
        (p.Pickup("port", p.Hood("plain", d)),),
        (p.Hose(d, hose_ft * FOOT),),
        p.Gate(gate_in * INCH / 1000, 2e-5),
    )


def make_project() -> p.Project:
    """Return the boatshed: five machines, a trunk with two branches, two filters, inspection and gauge ports."""
    d6, d8 = 6 * INCH / 1000, 8 * INCH / 1000
    return p.Project(
        title=p.Title("Tidewater boatshed collector (invented)", "B", datetime.date(2026, 3, 14), "build committee"),
        display=p.Display("inch", p.Paper("letter", 215.9, 279.4)),
        shop=p.Shop(12.2, 292.04, 0.55, 100 * INCH, 36 * INCH, 80 * INCH, 24 * FOOT, 38 * FOOT),
        dust=p.Dust(6 * POUND / 3600, 3.0, 20.32, 17.78, ("hardwood", "plywood")),
        blower=p.Blower(
            tuple(p.CurvePoint(q * CFM, h * INH2O) for q, h in CURVE),
            "static", d8, 3 * 745.7, sound_db=86.0, sound_at_m=5 * FOOT,
        ),
        separator=p.Separator("cyclone", 0.985, 2.0 * INH2O, 800 * CFM),
        runs=(
            p.Run("trunk", "separator", (make_pipe(6, 18), p.Elbow(d6, count=2)), p.Join("straight", 0.0)),
            p.Run("north", "trunk", (make_pipe(6, 12),)),
            p.Run("south", "trunk", (make_pipe(6, 22), p.Elbow(d6)), p.Join("straight", 0.0)),
        ),
        machines=(
            make_machine("planer", "north", 600, 5, 5),
            make_machine("table saw", "north", 450, 4, 6),
            make_machine("band saw", "south", 450, 4, 5),
            make_machine("jointer", "south", 440, 5, 4),
            make_machine("drum sander", "south", 550, 5, 6),
        ),
        filters=(
            p.Filter(
                2, 210 * 0.09290304, 12.7 * INCH, 9.4 * INCH, 36 * INCH, 16 * POUND, 22 * 0.00508, 0.5 * INH2O,
                cake_resistance=3e4,
            ),
        ),
        box=p.FilterBox(
            46 * INCH, 19 * INCH, 16 * INCH, p.Panel("birch plywood", 18.0, 18.0), p.Inlet("left", 8 * INCH)
        ),
        lining=p.Lining("carpet", 0.5 * INCH, ("top", "back", "left", "right")),
        ports=(
            p.Port("filter A", "filter", "bottom", p.Pail((300.83, 301.75, 301.63))),
            p.Port("filter B", "filter", "bottom", p.Pail((301.0, 302.2, 301.6))),
            p.Port("inspection", "inspection", "front", p.Pail(around_mm=37.3125 * INCH)),
            p.Port("gauge", "gauge", "front", p.Pail((301.24,))),
        ),
        gauge=p.Gauge(),
        delivery=(make_pipe(8, 6), p.Elbow(d8)),
        prices={"birch plywood": 78.0},
    )  # fmt: skip
