"""What the tables and lists of a file say, and where each value stands, to tell what is wrong with it there."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field
from typing import Any

from packet.fields import model as m
from packet.reading.context import Reading, Where
from packet.reading.problem import Place


@dataclass(kw_only=True)
class Values:
    """What a table says: one value a key (None: not said or faulty), and where each stands. group: its known keys."""

    where: Where
    place: Place
    group: m.Group
    reading: Reading
    items: dict[str, Any] = field(default_factory=dict)
    places: dict[str, Place] = field(default_factory=dict)
    variant: str = ""

    def __getitem__(self, key: str) -> Any:
        return self.items.get(key)

    def __iter__(self) -> Iterator[str]:
        return iter(self.items)

    def is_given(self, key: str) -> bool:
        """Tell whether the file itself says this key."""
        return key in self.places

    def place_of(self, key: str) -> Place:
        return self.places.get(key, self.place)

    def place_of_item(self, key: str, number: int) -> Place:
        """Return where an item of a list stands, counted from 0."""
        value = self[key]
        return value.places[number] if isinstance(value, Items) else self.place_of(key)

    def fault(self, key: str, found: str, item: int | None = None, **more: str) -> None:
        """Note a fault of a key, at an item of its list when told which; of the table itself without a key."""
        place, where = self.find_key(key, item)
        self.reading.fault(place, where, found, **more)

    def warn(self, key: str, found: str, item: int | None = None, **more: str) -> None:
        """Note a doubt of a key in the same way."""
        place, where = self.find_key(key, item)
        self.reading.warn(place, where, found, **more)

    def find_key(self, key: str, item: int | None) -> tuple[Place, Where]:
        if not key:
            return self.place, self.where
        return (self.place_of(key) if item is None else self.place_of_item(key, item)), self.where.key(key)


class Items(list[Any]):
    """The values of a list that could be read, and where each stands. typed: how many the file holds, faulty too."""

    def __init__(self, typed: int = 0) -> None:
        super().__init__()
        self.typed = typed
        self.places: list[Place] = []

    def take(self, value: Any, place: Place) -> None:
        self.append(value)
        self.places.append(place)


@dataclass
class NamedValues:
    """What a table of the user's own names says, in the file's order; octave bands by rising frequency."""

    where: Where
    place: Place
    reading: Reading
    items: dict[str, Any] = field(default_factory=dict)
    places: dict[str, Place] = field(default_factory=dict)

    def fault(self, name: str, found: str, **more: str) -> None:
        """Note a fault of what the file calls so."""
        self.reading.fault(self.places[name], self.where.key(name), found, **more)

    def warn(self, name: str, found: str, **more: str) -> None:
        """Note a doubt of what the file calls so."""
        self.reading.warn(self.places[name], self.where.key(name), found, **more)
