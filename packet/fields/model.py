"""What a key of the project file can hold: the words in which the table of fields is written.

Limits and defaults are written as a person would type them (``24 in``) and read by the same reader as the file itself.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import KW_ONLY, dataclass
from typing import Any, Literal, get_args, get_origin, get_type_hints

from calc.measures.quantity import Kind

COMMON = "common practice, no source"


def choose(kind: type, field: str, means: tuple[tuple[str, str], ...] = ()) -> Choice:
    """Return the choice among what a field of a dataclass can be, as its type says it."""
    return Choice(tuple(list_literals(get_type_hints(kind)[field])), means)


def list_literals(hint: Any) -> list[str]:
    """Return the words of every Literal inside a type, in its order."""
    if get_origin(hint) is Literal:
        return list(get_args(hint))
    return [word for part in get_args(hint) for word in list_literals(part)]


@dataclass(frozen=True)
class Value:
    """A number with its unit. least, most: hard limits; usual: outside it a warning is given, with its source."""

    kind: Kind
    least: str = ""
    most: str = ""
    usual: tuple[str, str] | None = None
    source: str = COMMON


@dataclass(frozen=True)
class ValueAt:
    """One amount at another: ``2.0 inH2O at 800 cfm``."""

    amount: Value
    at: Value


@dataclass(frozen=True)
class Pair:
    """Two amounts in brackets: ``[800 cfm, 10.0 inH2O]``."""

    first: Value
    second: Value


@dataclass(frozen=True)
class TwoLengths:
    """Two lengths: ``36 x 80 in``. Both within the limits. least_second: for the second, where it is another."""

    least: str
    most: str
    least_second: str = ""


@dataclass(frozen=True)
class Number:
    """A plain number, with a fixed unit sign behind it when the trade has no unit of its own (``30000 1/s``).

    money: a price, which may carry the sign of the file's money (``$62.50``)
    """

    least: float
    most: float
    _: KW_ONLY
    whole: bool = False
    unit: str = ""
    money: bool = False
    usual: tuple[float, float] | None = None
    source: str = COMMON


@dataclass(frozen=True)
class Ratio:
    """Rise to length, as ``1:5``."""

    least: float
    most: float


@dataclass(frozen=True)
class InchFraction:
    """The smallest fraction of an inch, as ``1/32``; read as 32."""


@dataclass(frozen=True)
class PrintedLength:
    """What a printer makes of a check rule: a share of it, or the measured length of the 150 mm or the 6 in rule."""

    least: float = 0.97
    most: float = 1.03


@dataclass(frozen=True)
class OwnText:
    """Text of the user's own. of: what the name must be the name of, if it refers to something in the file."""

    longest: int = 120
    of: str = ""


@dataclass(frozen=True)
class Choice:
    """One of some words. means: other spellings, each with the word it stands for."""

    options: tuple[str, ...]
    means: tuple[tuple[str, str], ...] = ()


@dataclass(frozen=True)
class YesNo:
    """yes or no (true or false)."""


@dataclass(frozen=True)
class Day:
    """A date, year first: ``2026-03-14``; other ways to write it are read where they can mean one day only."""


@dataclass(frozen=True)
class ListOf:
    """A list; a single value may stand without its brackets when ``single``."""

    item: What
    fewest: int = 0
    most: int = 100
    single: bool = True


@dataclass(frozen=True)
class MapOf:
    """Named values: the names are the user's own, or octave bands in Hz."""

    item: What
    fewest: int = 0
    most: int = 300
    keys: str = "words"  # or "bands"


@dataclass(frozen=True)
class Group:
    """A table with known keys.

    short: a bare value stands for a table with this key alone (``gate: 6 in``)
    words: words that may stand in place of the table (``inside: auto``)
    """

    fields: tuple[Key, ...]
    short: str = ""
    words: tuple[str, ...] = ()

    @property
    def keys(self) -> tuple[str, ...]:
        return tuple(known.key for known in self.fields)


@dataclass(frozen=True)
class Variants:
    """A table told apart by which key it has: ``{pipe: ...}`` or ``{elbow: ...}``. words: allowed in its place."""

    cases: Mapping[str, Group]
    words: tuple[str, ...] = ()
    what: str = "piece"


What = (
    Value
    | ValueAt
    | Pair
    | TwoLengths
    | Number
    | Ratio
    | InchFraction
    | PrintedLength
    | OwnText
    | Choice
    | YesNo
    | Day
    | ListOf
    | MapOf
    | Group
    | Variants
)


@dataclass(frozen=True)
class Key:
    """One key. default: as typed, used when the key is missing; assume: the default is noted as an assumption.

    into: the fields of ``calc/project.py`` its value goes into, or helps to make, where that is not one field called as
    the key is, with or without its unit behind it (``outside`` goes into ``outside_mm``)
    """

    key: str
    what: What
    about: str
    example: str = ""
    _: KW_ONLY
    required: bool = False
    default: str | None = None
    assume: bool = False
    into: tuple[str, ...] | None = None
