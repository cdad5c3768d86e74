"""Mutate the samples many times and load each; what loads is also settled, sized and designed, and some are built.

python -m tests.bench.fuzz [how many] [first seed] [build one in]. Prints every seed that gives a traceback or takes
longer than two seconds of processor time; keep its text in tests/packet/reading/failed_once/.
"""

from __future__ import annotations

import random
import resource
import sys
import tempfile
import time
import traceback
from pathlib import Path

from packet.build.build import build_packet
from packet.job import work_out_job
from packet.reading.load import BadProject, read_project
from packet.reading.problem import show_problems
from tests.packet.hostile import SAMPLES, mutate


def check(text: str) -> None:
    """Do what ``check`` does."""
    work_out_job(read_project(text.encode("utf-8", "surrogatepass"), "hostile.yaml"), Path("hostile.yaml"))


def build(text: str) -> None:
    """Do what ``build`` does."""
    with tempfile.TemporaryDirectory() as folder:
        file = Path(folder) / "hostile.yaml"
        file.write_bytes(text.encode("utf-8", "surrogatepass"))
        build_packet(file, Path(folder) / "out")


def main(count: int, first: int, one_in: int) -> int:
    failed, loaded, slowest, built, slowest_build = 0, 0, 0.0, 0, 0.0
    started = time.perf_counter()
    for seed in range(first, first + count):
        pick = random.Random(seed)
        text = mutate(pick.choice(SAMPLES), pick)
        start = time.process_time()
        try:
            check(text)
            took = time.process_time() - start
            loaded += 1
            if loaded % one_in == 0:
                build(text)
                built += 1
                slowest_build = max(slowest_build, time.process_time() - start - took)
                start = time.process_time() - took
        except BadProject as bad:
            show_problems(bad.problems, bad.lines)
        except Exception:
            failed += 1
            print(f"seed {seed}", traceback.format_exc(limit=-3))
        took = time.process_time() - start
        if took > 2:
            print(f"seed {seed} took {took:.1f} s")
        slowest = max(slowest, took)
    refused = count - loaded - failed
    memory = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024
    print(
        f"{count} files in {time.perf_counter() - started:.0f} s: {loaded} loaded, {refused} refused, "
        f"{failed} failed; slowest {slowest:.2f} s; {built} built, slowest {slowest_build:.1f} s; {memory:.0f} MB"
    )
    return 1 if failed or slowest > 2 else 0


if __name__ == "__main__":
    given = [int(word) for word in sys.argv[1:]]
    sys.exit(main(*given, *(20_000, 0, 25)[len(given) :]))
