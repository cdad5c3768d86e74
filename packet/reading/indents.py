"""Slips of the space bar: a space too many or too few before a key, a colon that is missing, on their own line."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass

from packet.fields import PROJECT
from packet.reading.faults import Faults
from packet.reading.problem import Place, fold_key

QUOTED = re.compile(r"""'[^']*'|"[^"]*\"""")
REMARK = re.compile(r"(?:^|\s)#.*")
COLON = re.compile(r":(?:\s|$)")
KEY_AND_REST = re.compile(r"(?P<key>[A-Za-z]\w*)(?P<colon>:?)\s*(?P<rest>\S.*)?")


@dataclass(frozen=True)
class BlockLine:
    """A line that begins a key or an item. dash, start: where its dash and its words stand, from 0; text: its words."""

    number: int
    dash: int | None
    start: int
    text: str

    @property
    def edge(self) -> int:
        """Where the line begins."""
        return self.start if self.dash is None else self.dash

    @property
    def has_value(self) -> bool:
        """Whether something stands behind its colon."""
        return bool(COLON.search(self.text)) and not self.text.endswith(":")

    @property
    def name(self) -> str:
        """The words to call it by: its key with the colon, or its dash."""
        return f"'{self.text.split(':')[0]}:'" if COLON.search(self.text) and self.dash is None else "the dash"


def explain_indent_slip(line: int, faults: Faults) -> bool:
    """Note the slip that keeps a line (from 0) from fitting under the ones above it; tell whether one was found."""
    block = list_block_lines(faults.lines[: line + 1])
    if not block:
        return False
    for one in block[-1:-3:-1]:
        if not COLON.search(one.text) and one.dash is None and (mend := add_missing_colon(one.text)):
            space = "no space behind the colon of" if ":" in one.text else "no colon behind"
            found = f"{space} '{re.split('[ :]', one.text)[0]}'"
            faults.add(Place(one.number, one.start + 1, len(one.text)), "", found, mend=f"write '{mend}'")
            return True
    if len(block) < 2 or block[-1].number != line + 1:
        return False
    return explain_step(block, faults)


def explain_step(block: Sequence[BlockLine], faults: Faults) -> bool:
    """Note by how many spaces the last line misses the column of its neighbours."""
    last, above = block[-1], block[-2]
    right = above.start if last.edge > above.start and above.has_value else find_level(block)
    if last.edge == 0 and len(block) == 2 and above.edge:  # the file's first line is the one that is moved
        last, right = above, 0
    if right is None or right == last.edge:
        return False
    spaces = abs(last.edge - right)
    many = f"{'one space' if spaces == 1 else f'{spaces} spaces'} too {'many' if last.edge > right else 'few'}"
    faults.add(
        Place(last.number, last.edge + 1, len(last.text) if last.dash is None else 1),
        "",
        f"{many} before {last.name}",
        expected=f"it in column {right + 1}, under {name_neighbour(block, right)}",
        mend=f"{'delete' if last.edge > right else 'add'} {many.partition(' too')[0]}",
    )
    return True


def find_level(block: Sequence[BlockLine]) -> int | None:
    """Return the column (from 0) of the table or list above that the last line comes nearest to; the inner of two."""
    *before, last = block
    levels: list[tuple[int, bool]] = []
    for one in before:
        levels = [level for level in levels if level[0] < one.edge]
        if one.dash is not None:
            levels.append((one.dash, True))
        levels.append((one.start, False))
    alike = [column for column, is_dash in levels if is_dash == (last.dash is not None)]
    if last.dash is None and fold_key(last.text.split(":")[0]) in PROJECT.keys and last.edge < 2:
        return 0
    return min(alike, key=lambda column: (abs(column - last.edge), -column), default=None)


def name_neighbour(block: Sequence[BlockLine], column: int) -> str:
    """Return what stands last in that column above the last line."""
    near = [one for one in block[:-1] if column in (one.start, one.dash)]
    return "the others" if not near else "the dash above it" if near[-1].dash == column else near[-1].name


def list_block_lines(lines: Sequence[str]) -> list[BlockLine]:
    """Return the lines that begin a key or an item; not those inside brackets, quotes or remarks."""
    found: list[BlockLine] = []
    depth = 0
    for number, line in enumerate(lines, 1):
        bare = REMARK.sub("", QUOTED.sub(lambda quoted: "x" * len(quoted.group()), line)).rstrip()
        shown = line[: len(bare)]
        if bare.strip() and depth == 0 and not bare.startswith(("---", "%")):
            dashes = re.match(r"\s*(-\s+)?", bare)
            assert dashes is not None
            dash = dashes.start(1) if dashes[1] else None
            found.append(BlockLine(number, dash, dashes.end(), shown[dashes.end() :]))
        depth = max(0, depth + sum(bare.count(sign) for sign in "[{") - sum(bare.count(sign) for sign in "]}"))
    return found


def add_missing_colon(text: str) -> str:
    """Return a line's words with the colon behind the first of them and a space behind it; or nothing."""
    found = KEY_AND_REST.fullmatch(text)
    return f"{found['key']}: {found['rest'] or ''}".rstrip() if found else ""
