"""Print one table of speed and memory, each beside its floor: python -m tests.bench.speed.

Cold processes; the best of several runs, in processor time where a busy machine would blur the clock.
"""

from __future__ import annotations

import sys
import tempfile
from dataclasses import dataclass
from pathlib import Path

from tests.bench.bare_reportlab import BARE, count_pages, measure_memory, time_process

RUNS = 5
LIBRARIES = "import yaml, pint; pint.UnitRegistry()"


@dataclass(frozen=True)
class Line:
    """One measured command beside its floor. most: the largest ratio allowed, or seconds where there is no floor."""

    what: str
    wall_s: float
    cpu_s: float
    floor_s: float | None
    most: float
    memory_mb: float

    @property
    def ratio(self) -> float:
        return self.cpu_s if self.floor_s is None else self.cpu_s / self.floor_s


def take_best(command: list[str]) -> tuple[float, float]:
    """Return the best wall time and the best processor time [s] of several cold runs."""
    times = [time_process(command) for _ in range(RUNS)]
    return min(wall for wall, _ in times), min(cpu for _, cpu in times)


def make_bare(folder: Path, texts: int, tables: int, drawings: int) -> list[str]:
    script = folder / "bare.py"
    script.write_text(BARE, encoding="utf-8")
    return [sys.executable, str(script), str(folder / "bare.pdf"), str(texts), str(tables), str(drawings)]


def measure(what: str, command: list[str], floor: list[str] | None, most: float) -> Line:
    wall, cpu = take_best(command)
    floor_s = take_best(floor)[1] if floor else None
    return Line(what, wall, cpu, floor_s, most, measure_memory(command))


def measure_all(folder: Path) -> list[Line]:
    tool = [sys.executable, "-m", "packet"]
    out = folder / "out"
    build = [*tool, "build", "projects/boatshed.yaml", "-q", "-o", str(out)]
    only = [*build, "--only", "templates"]
    time_process(build)
    time_process(only)
    pages, sheets = count_pages(out / "packet.pdf"), count_pages(out / "only-templates.pdf")
    drawn = pages * 4 // 10
    libraries = [sys.executable, "-c", LIBRARIES]
    return [
        measure("--version", [*tool, "--version"], None, 0.1),
        measure("check", [*tool, "check", "projects/boatshed.yaml"], libraries, 2.0),
        measure(f"build --only templates, {sheets} pages", only, make_bare(folder, 0, 0, sheets), 2.5),
        measure(f"build, {pages} pages and all else", build, make_bare(folder, pages - 2 * drawn, drawn, drawn), 3.0),
    ]


def main() -> int:
    with tempfile.TemporaryDirectory() as folder:
        lines = measure_all(Path(folder))
    print(f"{'what':44}{'clock s':>9}{'processor s':>13}{'floor s':>9}{'ratio':>7}{'at most':>9}{'MB':>6}")
    for line in lines:
        floor = "" if line.floor_s is None else f"{line.floor_s:.2f}"
        print(
            f"{line.what:44}{line.wall_s:9.2f}{line.cpu_s:13.2f}{floor:>9}{line.ratio:7.2f}{line.most:9.1f}{line.memory_mb:6.0f}"
        )
    return 1 if any(line.ratio > line.most or line.memory_mb > 120 for line in lines) else 0


if __name__ == "__main__":
    sys.exit(main())
