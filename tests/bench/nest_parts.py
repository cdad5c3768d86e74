"""Two hundred random part lists nested: sheets used against the area bound and against the best of several heuristics.

Run: python tests/bench/nest_parts.py. The other heuristics are plain and independent of the one under test: strips
filled by first fit (several orders) and a guillotine packer by best short side. Prints the share of lists where the
sheets used equal the area bound or are no more than the best of them, and the time a list takes.
"""

from __future__ import annotations

import math
import random
import sys
import time
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parents[2]))

from calc.cutting.sheets import Blank, plan_sheets
from calc.project import Sheet

SHEET, KERF = Sheet(2440.0, 1220.0), 3.2
Size = tuple[float, float]


def make_list(chance: random.Random) -> tuple[list[Size], bool]:
    """Return a random part list of box-like sizes, and whether its parts may be turned."""
    count = chance.randint(4, 24)
    kind = chance.choice(("panels", "strips", "mixed"))
    sizes = []
    for _ in range(count):
        if kind == "strips" or (kind == "mixed" and chance.random() < 0.4):
            sizes.append((chance.uniform(300, 2000), chance.uniform(40, 150)))
        else:
            sizes.append((chance.uniform(250, 1250), chance.uniform(200, 650)))
    return [(round(w, 1), round(h, 1)) for w, h in sizes], chance.random() < 0.5


def bound(sizes: list[Size]) -> int:
    """Return the least number of sheets by area."""
    return math.ceil(sum(w * h for w, h in sizes) / (SHEET.length_mm * SHEET.width_mm) - 1e-12)


def fill_strips(sizes: list[Size], by: int) -> int:
    """Return sheets used by strips along the sheet, first fit: parts sorted by height (0), area (1) or width (2)."""
    order = sorted(sizes, key=lambda s: (s[1], s[0] * s[1], s[0])[by], reverse=True)
    sheets: list[list[list[float]]] = []  # sheet -> strips [height, used along, y]
    for w, h in order:
        for strips in sheets:
            strip = next((s for s in strips if h <= s[0] and s[1] + w <= SHEET.length_mm), None)
            if strip:
                strip[1] += w + KERF
                break
            top = strips[-1][2] + strips[-1][0] + KERF
            if top + h <= SHEET.width_mm:
                strips.append([h, w + KERF, top])
                break
        else:
            sheets.append([[h, w + KERF, 0.0]])
    return len(sheets)


def fill_free(sizes: list[Size], turn: bool) -> int:
    """Return sheets used by a guillotine packer: largest first, best short side, split along the shorter rest."""
    free: list[tuple[float, float]] = []
    sheets = 0
    for size in sorted(sizes, key=lambda s: -s[0] * s[1]):
        ways = [size, size[::-1]] if turn else [size]
        fits = [(min(a - w, b - h), (a, b), (w, h)) for a, b in free for w, h in ways if w <= a and h <= b]
        if not fits:
            sheets += 1
            free.append((SHEET.length_mm, SHEET.width_mm))
            a, b = free[-1]
            fits = [(min(a - w, b - h), (a, b), (w, h)) for w, h in ways if w <= a and h <= b]
        _, (a, b), (w, h) = min(fits)
        free.remove((a, b))
        right, above = a - w - KERF, b - h - KERF
        rest = [(right, h), (a, above)] if right < above else [(right, b), (w, above)]
        free += [r for r in rest if min(r) > 0]
    return sheets


def main() -> int:
    """Nest 200 lists and print how they compare."""
    chance = random.Random(2026)
    at_bound = as_good = better = 0
    slowest = 0.0
    start = time.perf_counter()
    for _ in range(200):
        sizes, turn = make_list(chance)
        blanks = tuple(
            Blank(number=str(i), name="part", width_mm=w, height_mm=h, may_turn=turn) for i, (w, h) in enumerate(sizes)
        )
        began = time.perf_counter()
        used = plan_sheets(blanks, "board", 18.0, SHEET, KERF).to_buy
        slowest = max(slowest, time.perf_counter() - began)
        best = min(*(fill_strips(sizes, by) for by in range(3)), fill_free(sizes, turn))
        at_bound += used == bound(sizes)
        as_good += used == bound(sizes) or used <= best
        better += used < best
    took = time.perf_counter() - start
    print("200 random lists of 4 to 24 parts on 2440 x 1220 mm, kerf 3.2 mm")
    print(f"  sheets equal the area bound:               {at_bound / 2:5.1f} %")
    print(f"  equal the bound or the best of four others: {as_good / 2:5.1f} %  (wanted: 95 %)")
    print(f"  fewer sheets than the best of four others:  {better / 2:5.1f} %")
    print(f"  time: {took / 200 * 1000:.0f} ms a list, slowest {slowest * 1000:.0f} ms")
    return 0 if as_good >= 190 else 1


if __name__ == "__main__":
    raise SystemExit(main())
