"""Strength and weight: panels, ribs, screws, tipping, lifting. Uses the box."""
