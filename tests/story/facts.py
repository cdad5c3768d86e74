"""What a packet says more than once: each fact and the places where it stands."""

from __future__ import annotations

from tests.story.box import HEIGHTS, SIZES
from tests.story.fact import Fact
from tests.story.flows import FLOWS, FLUE
from tests.story.gauge import GAUGE
from tests.story.holes import HOLES
from tests.story.paper import PAPER
from tests.story.totals import GOODS, TOTALS
from tests.story.weights import SCREWS, WEIGHTS

FACTS: tuple[Fact, ...] = HOLES + SIZES + HEIGHTS + WEIGHTS + SCREWS + GAUGE + FLOWS + FLUE + PAPER + TOTALS + GOODS
