"""What a packet says more than once: each fact and the places where it stands."""

from __future__ import annotations

from tests.story.air import FLOWS, FLUE, GAUGE
from tests.story.box import HEIGHTS, SCREWS, SIZES, WEIGHTS
from tests.story.fact import Fact
from tests.story.holes import HOLES
from tests.story.paper import GOODS, PAPER, TOTALS

FACTS: tuple[Fact, ...] = HOLES + SIZES + HEIGHTS + WEIGHTS + SCREWS + GAUGE + FLOWS + FLUE + PAPER + TOTALS + GOODS
