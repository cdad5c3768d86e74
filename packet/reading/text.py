"""The bytes of a project file to clean text: encoding, invisible characters, tabs, odd spaces, size."""

from __future__ import annotations

import re
import unicodedata

from packet.reading.faults import Faults
from packet.reading.problem import Place

MOST_BYTES = 1_000_000
CONTROL = re.compile("[\x00-\x08\x0b\x0c\x0e-\x1f\x7f-\x9f\u2028\u2029\ufffe\uffff]")
DIRECTION = re.compile("[\u200b-\u200f\u202a-\u202e\u2060-\u2069\ufeff]")
ODD_SPACE = re.compile("[\u00a0\u1680\u2000-\u200a\u202f\u205f\u3000]")
# Places where YAML wants a plain space: at the start of a line, after a colon, dash or comma, before a comment.
BEFORE_VALUE = r"^\s*{0}|(?:[:,\[{{]|^\s*-)[ ]*{0}|{0}\s*#"
TAB_IN_WAY = re.compile(BEFORE_VALUE.format("\t"))
SPACE_IN_WAY = re.compile(BEFORE_VALUE.format("[\u00a0\u1680\u2000-\u200a\u202f\u205f\u3000]"))


def decode_text(data: bytes, faults: Faults) -> str:
    """Return the text of a file and set ``faults.lines``. Raises BadProject when it is not plain UTF-8 text."""
    if len(data) > MOST_BYTES:
        faults.add(
            None,
            "",
            f"the file has {len(data):,} bytes",
            expected=f"at most {MOST_BYTES:,} bytes",
            mend="is this the project file?",
        )
        faults.stop_if_any()
    text = decode_bytes(data, faults).removeprefix("\ufeff")
    text = text.replace("\r\n", "\n").replace("\r", "\n")
    faults.lines = tuple(text.split("\n"))
    if not text.strip():
        faults.add(
            None, "", "the file is empty", expected="a project", mend="start one: collector-packet new my-shop.yaml"
        )
    for number, line in enumerate(faults.lines, 1):
        check_line(line, number, faults)
    faults.stop_if_any()
    return text.replace("\t", " ")


def decode_bytes(data: bytes, faults: Faults) -> str:
    """Return bytes as UTF-8 text (UTF-16 with its mark is read too). Raises BadProject with line and column."""
    if data.startswith((b"\xff\xfe", b"\xfe\xff")):
        try:
            return data.decode("utf-16")
        except UnicodeDecodeError:
            pass
    try:
        return data.decode("utf-8")
    except UnicodeDecodeError as error:
        good = data[: error.start]
        faults.lines = tuple(data.decode("utf-8", "replace").splitlines())
        column = len(good.rsplit(b"\n", 1)[-1].decode("utf-8", "replace")) + 1
        faults.add(
            Place(good.count(b"\n") + 1, column),
            "",
            f"byte 0x{data[error.start]:02X} is not UTF-8 text",
            mend="save the file as UTF-8 in your editor",
        )
        faults.stop_if_any()
        raise AssertionError("unreachable") from error


def check_line(line: str, number: int, faults: Faults) -> None:
    """Note what is invisible on a line and would mislead: control characters, direction marks, tabs, odd spaces."""
    if line.isascii() and line.isprintable():
        return
    for character in CONTROL.finditer(line):
        faults.add(
            Place(number, character.start() + 1),
            "",
            f"control character U+{ord(character.group()):04X}",
            mend="delete it",
        )
    for character in DIRECTION.finditer(line):
        name = unicodedata.name(character.group(), "unnamed").lower()
        faults.add(
            Place(number, character.start() + 1),
            "",
            f"invisible character U+{ord(character.group()):04X} ({name})",
            mend="delete it; what is printed must be what is read",
        )
    if line.lstrip().startswith("#"):
        return
    if tab := TAB_IN_WAY.search(line):
        faults.add(Place(number, line.index("\t", tab.start()) + 1), "", f"tab in line {number}", mend="use spaces")
    if SPACE_IN_WAY.search(line) and (odd := ODD_SPACE.search(line)):
        name = unicodedata.name(odd.group()).lower()
        faults.add(
            Place(number, odd.start() + 1),
            "",
            f"odd space in line {number}: U+{ord(odd.group()):04X} ({name})",
            mend="type a plain space instead",
        )
