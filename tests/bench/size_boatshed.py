"""Print the processor time of sizing the boatshed, choices and remedies included, and what it imports.

Run: python -m tests.bench.size_boatshed
"""

from __future__ import annotations

import sys
import time

from calc.box.box import settle_box
from calc.sizing.sizing import size_project
from tests.shop import make_project


def main() -> None:
    project = settle_box(make_project())
    times = []
    for _ in range(10):
        start = time.process_time()
        size_project(project)
        times.append(time.process_time() - start)
    print(f"boatshed, first run {times[0]:.3f} s, best of ten {min(times):.3f} s of processor time (limit 0.25 s)")
    heavy = [name for name in ("scipy", "numpy", "pint", "reportlab") if name in sys.modules]
    print(f"heavy imports on the way: {', '.join(heavy) or 'none'}")


if __name__ == "__main__":
    main()
