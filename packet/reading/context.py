"""What travels along while one file is read: the faults, the user's spellings, the places of values, assumptions."""

from __future__ import annotations

from dataclasses import KW_ONLY, dataclass, field

from calc.measures.quantity import Reader
from packet.fields import model as m
from packet.reading.faults import Faults
from packet.reading.nodes import Node, Text
from packet.reading.problem import Place

LONGEST_NAME = 30
ENDINGS = {1: "st", 2: "nd", 3: "rd"}


def count_place(number: int) -> str:
    """Return the place of an item as people count: 0 is the 1st."""
    place = number + 1
    return f"{place}{'th' if place % 100 in (11, 12, 13) else ENDINGS.get(place % 10, 'th')}"


@dataclass(frozen=True)
class Where:
    """The dotted path of a value: as shown in messages, and as the rest of the house knows it.

    Both call an item by its name; without a name messages count from the 1st, the rest of the house from 0.
    """

    path: str = ""
    known: str = ""

    def key(self, key: str) -> Where:
        return Where(f"{self.path}.{key}" if self.path else key, f"{self.known}.{key}" if self.known else key)

    def item(self, number: int, name: str | None = None) -> Where:
        shown = f"{self.path}.{name}" if name and len(name) <= LONGEST_NAME else f"{self.path}[{count_place(number)}]"
        return Where(shown, f"{self.known}.{name}" if name else f"{self.known}[{number}]")


@dataclass(frozen=True)
class OpenTable:
    """A table whose end has not been reached: its path, where it begins, its known keys."""

    where: Where
    place: Place
    keys: tuple[str, ...]


@dataclass
class Reading:
    """echo: known path -> as typed; line_of: known path -> line; scalars: known path -> its field and its node.

    above: the tables that are being read, the outermost first; money: what the file's prices are in
    assumed: known paths of what nobody measured: written with ``about``, or not given and filled in
    """

    faults: Faults
    reader: Reader = field(default_factory=lambda: Reader("inch"))
    _: KW_ONLY
    money: str = "USD"
    above: list[OpenTable] = field(default_factory=list)
    echo: dict[str, str] = field(default_factory=dict)
    line_of: dict[str, int] = field(default_factory=dict)
    assumed: list[str] = field(default_factory=list)
    scalars: dict[str, tuple[m.What, Text]] = field(default_factory=dict)

    def note(self, where: Where, node: Node) -> None:
        """Remember on which line a value stands."""
        self.line_of[where.known] = node.place.line

    def fault(self, node: Node | Place | None, where: Where, found: str, **more: str) -> None:
        self.faults.add(find_place(node), where.path, found, lines=(), **more)

    def warn(self, node: Node | Place | None, where: Where, found: str, **more: str) -> None:
        self.faults.warn(find_place(node), where.path, found, **more)


def find_place(node: Node | Place | None) -> Place | None:
    """Return where a node stands."""
    return node if node is None or isinstance(node, Place) else node.place
