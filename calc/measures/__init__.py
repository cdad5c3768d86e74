"""Quantities as people write them: reading, writing, units."""
