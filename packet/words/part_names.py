"""What parts and their material are called in print. In file names, CSV and JSON they keep their own names."""

from __future__ import annotations

from calc.measures.quantity import Reader
from calc.shapes.part_names import say_stock
from calc.shapes.shapes import FlatPart
from packet.words.say import say


def name_part(part: FlatPart, reader: Reader) -> str:
    """Return what a flat part is called."""
    return say(part.called or part.name, reader)


def name_stock(material: str, reader: Reader) -> str:
    """Return what a material is called; a stock of the project file as the file calls it."""
    return say(say_stock(material), reader)
