"""How the tests are laid out, and what they may run against."""

from __future__ import annotations

import re
from pathlib import Path

TESTS = Path(__file__).parent


def test_nothing_stands_in_for_a_real_project_sizing_design_or_job() -> None:
    """tests/shop.py makes them all: a stand-in goes on passing when the thing it stands for has changed."""
    banned = re.compile(r"Simple" r"Namespace|\bMagic" r"Mock\b|unittest\.mock|create_auto" r"spec")
    assert [path.name for path in sorted(TESTS.rglob("*.py")) if banned.search(path.read_text("utf-8"))] == []


def test_shops_are_made_in_one_place() -> None:
    """Whoever needs another project, sizing or job changes one of tests/shop.py."""
    made = re.compile(r"\b(p\.|project\.)?(Project|Job|Sizing|Design)\(\s*[^)\s]")
    places = [path.name for path in sorted(TESTS.rglob("*.py")) if made.search(path.read_text("utf-8"))]
    assert places == ["shop.py"]
