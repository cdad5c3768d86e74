"""Print how sizing time grows: 50 machines against 1,000, each gate alone and all open, same shape and depth.

Run: python -m tests.bench.size_large_shop
"""

from __future__ import annotations

import time

from calc.airflow.scenarios import describe_scenario, list_scenarios, solve_scenario
from calc.airflow.system import System
from calc.airflow.velocities import Limits
from calc.box.box import settle_box
from calc.sizing.sizing import size_project
from tests.shop import make_tree


def time_scenarios(count: int) -> float:
    """Return processor seconds to build the network and describe every gate alone and all open."""
    project = settle_box(make_tree(count))
    start = time.process_time()
    system = System(project)
    limits = Limits(project, system.network)
    scenarios = [
        describe_scenario(system, limits, solve_scenario(system, opened), 0.0) for opened in list_scenarios(system)
    ]
    assert max(s.residual_pa for s in scenarios) < 0.1
    return time.process_time() - start


def time_whole(count: int) -> float:
    """Return processor seconds of the whole sizing, choices and remedies included."""
    project = settle_box(make_tree(count))
    start = time.process_time()
    size_project(project)
    return time.process_time() - start


def main() -> None:
    time_scenarios(50)
    for name, measure in (("scenarios", time_scenarios), ("whole sizing", time_whole)):
        small, large = min(measure(50) for _ in range(3)), measure(1000)
        print(f"{name}: 50 machines {small:.3f} s, 1,000 machines {large:.3f} s, ratio {large / small:.1f} (under 30)")


if __name__ == "__main__":
    main()
