"""How a whole build grows with the project: 12 ports and 50 machines, 25 and 100, 50 and 200.

python -m tests.bench.grow. The boatshed's own machines and ports again and again, five machines on a branch; each build
is a cold process. Linear growth doubles at most from one to the next.
"""

from __future__ import annotations

import sys
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import yaml

from tests.bench.measure import TOP, make_environment, make_folder, measure_memory, time_process

SIZES = ((12, 50), (25, 100), (50, 200))
MOST_RATIO = 2.3
"""Twice, and what a busy machine adds."""


@dataclass(frozen=True, kw_only=True)
class Grown:
    """One build: its size, processor time [s], peak memory [MB] and how often the time of the one before."""

    ports: int
    machines: int
    processor_s: float
    memory_mb: float
    ratio: float | None
    written: bool


class _Plain(yaml.SafeDumper):
    """Writes a value again where it stands again; a project file refuses references."""

    def ignore_aliases(self, data: Any) -> bool:
        return True


def write_project(ports: int, machines: int) -> str:
    """Return a project file with so many ports (a quarter of them for filters) and machines."""
    data: dict[str, Any] = yaml.load(
        (TOP / "projects" / "boatshed.yaml").read_text(encoding="utf-8"), Loader=yaml.BaseLoader
    )
    ducts, north = data["ducts"], data["ducts"]["north"]
    kept = [machine for machine in data["machines"] if "pickups" not in machine]
    data["ducts"] = {"trunk": ducts["trunk"]}
    data["machines"] = []
    for number in range(machines):
        branch = f"branch {number // 5 + 1}"
        data["ducts"].setdefault(branch, north)
        machine = kept[number % len(kept)]
        data["machines"].append({**machine, "name": f"{machine['name']} {number + 1}", "on": branch})
    sample = {port["kind"]: port for port in data["ports"]}
    filters = ports // 4  # a file holds twelve at most
    kinds = ["filter"] * filters + ["inspection"] * (ports - filters - 1)
    data["ports"] = [{**sample[kind], "name": f"{kind} {number + 1}"} for number, kind in enumerate(kinds)]
    data["ports"].append(sample["gauge"])
    data["filters"]["count"] = str(filters)
    data["filter_box"].pop("inside")  # the tool finds the size that takes them
    data["gauge"].pop("read_at", None)
    data.pop("gate_sets", None)  # both name machines of the boatshed
    return yaml.dump(data, Dumper=_Plain, sort_keys=False, allow_unicode=True, width=1000)


def measure_growth(folder: Path) -> list[Grown]:
    """Return the builds from small to large."""
    environment = make_environment(folder / "compiled")
    grown: list[Grown] = []
    for ports, machines in SIZES:
        file = folder / f"shop-{ports}.yaml"
        file.write_text(write_project(ports, machines), encoding="utf-8")
        build = [sys.executable, "-m", "packet", "build", str(file), "-q", "-o", str(folder / file.stem)]
        times = [time_process(build, environment)[1] for _ in range(2)]
        memory = measure_memory(build, environment)
        ratio = min(times) / grown[-1].processor_s if grown else None
        written = (folder / file.stem / "packet.pdf").exists()
        grown.append(
            Grown(
                ports=ports, machines=machines, processor_s=min(times), memory_mb=memory, ratio=ratio, written=written
            )
        )
    return grown


def main() -> int:
    """Print the builds; return 1 when one grew by more than its size, or was not written."""
    with make_folder() as folder:
        grown = measure_growth(Path(folder))
    for each in grown:
        ratio = f", {each.ratio:.2f} times the one before" if each.ratio else ""
        fault = "" if each.written else ": NOT WRITTEN"
        size = f"{each.ports} ports, {each.machines} machines"
        print(f"{size}: {each.processor_s:.2f} s of the processor, {each.memory_mb:.0f} MB{ratio}{fault}")
    return 1 if any(not each.written or (each.ratio or 0) > MOST_RATIO for each in grown) else 0


if __name__ == "__main__":
    sys.exit(main())
