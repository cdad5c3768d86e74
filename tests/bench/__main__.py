"""One table of all times, each beside its floor: python -m tests.bench. Takes a few minutes.

Medians of cold processes that take turns with their floor. Ratios are of processor time, which a busy machine blurs
least; the clock is shown beside it, and is what two cores make shorter. Nothing here is a test: no limit on a time
belongs in the suite.
"""

from __future__ import annotations

import sys
from dataclasses import dataclass
from pathlib import Path

from tests.bench import bare_reportlab, grow, nest_parts, size_boatshed, size_large_shop
from tests.bench.measure import Cost, make_environment, make_folder, measure_together

LIBRARIES = "import yaml, pint; pint.UnitRegistry()"
"""What check must use: a reader of YAML and a registry of units."""

YAML = "import yaml"
NOTHING = "pass"


@dataclass(frozen=True)
class Line:
    """One command beside its floor; most: the largest ratio asked for, 0 where none is."""

    what: str
    cost: Cost
    floor: Cost
    most: float = 0.0

    @property
    def ratio(self) -> float:
        return self.cost.processor_s / self.floor.processor_s


def measure_lines(folder: Path) -> list[Line]:
    """Return every command beside its floor."""
    environment = make_environment(folder / "compiled")
    tool, python = [sys.executable, "-m", "packet"], [sys.executable, "-c"]
    version, check, libraries, yaml, nothing = measure_together(
        [
            [*tool, "--version"],
            [*tool, "check", "projects/boatshed.yaml"],
            [*python, LIBRARIES],
            [*python, YAML],
            [*python, NOTHING],
        ],
        environment,
    )
    most = (bare_reportlab.MOST_RATIO, 0.0, bare_reportlab.ONLY_RATIO)
    floors = bare_reportlab.compare_all("projects/boatshed.yaml", folder)
    return [
        Line("--version / python", version, nothing),
        Line("check / import of yaml, pint's registry", check, libraries, 2.0),
        Line("check / import of yaml", check, yaml),
        *(Line(f.what, f.build, f.bare, limit) for f, limit in zip(floors, most, strict=True)),
    ]


def main() -> int:
    """Print the table; return 1 when a limit is passed."""
    with make_folder() as folder:
        lines = measure_lines(Path(folder))
    print(f"{'what':42}{'clock s':>9}{'proc. s':>9}{'floor s':>9}{'ratio':>7}{'most':>6}{'clock ratio':>13}{'MB':>5}")
    for line in lines:
        most = f"{line.most:.1f}" if line.most else ""
        print(
            f"{line.what:42}{line.cost.clock_s:9.3f}{line.cost.processor_s:9.3f}{line.floor.processor_s:9.3f}"
            f"{line.ratio:7.2f}{most:>6}{line.cost.clock_s / line.floor.clock_s:13.2f}{line.cost.memory_mb:5.0f}",
            flush=True,
        )
    over = [line.what for line in lines if line.most and line.ratio > line.most]
    over += [f"memory: {line.what}" for line in lines if line.cost.memory_mb > bare_reportlab.MOST_MB]
    over += ["--version takes 0.1 s"] if lines[0].cost.processor_s >= 0.1 else []
    print("\ngrowth of a whole build")
    over += ["growth"] if grow.main() else []
    print("\nsizing")
    size_boatshed.main()
    size_large_shop.main()
    print("\nnesting")
    over += ["nesting"] if nest_parts.main() else []
    print(f"\nover its limit: {'; '.join(over) or 'nothing'}")
    return 1 if over else 0


if __name__ == "__main__":
    sys.exit(main())
