"""Dotted paths of the project file in plain words, for what nobody measured."""

from __future__ import annotations

import re
from collections.abc import Sequence


def list_things(paths: Sequence[str]) -> list[str]:
    """Return paths in plain words, the parts of one port or machine together: ``filter A pail (top, height)``."""
    things: dict[str, list[str]] = {}
    for path in paths:
        thing, _, part = path.rpartition(".")
        if thing.count(".") > 1:
            things.setdefault(name_assumed(thing), []).append(part.replace("_", " "))
        else:
            things[name_assumed(path)] = []
    return [f"{thing} ({', '.join(parts)})" if parts else thing for thing, parts in things.items()]


def name_assumed(path: str) -> str:
    """Return a dotted path of the project file in plain words: ``ports.filter A.pail`` is filter A pail."""
    parts = re.sub(r"pieces\[(\d+)\]", lambda piece: f"piece {int(piece[1]) + 1}", path).split(".")
    if len(parts) > 2 and parts[0] in ("ports", "machines", "ducts"):
        parts = parts[1:]
    return " ".join(parts).replace("_", " ")
