"""Rules and sizes of the trade that more than one room needs, each once, with where it comes from.

A rule that a single module needs stands in that module.
"""

from __future__ import annotations

# --- openings of the blower -------------------------------------------------------------------------------------------

FASTEST_OPENING_MS = 100.0
"""Beyond Mach 0.3 air is no longer as good as incompressible and no formula here holds (F. M. White, Fluid Mechanics,
from memory); no blower for dust comes near it."""

USUAL_OPENING_MS = 50.0
"""Fastest air through a blower's inlet or outlet at free flow, twice what is usual (common practice, no source)."""
