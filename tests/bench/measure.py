"""Cold processes measured from outside: clock, processor time and peak memory, and what the pages of a PDF hold."""

from __future__ import annotations

import os
import re
import resource
import statistics
import subprocess
import sys
import tempfile
import time
from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

TOP = Path(__file__).parents[2]
RUNS = 5
OPERATORS = {"c": "curves", "l": "lines", "re": "rectangles", "S": "paths", "Tj": "strings", "TJ": "strings"}


@dataclass(frozen=True)
class Cost:
    """Medians over several cold runs [s], and the peak memory of one [MB]."""

    clock_s: float
    processor_s: float
    memory_mb: float


def make_environment(cache: Path) -> dict[str, str]:
    """Return an environment in which modules are kept compiled, as an installed tool has them; the floor too."""
    kept = {key: value for key, value in os.environ.items() if key != "PYTHONDONTWRITEBYTECODE"}
    return {**kept, "PYTHONPATH": str(TOP), "PYTHONPYCACHEPREFIX": str(cache)}


def time_process(command: Sequence[str], environment: dict[str, str]) -> tuple[float, float]:
    """Return clock and processor time [s] of a process and its children."""
    before = resource.getrusage(resource.RUSAGE_CHILDREN)
    start = time.perf_counter()
    subprocess.run(command, cwd=TOP, env=environment, check=False, stdout=-3, stderr=-3)
    clock = time.perf_counter() - start
    after = resource.getrusage(resource.RUSAGE_CHILDREN)
    return clock, after.ru_utime + after.ru_stime - before.ru_utime - before.ru_stime


def measure_memory(command: Sequence[str], environment: dict[str, str]) -> float:
    """Return the peak memory [MB] of a process and its largest child, asked of a parent that has no other child."""
    ask = (
        "import resource, subprocess, sys; subprocess.run(sys.argv[1:], stdout=-3, stderr=-3);"
        "print(resource.getrusage(resource.RUSAGE_CHILDREN).ru_maxrss / 1024)"
    )
    done = subprocess.run(
        [sys.executable, "-c", ask, *command], cwd=TOP, env=environment, capture_output=True, text=True, check=True
    )
    return float(done.stdout)


def measure_together(commands: Sequence[Sequence[str]], environment: dict[str, str]) -> list[Cost]:
    """Return what each command costs. They take turns, so that other work on the machine falls on all of them."""
    for command in commands:
        time_process(command, environment)  # compiles what it imports
    turns = [[time_process(command, environment) for command in commands] for _ in range(RUNS)]
    costs = []
    for command, times in zip(commands, zip(*turns, strict=True), strict=True):
        clock, processor = (statistics.median(each) for each in zip(*times, strict=True))
        costs.append(Cost(clock, processor, measure_memory(command, environment)))
    return costs


def count_strokes(pdf: Path) -> list[dict[str, int]]:
    """Return for each page how many curves, lines, stroked paths, rectangles and strings of text it draws."""
    from pypdf import PdfReader

    pages = []
    for page in PdfReader(pdf).pages:
        contents = page.get_contents()
        found = Counter(
            re.findall(rb"(?<=[\s)\]])(c|l|re|S|Tj|TJ)(?=\s)", contents.get_data() if contents is not None else b"")
        )
        kinds: Counter[str] = Counter()
        for operator, kind in OPERATORS.items():
            kinds[kind] += found[operator.encode()]
        pages.append(dict(kinds))
    return pages


def make_folder() -> tempfile.TemporaryDirectory[str]:
    return tempfile.TemporaryDirectory(prefix="bench-")
