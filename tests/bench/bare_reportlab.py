"""A whole cold build against a bare reportlab script that draws as many pages of the same kind.

python -m tests.bench.bare_reportlab [project file]

The bare script (bare_pages.py) draws, for every page of packet.pdf and helper.pdf, a page with as many curves, lines,
rectangles and strings. The build pays for all it writes: also sizing, large/, parts/, tables, data and the helper's
page. A second floor adds the pages of large/. Clock and processor time, medians of cold processes that take turns.
"""

from __future__ import annotations

import json
import sys
from dataclasses import dataclass
from pathlib import Path

from tests.bench.measure import Cost, count_strokes, make_environment, make_folder, measure_together

MOST_RATIO = 3.0
ONLY_RATIO = 2.5
MOST_MB = 120.0
Pages = list[dict[str, int]]


@dataclass(frozen=True)
class Floor:
    """A build and the bare script beside it. drawn, bare: pages, curves, lines and strings of each."""

    what: str
    build: Cost
    bare: Cost
    drawn: str
    bare_drawn: str

    @property
    def ratio(self) -> float:
        """Of processor time: the clock of a busy machine says little."""
        return self.build.processor_s / self.bare.processor_s

    @property
    def clock_ratio(self) -> float:
        return self.build.clock_s / self.bare.clock_s


def say_pages(files: dict[str, Pages]) -> str:
    pages = [page for listed in files.values() for page in listed]
    sums = [f"{sum(page[kind] for page in pages)} {kind}" for kind in ("curves", "lines", "strings")]
    return f"{len(pages)} pages, {', '.join(sums)}"


def compare(what: str, build: list[str], files: dict[str, Pages], folder: Path, environment: dict[str, str]) -> Floor:
    """Measure a build and the bare script that draws pages like those in `files`, turn by turn."""
    place = folder / "bare"
    place.mkdir(exist_ok=True)
    listed = folder / "pages.json"
    listed.write_text(json.dumps(files))
    script = str(Path(__file__).with_name("bare_pages.py"))
    ours, floor = measure_together([build, [sys.executable, script, str(listed), str(place)]], environment)
    bare = {name: count_strokes(place / name) for name in files}
    assert sum(map(len, bare.values())) == sum(map(len, files.values())), "the bare script drew other pages"
    return Floor(what, ours, floor, say_pages(files), say_pages(bare))


def compare_all(project: str, folder: Path) -> list[Floor]:
    """Return the whole build against both floors, and the templates alone against theirs."""
    from tests.bench.measure import time_process

    environment = make_environment(folder / "compiled")
    out = folder / "out"
    build = [sys.executable, "-m", "packet", "build", project, "-q", "-o", str(out)]
    only = [*build, "--only", "templates"]
    time_process(build, environment)
    time_process(only, environment)
    main = {name: count_strokes(out / name) for name in ("packet.pdf", "helper.pdf")}
    large = {file.name: count_strokes(file) for file in sorted((out / "large").glob("*.pdf"))}
    sheets = {"only.pdf": count_strokes(out / "only-templates.pdf")}
    return [
        compare("build / bare packet and helper's sheet", build, main, folder, environment),
        compare("build / bare, large sheets too", build, main | large, folder, environment),
        compare("build --only templates / bare", only, sheets, folder, environment),
    ]


def main() -> int:
    """Print times, ratios and memory; return 1 when one is over its limit."""
    with make_folder() as folder:
        floors = compare_all(sys.argv[1] if len(sys.argv) > 1 else "projects/boatshed.yaml", Path(folder))
    for floor in floors:
        print(floor.what)
        for name, cost, drawn in (("build", floor.build, floor.drawn), ("bare", floor.bare, floor.bare_drawn)):
            times = f"{cost.clock_s:.2f} s on the clock, {cost.processor_s:.2f} s of the processor"
            print(f"  {name:6}{times}, {cost.memory_mb:.0f} MB: {drawn}")
        print(f"  ratio {floor.clock_ratio:.2f} on the clock, {floor.ratio:.2f} of the processor")
    over = floors[0].ratio > MOST_RATIO or floors[2].ratio > ONLY_RATIO or floors[0].build.memory_mb > MOST_MB
    return 1 if over else 0


if __name__ == "__main__":
    sys.exit(main())
