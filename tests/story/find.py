"""Searches that all places share: one amount or many, in words with single spaces."""

from __future__ import annotations

import re
from collections.abc import Iterable

from tests.story.outputs import Outputs
from tests.story.said import AMOUNT, NUMBER, Said, count, read_amount

GATE = r"(?:the )?(?P<gate>.+?)"


def find_amount(text: str, pattern: str, step_mm: float = 0.0, unit: str = "") -> Said | None:
    """Return the first amount of a pattern, written {A} in it ({N} with its unit elsewhere)."""
    found = re.search(fill(pattern), text)
    return read_amount(found[1], step_mm, unit) if found else None


def find_all(text: str, pattern: str, subject: str, step_mm: float = 0.0, unit: str = "") -> dict[str, Said]:
    """Return all amounts of a pattern, a subject to each: the first alone, the others numbered."""
    found = re.findall(fill(pattern), text)
    return {f"{subject} {n}" if n > 1 else subject: read_amount(f, step_mm, unit) for n, f in enumerate(found, start=1)}


def find_count(text: str, pattern: str) -> Said | None:
    found = re.search(fill(pattern), text)
    return count(found[1]) if found else None


def find_words(text: str, pattern: str) -> Said | None:
    found = re.search(pattern, text)
    return Said(" ".join(found[1].split())) if found else None


def fill(pattern: str) -> str:
    return (
        pattern.replace("{A}", f"({AMOUNT})")
        .replace("{N}", f"({NUMBER})")
        .replace("{a}", AMOUNT)
        .replace("{n}", NUMBER)
    )


def find_step(outputs: Outputs, title: str) -> str:
    """Return the words of the first step whose title holds these words."""
    return next((text for text in outputs.steps.values() if re.search(title, text[:160])), "")


def all_steps(outputs: Outputs) -> str:
    return " ".join(outputs.steps.values())


def sum_up(found: Iterable[Said]) -> Said | None:
    """Return the sum of several; nothing of none."""
    values = list(found)
    return Said(sum(float(s.value) for s in values), sum(s.within for s in values)) if values else None


def has_gate(outputs: Outputs, machine: str) -> bool:
    """Tell whether the steps fit a gate to a machine; a label of it is asked for then, and else none."""
    return f"gate for {machine}:" in all_steps(outputs)


def list_gates(outputs: Outputs) -> list[str]:
    """Return the machines by the name of their gate, long names first."""
    names = {scenario["name"] for scenario in outputs.sizing["sizing"]["scenarios"] if scenario["kind"] == "alone"}
    return sorted(names, key=lambda name: (-len(name), name))
