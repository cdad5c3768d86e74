"""Make up many projects, build each, and print where two places of a packet tell one fact differently.

python -m tests.bench.story [how many] [first seed]. A line says where it stands after each seed, so that it can be
stopped and taken up again. The suite does the same for the samples and five fixed seeds (tests/story).
"""

from __future__ import annotations

import sys

from packet.reading.problem import BadProject, show_problems
from tests.story.built import build_made
from tests.story.fact import list_contradictions
from tests.story.facts import FACTS


def main(how_many: int = 40, first: int = 0) -> int:
    """Return 1 when a packet contradicts itself."""
    wrong = refused = 0
    for seed in range(first, first + how_many):
        try:
            found = list_contradictions(build_made(seed), FACTS)
        except BadProject as bad:
            refused += 1
            print(f"seed {seed}: refused\n{show_problems(bad.problems, bad.lines)}", flush=True)
            continue
        build_made.cache_clear()
        wrong += bool(found)
        print(f"seed {seed}: {len(found) or 'no'} contradictions", *found, sep="\n  ", flush=True)
    print(f"{how_many} projects, {refused} refused, {wrong} contradict themselves")
    return 1 if wrong else 0


if __name__ == "__main__":
    sys.exit(main(*(int(word) for word in sys.argv[1:])))
