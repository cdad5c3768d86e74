"""Readers for tests."""

from __future__ import annotations

from calc.measures.quantity import Reader

INCH = Reader("inch", 32)
METRIC = Reader("metric", 32)
