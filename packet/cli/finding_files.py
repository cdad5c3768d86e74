"""Which project file is meant: the only one of a folder, or the one whose code stands on a printed sheet."""

from __future__ import annotations

import hashlib
import json
import os
import re
import sys
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

from packet.disk.held import NotPlain, open_plain
from packet.reading.text import MOST_BYTES
from packet.words.visible import make_visible

CODE = re.compile(r"[0-9a-f]{6,12}", re.IGNORECASE)
PROJECT_LINE = re.compile(rb"^packet[ \t]*:", re.MULTILINE)
PASSED_OVER = frozenset({"node_modules", "__pycache__", "parts", "large"})
MOST_FOLDERS, MOST_JSON_BYTES = 5000, 64_000_000


@dataclass(frozen=True)
class Match:
    """A file whose code is the one asked for. is_project: the project file itself, else what a build wrote."""

    path: Path
    revision: str
    is_project: bool


def choose_project(given: str | None) -> str:
    """Return the project file meant: the one given, else the only one here. Raises SystemExit with status 2."""
    if given is not None:
        return given
    here = [path.name for path in sorted(Path().iterdir()) if is_project(path)]
    if len(here) == 1:
        return here[0]
    if here:
        names = "\n".join(f"  {make_visible(name)}" for name in here)
        say(f"there are {len(here)} project files in this folder; name the one you mean:\n{names}")
    else:
        say("there is no project file in this folder; to begin one: collector-packet new my-shop.yaml")
    raise SystemExit(2)


def say(text: str) -> None:
    print(f"collector-packet: {text}", file=sys.stderr)


def is_code(given: str) -> bool:
    """Tell whether a word is the code of a printed sheet and no file here."""
    return CODE.fullmatch(given) is not None and not Path(given).exists()


def is_project(path: Path) -> bool:
    """Tell whether a file is a project file by its first key; a broken one still counts."""
    if path.suffix.lower() not in (".yaml", ".yml"):
        return False
    data = read_plain(path, MOST_BYTES)
    return data is not None and PROJECT_LINE.search(data) is not None


def read_plain(path: Path, most: int) -> bytes | None:
    """Return the bytes of a plain file that can be read and is not larger than most, else None."""
    try:
        with open_plain(path) as stream:
            data = stream.read(most + 1)
    except (NotPlain, OSError, ValueError):
        return None
    return data if len(data) <= most else None


def tell_code(code: str) -> int:
    """Say which file and revision in this folder and below made a sheet with this code; 0 when one did, else 2."""
    found = sorted(find_code(Path(), code.lower()), key=lambda match: (not match.is_project, str(match.path)))
    if not found:
        say(f"no file in this folder or below has the code {code}: it was changed since, or is kept elsewhere")
        return 2
    for match in found:
        revision = f"revision {make_visible(match.revision)}" if match.revision else "no revision given"
        what = "made from this file as it is now" if match.is_project else "made when this folder was built"
        print(f"{make_visible(str(match.path))}: {revision}; {what}")
    return 0


def find_code(top: Path, code: str) -> Iterator[Match]:
    """Yield every project file and every build in a folder and below whose code begins so; links are not followed."""
    for count, (folder, below, names) in enumerate(os.walk(top)):
        if count >= MOST_FOLDERS:
            return
        below[:] = sorted(name for name in below if not name.startswith(".") and name not in PASSED_OVER)
        for name in sorted(names):
            path = Path(folder) / name
            if name == "sizing.json":
                found = read_built(path)
            elif is_project(path):
                found = read_revision(path)
            else:
                continue
            if found is not None and found[0].startswith(code):
                yield Match(path, found[1], name != "sizing.json")


def read_revision(path: Path) -> tuple[str, str] | None:
    """Return code and revision of a project file; a broken file has no revision that can be told."""
    from packet.reading.load import read_project
    from packet.reading.problem import BadProject

    data = read_plain(path, MOST_BYTES)
    if data is None:
        return None
    try:
        loaded = read_project(data, str(path))
    except BadProject:
        return hashlib.sha256(data).hexdigest()[:12], ""
    return loaded.digest, loaded.project.title.revision


def read_built(path: Path) -> tuple[str, str] | None:
    """Return code and revision out of the sizing.json of a build."""
    data = read_plain(path, MOST_JSON_BYTES)
    try:
        told = json.loads(data or b"")
        return str(told["project"]["digest"]), str(told["project"]["revision"])
    except (ValueError, KeyError, TypeError, RecursionError):
        return None
