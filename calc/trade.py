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

MOST_OVER_SHUT_OFF = 1.15
"""A reading may be so far over what the curve makes at shut-off, for a blower better than its curve; more is a mistake
in reading (common practice, no source)."""

# --- dust -------------------------------------------------------------------------------------------------------------

EMPTY_AT = 0.5
"""Share of its height at which a catch pail or a separator's bin is emptied: half full (common practice, no source).
The highest usable fill is marked and can be seen from outside (EN 16770:2018, 5.6.1)."""

WORKDAYS = 5
"""Working days a week."""

# --- pails and screws -------------------------------------------------------------------------------------------------

TYPING_ERROR_MM = 10.0
"""Readings of one pail that differ by more are a slip of the pen, not a pail (common practice, no source)."""

ROUND_ENOUGH_MM = 4.0
"""Readings across a soft collar may differ by this: it is pressed round going in (common practice, no source)."""

TAPE_APART_MM = 2.0
"""The mean across and the girth over pi agree to this: half of what a collar may be out of round, as readings across
may all have met its long side (common practice, no source)."""

RING_SCREW_EDGE_MM = 5.0
"""Least plastic or wood between a ring screw's middle and the flange's or the hole's edge: about one and a quarter
diameters of a No. 8 screw (common practice, no source)."""

PANEL_SCREW_EDGE_MM = 9.5
"""Least distance of a screw from a panel's edge: 3/8 in (common practice, no source)."""

# --- anywhere ---------------------------------------------------------------------------------------------------------

PRACTICE = "common practice, no source"
"""What stands as the source of a limit that is common practice."""

GRAVITY = 9.80665
"""Standard acceleration of free fall [m/s2] (3rd CGPM, 1901; exact)."""
