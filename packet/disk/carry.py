"""What of an old folder of outputs goes and what is carried over, and what a killed build left beside it.

Only real folders of who runs this are taken up. A link is never followed: under a name of ours it is removed as a link,
else it is moved as a link, and the place it points to stays as it is.
"""

from __future__ import annotations

import contextlib
import os
import re
import sys
from collections.abc import Mapping

from packet.disk.held import (
    Held,
    hold_folder,
    hold_same_bytes,
    is_file,
    is_folder,
    is_mine,
    is_same,
    link_or_copy,
    list_names,
    look,
    move,
    remove,
    remove_all,
    remove_empty,
)

OUTPUT_FILES = frozenset({"packet.pdf", "helper.pdf", "helper.html", "bill.csv", "cuts.csv", "sizing.json"})
OUTPUT_FOLDERS = frozenset({"parts", "large"})
ONLY_FILE = re.compile(r"only-[a-z0-9_-]+\.pdf")
KEPT_FILE = re.compile(r".+-filled(-\d{4}-\d\d-\d\d)?(-\d+)?\.pdf")
NEW, OLD = ".packet-new-", ".packet-old-"


def is_output(name: str, found: os.stat_result) -> bool:
    """Tell whether a thing in the folder is one of our own outputs; a filled form that was kept is not."""
    if name in OUTPUT_FOLDERS:
        return not is_file(found)
    ours = name in OUTPUT_FILES or (ONLY_FILE.fullmatch(name) is not None and not KEPT_FILE.fullmatch(name))
    return ours and not is_folder(found)


def carry_files(old: Held, new: Held) -> None:
    """Bring the user's own files into the new folder, so that they are there from the first moment on.

    What may not be linked or read stays behind; ``put_away`` moves it. Raises OSError when the disk is full.
    """
    for name in list_names(old):
        found = look(old, name)
        if found is not None and is_file(found) and not is_output(name, found):
            with contextlib.suppress(FileExistsError, FileNotFoundError, PermissionError):
                link_or_copy(name, old, name, new)


def put_away(old: Held, new: Held, keep: Mapping[str, str] | None = None) -> None:
    """Move what is the user's from an old folder into the new one, and delete our own old outputs.

    keep: new names of outputs that hold what somebody wrote; they are moved where they could not be linked before
    """
    keep = keep or {}
    for name in list_names(old):
        found = look(old, name)
        if found is None:
            continue
        with contextlib.suppress(OSError):
            if name in keep and look(new, keep[name]) is None:
                move(name, old, keep[name], new)
            elif is_output(name, found):
                remove_output(name, found, old)
            elif look(new, name) is None:
                move(name, old, name, new)
            elif hold_same_bytes(name, old, name, new):
                remove(name, old)
            else:
                move(name, old, find_free(name, new), new)


def remove_output(name: str, found: os.stat_result, folder: Held) -> None:
    """Delete an output; of a link only the link."""
    if is_folder(found):
        remove_all(name, folder)
    else:
        remove(name, folder)


def find_free(name: str, *folders: Held) -> str:
    """Return the name, or the next numbered one that is free in every folder: notes.txt, notes-2.txt."""
    stem, dot, suffix = name.rpartition(".")
    if not stem:
        stem, dot, suffix = name, "", ""
    free, number = name, 1
    while any(look(folder, free) is not None for folder in folders):
        number += 1
        free = f"{stem}-{number}{dot}{suffix}"
    return free


def take_up_leftovers(target: str, parent: Held) -> None:
    """Take up what a killed build left beside the target: bring back a lost target, clear hidden folders.

    A link, a file, a folder of somebody else and one that a running build holds are left alone.
    """
    for prefix in (OLD, NEW):
        ours = re.compile(re.escape(f".{target}{prefix}") + "[a-z0-9_]+")
        for name in filter(ours.fullmatch, list_names(parent)):
            found = look(parent, name)
            if found is None or not is_folder(found) or not is_mine(found):
                continue
            with contextlib.suppress(OSError), hold_folder(parent.path / name, parent) as left:
                if lock_folder(left) and is_unchanged(left, found):
                    take_up(name, left, prefix, target, parent)


def is_unchanged(held: Held, found: os.stat_result) -> bool:
    """Tell whether the folder held is the one that was looked at."""
    return held.handle is None or is_same(os.fstat(held.handle), found)


def take_up(name: str, left: Held, prefix: str, target: str, parent: Held) -> None:
    """Take up one leftover. Raises OSError."""
    there = look(parent, target)
    if there is None and prefix == OLD and list_names(left):
        move(name, parent, target, parent)
        return
    if is_folder(there):
        with hold_folder(parent.path / target, parent) as new:
            put_away(left, new)
    elif there is None:
        for each in list_names(left):
            found = look(left, each)
            if found is not None and is_output(each, found):
                remove_output(each, found, left)
        if list_names(left):
            move(name, parent, target, parent)
            return
    remove_empty(name, parent)


def lock_folder(folder: Held) -> bool:
    """Lock a folder for as long as it is held; tell whether no other process holds it. Without locks: always."""
    if sys.platform == "win32" or folder.handle is None:
        return True
    import fcntl

    try:
        fcntl.flock(folder.handle, fcntl.LOCK_EX | fcntl.LOCK_NB)
    except OSError:
        return False
    return True
