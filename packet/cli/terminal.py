"""What the terminal can show, and what is shown there of faults, doubts and progress."""

from __future__ import annotations

import os
import shutil
import sys
from collections.abc import Callable
from typing import TYPE_CHECKING

from packet.reading.problem import BadProject, show_problems

if TYPE_CHECKING:
    from packet.job import AnyJob


def use_colour(stream: object) -> bool:
    """Tell whether a stream is a terminal that wants colour."""
    return (
        bool(getattr(stream, "isatty", lambda: False)())
        and "NO_COLOR" not in os.environ
        and os.environ.get("TERM") != "dumb"
    )


def get_width() -> int:
    """Return the terminal's width in characters, within reason; 100 in a pipe."""
    return max(48, min(160, shutil.get_terminal_size((100, 24)).columns))


def show_bad_project(bad: BadProject, *, building: bool) -> None:
    """Show every problem of a file on stderr, and how many there are; a build that was wanted was not made."""
    print(show_problems(bad.problems, bad.lines, colour=use_colour(sys.stderr)), file=sys.stderr)
    count = len(bad.problems)
    print(f"{count} problem{'s' * (count != 1)}{'; nothing was built' * building}", file=sys.stderr)


def show_warnings(job: AnyJob) -> None:
    """Show doubts about the file on stderr."""
    for doubt in job.doubts:
        print(f"warning: {doubt}", file=sys.stderr)


def make_progress(quiet: bool) -> Callable[[str], None]:
    """Return a progress line for a terminal; nothing for a pipe."""
    if quiet or not use_colour(sys.stderr):
        return lambda _: None
    return lambda says: print(f"\r\x1b[K{says} ...", end="", file=sys.stderr, flush=True)


def clear_progress(quiet: bool) -> None:
    if not quiet and use_colour(sys.stderr):
        print("\r\x1b[K", end="", file=sys.stderr, flush=True)
