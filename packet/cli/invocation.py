"""The program's own name, as who runs it typed it, so that a command that is shown can be pasted."""

from __future__ import annotations

import os
import shlex
import shutil
import sys
from pathlib import Path

NAME = "collector-packet"


def name_program() -> str:
    """Return how this run was started: ``collector-packet``, the way to it, or ``python -m packet``."""
    started = Path(sys.argv[0])
    if started.name == "__main__.py":
        return f"{Path(sys.executable).stem} -m packet"
    if started.stem != NAME:
        return NAME
    found = shutil.which(NAME)
    if found is not None and Path(found).resolve() == started.resolve():
        return NAME
    near = os.path.relpath(started)
    return shlex.quote(near if not near.startswith("..") else str(started))
