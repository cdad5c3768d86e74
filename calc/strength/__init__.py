"""Strength and weight: panels, ribs, screws, beads, lifts."""
