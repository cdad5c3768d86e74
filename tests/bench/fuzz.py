"""Mutate the samples many times and load each; what loads is also settled, sized and designed.

python -m tests.bench.fuzz [how many] [first seed]. Prints every seed that gives a traceback or takes longer than two
seconds; keep its text in tests/packet/failed_once/.
"""

from __future__ import annotations

import random
import resource
import sys
import time
import traceback

from calc.geometry.box import settle_box
from calc.geometry.design import design_project
from calc.sizing import size_project
from packet.load import BadProject, read_project
from packet.problem import show_problems
from tests.packet.hostile import SAMPLES, mutate


def check(text: str) -> None:
    """Do what ``check`` does."""
    project = settle_box(read_project(text.encode("utf-8", "surrogatepass"), "hostile.yaml").project)
    design_project(project, size_project(project))


def main(count: int, first: int) -> int:
    failed, loaded, slowest = 0, 0, 0.0
    started = time.perf_counter()
    for seed in range(first, first + count):
        pick = random.Random(seed)
        text = mutate(pick.choice(SAMPLES), pick)
        start = time.perf_counter()
        try:
            check(text)
            loaded += 1
        except BadProject as bad:
            show_problems(bad.problems, bad.lines)
        except Exception:
            failed += 1
            print(f"seed {seed}", traceback.format_exc(limit=-3))
        took = time.perf_counter() - start
        if took > 2:
            print(f"seed {seed} took {took:.1f} s")
        slowest = max(slowest, took)
    refused = count - loaded - failed
    memory = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024
    print(
        f"{count} files in {time.perf_counter() - started:.0f} s: {loaded} loaded, {refused} refused, "
        f"{failed} failed; slowest {slowest:.2f} s; {memory:.0f} MB"
    )
    return 1 if failed or slowest > 2 else 0


if __name__ == "__main__":
    given = [int(word) for word in sys.argv[1:]]
    sys.exit(main(given[0] if given else 20_000, given[1] if len(given) > 1 else 0))
