"""Makes up project files that can be read: shops of one to four machines, boxes hung in all ways, in both units.

All is invented. A seed always makes the same file.
"""

from __future__ import annotations

import random

MACHINES = ("planer", "table saw", "band saw", "jointer", "drum sander", "lathe", "router table")


def make_project(pick: random.Random) -> str:
    """Return the text of a project file."""
    inch = pick.random() < 0.5
    hung = pick.choice(("wall", "wall", "ceiling", "cart"))
    outdoors = hung != "cart" and pick.random() < 0.35
    separator = (
        "none"
        if pick.random() < 0.3
        else f"{{kind: cyclone, captures: {pick.randint(90, 99)} %, loss: 450 Pa at 1200 m3/h}}"
    )
    filters = 1 if hung == "cart" else pick.choice((1, 1, 2, 2, 3))
    lines = [
        "packet: 1",
        f"project: {{title: Made-up shop (invented), revision: {pick.choice('ABCD')}, "
        f"date: 2026-05-{pick.randint(1, 28):02d}}}",
        make_display(pick, inch),
        *make_shop(pick, outdoors, hung),
        f"dust: {{made: {pick.uniform(0.4, 3):.2f} kg/h, hours_a_day: {pick.randint(1, 6)} h}}",
        make_blower(pick),
        f"separator: {separator}",
        *make_ducts(pick),
        f"delivery: [{{pipe: 150 mm, length: {pick.uniform(0.5, 3):.1f} m}}]",
        *make_machines(pick),
        *make_filters(pick, filters),
        *make_box(pick, hung, filters),
        *make_ports(pick, filters),
        make_gauge(pick, hung),
        make_methods(pick, hung),
    ]
    if pick.random() < 0.5:
        lines += [
            "money: EUR",
            f"prices: {{birch plywood: {pick.uniform(50, 99):.2f}, pail: 5.25, screw lid: 9.10, jar: 1.75}}",
        ]
    return "\n".join(lines) + "\n"


def make_display(pick: random.Random, inch: bool) -> str:
    paper = pick.choice(("letter", "letter", "legal", "a4", "a4", "a3", "tabloid"))
    if inch:
        return f"display: {{system: inch, fraction: 1/{pick.choice((8, 16, 32, 64))}, paper: {paper}}}"
    return f"display: {{system: metric, paper: {paper}}}"


def make_shop(pick: random.Random, outdoors: bool, hung: str) -> list[str]:
    ceiling = pick.randint(2900, 3900)
    lines = [
        f"shop: {{altitude: {pick.choice((0, 200, 1600))} m, temperature: {pick.randint(8, 28)} °C, "
        f"ceiling: {ceiling} mm, room: 8 x 12 m"
    ]
    lines[0] += ", doorway: 1200 x 2100 mm"
    if outdoors:
        kind = pick.choice(("natural draught", "none", "solid fuel", "unknown", "natural draught"))
        lines[0] += (
            f", clean_air: outdoors, flued_appliance: {kind}"
            f", make_up_opening: {{size: {pick.randint(500, 900)} x 800 mm}}"
        )
    lines[0] += "}"
    return lines


def make_blower(pick: random.Random) -> str:
    high = pick.randint(2400, 4000)
    free = pick.randint(1700, 2600)
    points = ((0.0, 1.0), (0.3, 0.96), (0.6, 0.78), (0.85, 0.42), (1.0, 0.05))
    curve = ", ".join(f"[{free * flow:.0f} m3/h, {high * share:.0f} Pa]" for flow, share in points)
    sound = f", sound: {pick.randint(78, 90)} dB at 1.5 m" if pick.random() < 0.7 else ""
    return f"blower: {{curve_is: static, outlet: 150 mm, power: 2.2 kW{sound}, curve: [{curve}]}}"


def make_ducts(pick: random.Random) -> list[str]:
    return [
        "ducts:",
        f"  main: {{into: separator, join: straight, "
        f"pieces: [{{pipe: 150 mm, length: {pick.uniform(2, 7):.1f} m}}, {{elbow: 150 mm}}]}}",
        f"  far: {{into: main, "
        f"pieces: [{{pipe: 125 mm, length: {pick.uniform(1, 4):.1f} m}}, {{taper: [125 mm, 150 mm]}}]}}",
    ]


def make_machines(pick: random.Random) -> list[str]:
    lines = ["machines:"]
    for n, name in enumerate(pick.sample(MACHINES, pick.randint(1, 4))):
        across = 125 if n % 2 else 150
        lines.append(
            f"  - {{name: {name}, on: {'far' if n % 2 else 'main'}, needs: {pick.randint(400, 900)} m3/h, "
            f"hood: {{kind: {pick.choice(('plain', 'flanged'))}, diameter: {across} mm}}, "
            f"pieces: [{{hose: {across} mm, length: {pick.uniform(0.6, 2):.1f} m}}], gate: {across} mm}}"
        )
    if len(lines) == 2:  # a run without a machine is refused
        lines.append(
            "  - {name: floor sweep, on: far, needs: 400 m3/h, hood: plain, "
            "pieces: [{hose: 125 mm, length: 1 m}], gate: 125 mm}"
        )
    return lines


def make_filters(pick: random.Random, many: int) -> list[str]:
    loss = pick.choice(("permeability: 22 cfm/ft2 at 0.5 inH2O", "loss: 60 Pa at 800 m3/h"))
    cakes = ", cake_resistance: 3000000 1/s" if many == 3 else ""  # so much that marks lie far apart: two gauges
    return [
        f"filters: {{count: {many}, media_area: {pick.randint(14, 34)} m2, {loss}, "
        f"outside: {pick.randint(318, 328)} mm, "
        f"bore: 240 mm, height: {pick.choice((500, 600, 660, 900))} mm, weight: {pick.uniform(4, 9):.1f} kg{cakes}}}"
    ]


def make_box(pick: random.Random, hung: str, filters: int) -> list[str]:
    thick = pick.choice((12, 15, 18, 18, 21))
    joint = pick.choice(("butt", "rabbet", "dado", "cleat"))
    lines = ["filter_box:"]
    if pick.random() < 0.6:
        width = 640 * filters + pick.randint(20, 180) + (120 if filters == 1 else 0)
        lines.append(
            f"  inside: {{width: {width} mm, depth: {pick.randint(460, 560)} mm, height: {pick.randint(380, 460)} mm}}"
        )
    lines += [
        f"  panel: {{stock: birch plywood, thickness: {thick} mm, sheet: 2440 x 1220 mm}}",
        f"  inlet: {{face: {pick.choice(('left', 'right', 'left', 'top'))}, diameter: 150 mm}}",
        f"  hung: {hung}",
        f"  joint: {joint}",
    ]
    if hung == "cart":
        lines += ["  underside: 1400 mm", "  wheelbase: 800 mm", "  cart_weight: 35 kg"]
    lining = pick.choice(("none", "carpet", "foam"))
    if lining == "none":
        return [*lines, "lining: none"]
    faces = pick.choice(("[top, back]", "[top, back, left, right]", "[top]"))
    return [*lines, f"lining: {{stock: {lining}, thickness: {pick.choice((12, 20, 25))} mm, faces: {faces}}}"]


def make_ports(pick: random.Random, filters: int) -> list[str]:
    lines = ["ports:"]
    names = [f"filter {'ABCD'[n]}" for n in range(filters)]
    for name, kind, face in (
        *((name, "filter", "bottom") for name in names),
        ("inspection", "inspection", "front"),
        ("gauge", "gauge", "front"),
    ):
        if kind == "inspection" and filters == 1 and pick.random() < 0.3:
            continue
        base = pick.uniform(296, 306)
        pail = pick.choice(
            (
                f"{{across: [{base:.1f} mm, {base + pick.uniform(0, 2):.1f} mm]}}",
                f"{{around: {base * 3.14159:.0f} mm}}",
                f"{{across: [{base:.1f} mm], top: 303 mm, bottom: 266 mm, height: 365 mm}}",
            )
        )
        lines.append(f"  - {{name: {name}, kind: {kind}, face: {face}, pail: {pail}}}")
    return lines


def make_gauge(pick: random.Random, hung: str) -> str:
    kind = pick.choice(("u-tube", "u-tube one leg", "inclined", "well"))
    fluid = pick.choice(("water", "dyed water", "glycol mix", "light oil"))
    slope = (
        f", slope: 1:{pick.choice((5, 8, 10))}"
        if kind == "inclined"
        else ", well_bore: 60 mm"
        if kind == "well"
        else ""
    )
    mount = ", mount: lid" if hung == "cart" and kind == "u-tube" else ""
    when = pick.choice(("{flow_drops: 12 %}", "{flow_drops: 20 %}", "first need missed"))
    return f"gauge: {{kind: {kind}, fluid: {fluid}{slope}{mount}, clean_when: {when}}}"


def make_methods(pick: random.Random, hung: str) -> str:
    holes = pick.choice(("jigsaw", "router", "trammel", "cnc"))
    helper = "no" if hung == "cart" and pick.random() < 0.5 else pick.choice(("yes", "yes", "no"))
    return (
        f"shop_methods: {{holes: {holes}, lids: {pick.choice(('hand', 'hand', 'cnc'))}, "
        f"panels: {pick.choice(('track saw', 'table saw', 'circular saw'))}, "
        f"seal: {pick.choice(('sealant', 'gasket'))}, helper: {helper}}}"
    )
