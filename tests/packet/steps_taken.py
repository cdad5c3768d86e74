"""Counts work instead of time: what a busy machine cannot change."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from typing import Any
from unittest import mock

from packet.reading.nodes import Composer


@dataclass
class Steps:
    """How many events of the YAML parser the reading has taken."""

    taken: int = 0


@contextmanager
def count_events() -> Iterator[Steps]:
    """Count the events that the reading takes from the YAML parser meanwhile."""
    steps, take = Steps(), Composer.take

    def count(self: Composer, event: Any) -> None:
        steps.taken += 1
        take(self, event)

    with mock.patch.object(Composer, "take", count):
        yield steps
