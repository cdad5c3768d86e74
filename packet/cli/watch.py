"""Run again whenever the project file is saved; a broken file leaves the last good packet where it is."""

from __future__ import annotations

import sys
import time
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

from packet.cli.streams import has_reader_left
from packet.disk.write import CannotWrite
from packet.reading.problem import BadProject

LOOK_EVERY_S = 0.1


@dataclass(frozen=True)
class FileStamp:
    """What changes when a file is saved, also when an editor puts a new file in its place."""

    changed: int
    size: int
    number: int


def take_stamp(path: Path) -> FileStamp | None:
    """Return the stamp of a file, or None while there is none."""
    try:
        found = path.stat()
    except OSError:
        return None
    return FileStamp(found.st_mtime_ns, found.st_size, found.st_ino)


def watch_file(
    path: Path,
    run: Callable[[], int],
    *,
    building: bool,
    sleep: Callable[[float], None] = time.sleep,
    rounds: int | None = None,
) -> int:
    """Run now and after every save until stopped; return the status of the last run.

    rounds: how often to look, for tests. A fault of the user's ends a run, never the watch.
    """
    seen: FileStamp | None = None
    status = 0
    looked = 0
    first = True
    while rounds is None or looked < rounds:
        looked += 1
        stamp = take_stamp(path)
        if first or (stamp is not None and stamp != seen):
            seen, first = stamp, False
            status = run_once(run, building=building)
            if has_reader_left():
                return status
            print(f"watching {path}; stop with Ctrl-C", file=sys.stderr, flush=True)
        sleep(LOOK_EVERY_S)
    return status


def run_once(run: Callable[[], int], *, building: bool) -> int:
    """Run and show the user's faults without ending."""
    from packet.cli.terminal import show_bad_project

    try:
        status = run()
        sys.stdout.flush()
        return status
    except BadProject as bad:
        show_bad_project(bad, building=building)
        if building:
            print("the last good packet is left as it is", file=sys.stderr)
        return 2
    except CannotWrite as cannot:
        print(f"collector-packet: {cannot}", file=sys.stderr)
        return 3
