"""The kept table of unit factors is what the pint registry gives, to the last digit; nothing in it is made by hand.

After a change to calc/measures/units.py, python -m tests.calc.measures.test_unit_factors writes it anew.
"""

from __future__ import annotations

import subprocess
import sys
from fractions import Fraction
from pathlib import Path
from typing import get_args

from calc.measures.kinds import Kind, Reader
from calc.measures.units import SCALES, UNITS, find_factor, work_out_factor, work_out_offset
from calc.measures.written import find_worth

TOP = Path(__file__).parents[3]
TABLE = TOP / "calc" / "measures" / "unit_factors.py"
HEAD = '''"""Exact unit factors as the registry gives them: base units in one unit, by kind and expression.

Written by python -m tests.calc.measures.test_unit_factors, never by hand; a test compares it with the registry.
"""

from __future__ import annotations

from collections.abc import Mapping

'''


def list_expressions(kind: Kind) -> list[str]:
    """Return the expressions a kind is read in, and those it is written in for inch and for metric people."""
    written = [find_worth(kind, Reader(system, 32)).pint for system in ("inch", "metric")]
    return sorted({unit.pint for unit in UNITS.get(kind, ())} | {expression for expression in written if expression})


def write_table() -> str:
    """Return the text of calc/measures/unit_factors.py."""
    lines = [HEAD, "FACTORS: Mapping[str, Mapping[str, str]] = {\n"]
    for kind in get_args(Kind):
        expressions = list_expressions(kind)
        if expressions:
            lines.append(f'    "{kind}": {{\n')
            lines += [f'        "{each}": "{work_out_factor(kind, each)}",\n' for each in expressions]
            lines.append("    },\n")
    lines.append("}\n\nOFFSETS: Mapping[str, str] = {\n")
    lines += [f'    "{scale}": "{work_out_offset(scale)}",\n' for scale in SCALES]
    lines.append("}\n")
    return "".join(lines)


def test_the_table_is_what_the_registry_gives() -> None:
    assert TABLE.read_text(encoding="utf-8") == write_table()


def test_a_unit_the_table_does_not_have_is_asked_of_the_registry() -> None:
    assert find_factor("length_mm", "6 * foot") == Fraction("1828.8")


def test_reading_and_writing_every_unit_loads_no_pint() -> None:
    code = (
        "import sys; from typing import get_args; from calc.measures.kinds import Kind, Reader\n"
        "from calc.measures.units import *\n"
        "from calc.measures.written import to_reader\n"
        "for kind in get_args(Kind):\n"
        "    [find_factor(kind, unit.pint) + find_offset(unit.pint) for unit in UNITS.get(kind, ())]\n"
        "    [to_reader(1.0, kind, Reader(system, 32)) for system in ('inch', 'metric')]\n"
        "print(sorted({'pint', 'numpy'} & set(sys.modules)))"
    )
    done = subprocess.run([sys.executable, "-c", code], cwd=TOP, capture_output=True, text=True, check=True)
    assert done.stdout == "[]\n"


if __name__ == "__main__":
    TABLE.write_text(write_table(), encoding="utf-8")
