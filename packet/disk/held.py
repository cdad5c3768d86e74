"""A folder held by its handle: what is done in it by name never goes through a link, whoever plants one meanwhile.

Where a system has no such handles (Windows, where making a link takes a right of its own) the folder is used by path.
"""

from __future__ import annotations

import contextlib
import errno
import os
import shutil
import stat
import sys
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import BinaryIO

HAS_HANDLES = os.open in os.supports_dir_fd and hasattr(os, "O_NOFOLLOW") and hasattr(os, "O_DIRECTORY")
NEVER_WAIT = getattr(os, "O_NONBLOCK", 0) | getattr(os, "O_CLOEXEC", 0) | getattr(os, "O_BINARY", 0)
NO_LINK = getattr(os, "O_NOFOLLOW", 0)
AS_FOLDER = getattr(os, "O_DIRECTORY", 0) | NO_LINK | NEVER_WAIT
PIECE = 1 << 20
MOST_LINKS = 40


@dataclass(frozen=True)
class Held:
    """path: to say it, and to use it where handle is None."""

    path: Path
    handle: int | None

    def at(self, name: str) -> str:
        """Return how the system is given a name in this folder."""
        return name if self.handle is not None else str(self.path / name)


@contextlib.contextmanager
def hold_folder(path: Path, inside: Held | None = None) -> Iterator[Held]:
    """Hold a folder; a link in its place is not followed. Raises OSError: ENOTDIR for a link or a file."""
    if not HAS_HANDLES:
        if not stat.S_ISDIR(os.lstat(path).st_mode):
            raise NotADirectoryError(errno.ENOTDIR, os.strerror(errno.ENOTDIR), str(path))
        yield Held(path, None)
        return
    handle = open_way(path) if inside is None else os.open(path.name, os.O_RDONLY | AS_FOLDER, dir_fd=inside.handle)
    try:
        yield Held(path, handle)
    finally:
        os.close(handle)


def open_way(path: Path) -> int:
    """Return the handle of a folder, opened name by name from the top, so that no link is followed. Raises OSError.

    Only Linux opens folders on the way that may be passed through but not listed; elsewhere the last name is held.
    """
    if not hasattr(os, "O_PATH") or not path.is_absolute():
        return os.open(path, os.O_RDONLY | AS_FOLDER)
    at = os.open(path.anchor, os.O_PATH | AS_FOLDER)
    try:
        for part in path.parts[1:]:
            deeper = os.open(part, os.O_PATH | AS_FOLDER, dir_fd=at)
            os.close(at)
            at = deeper
        return os.open(".", os.O_RDONLY | AS_FOLDER, dir_fd=at)
    finally:
        os.close(at)


def list_names(folder: Held) -> list[str]:
    """Return the names in a folder, sorted."""
    return sorted(os.listdir(folder.path if folder.handle is None else folder.handle))


def look(folder: Held, name: str) -> os.stat_result | None:
    """Return what stands under a name, of a link the link itself; None when nothing does."""
    try:
        return os.stat(folder.at(name), dir_fd=folder.handle, follow_symlinks=False)
    except FileNotFoundError:
        return None


def is_folder(found: os.stat_result | None) -> bool:
    """Tell whether it is a real folder, no link to one."""
    return found is not None and stat.S_ISDIR(found.st_mode)


def is_file(found: os.stat_result | None) -> bool:
    """Tell whether it is a plain file: no link, pipe or device."""
    return found is not None and stat.S_ISREG(found.st_mode)


def is_mine(found: os.stat_result) -> bool:
    """Tell whether it belongs to who runs this."""
    return sys.platform == "win32" or found.st_uid == os.geteuid()


def is_same(one: os.stat_result | None, other: os.stat_result | None) -> bool:
    """Tell whether both are the same thing on the disk."""
    return one is not None and other is not None and os.path.samestat(one, other)


def move(name: str, folder: Held, new_name: str, new_folder: Held) -> None:
    """Give something another name; a link is moved as it is. Replaces a file, as rename does."""
    os.replace(
        folder.at(name), new_folder.at(new_name), src_dir_fd=folder.handle, dst_dir_fd=new_folder.handle
    )  # fmt: skip


def remove(name: str, folder: Held) -> None:
    """Remove a name. What a link points to stays, and so does a file that has another name."""
    os.unlink(folder.at(name), dir_fd=folder.handle)


def remove_empty(name: str, folder: Held) -> None:
    """Remove a folder that is empty. Raises OSError."""
    os.rmdir(folder.at(name), dir_fd=folder.handle)


def remove_all(name: str, folder: Held) -> None:
    """Remove a folder with what is in it, following no link on the way (``shutil.rmtree.avoids_symlink_attacks``)."""
    shutil.rmtree(folder.at(name), ignore_errors=True, dir_fd=folder.handle)


def link_or_copy(name: str, folder: Held, new_name: str, new_folder: Held) -> None:
    """Give a plain file a second name in another folder, or copy it there where the disk has no second names.

    Raises FileExistsError when the new name is taken, OSError; of a copy that failed nothing is left.
    """
    follow = {"follow_symlinks": False} if os.link in os.supports_follow_symlinks else {}
    try:
        os.link(
            folder.at(name), new_folder.at(new_name), src_dir_fd=folder.handle, dst_dir_fd=new_folder.handle, **follow
        )  # fmt: skip
    except FileExistsError:
        raise
    except OSError:
        copy_file(name, folder, new_name, new_folder)


def copy_file(name: str, folder: Held, new_name: str, new_folder: Held) -> None:
    """Copy a plain file with its times under a name that nothing has yet. Raises OSError."""
    with open_plain(Path(name), folder) as source:
        new = os.open(
            new_folder.at(new_name), os.O_WRONLY | os.O_CREAT | os.O_EXCL | NO_LINK | NEVER_WAIT, 0o600,
            dir_fd=new_folder.handle,
        )  # fmt: skip
        try:
            with os.fdopen(new, "wb") as stream:
                shutil.copyfileobj(source, stream, PIECE)
                stream.flush()
                found = os.fstat(source.fileno())
                if hasattr(os, "fchmod"):
                    os.fchmod(new, stat.S_IMODE(found.st_mode))
                if os.utime in os.supports_fd:
                    os.utime(new, ns=(found.st_atime_ns, found.st_mtime_ns))
        except BaseException:
            remove(new_name, new_folder)
            raise


class NotPlain(OSError):
    """A folder, pipe or device where a file is needed."""


def open_plain(path: Path, inside: Held | None = None) -> BinaryIO:
    """Open a plain file to read. A pipe or device is refused, not waited for; inside a held folder a link as well.

    Raises OSError, NotPlain for what is no file.
    """
    name = inside.at(str(path)) if inside is not None else str(path)
    handle, follow = (inside.handle, False) if inside is not None else (None, True)
    refuse_odd(os.stat(name, dir_fd=handle, follow_symlinks=follow), path)  # some devices act when they are opened
    opened = os.open(name, os.O_RDONLY | NEVER_WAIT | (0 if follow else NO_LINK), dir_fd=handle)
    try:
        refuse_odd(os.fstat(opened), path)
        return os.fdopen(opened, "rb")
    except BaseException:
        os.close(opened)
        raise


def refuse_odd(found: os.stat_result, path: Path) -> None:
    """Raise NotPlain for anything but a plain file."""
    if not is_file(found):
        raise NotPlain(errno.EINVAL, "it is not a plain file", str(path))


def hold_same_bytes(name: str, one: Held, other_name: str, other: Held) -> bool:
    """Tell whether two names hold the same file or the same bytes."""
    found, there = look(one, name), look(other, other_name)
    if is_same(found, there):
        return True
    if found is None or there is None or not (is_file(found) and is_file(there)) or found.st_size != there.st_size:
        return False
    try:
        with open_plain(Path(name), one) as first, open_plain(Path(other_name), other) as second:
            while piece := first.read(PIECE):
                if piece != second.read(PIECE):
                    return False
            return not second.read(1)
    except OSError:
        return False


def find_strange_link(path: Path) -> Path | None:
    """Return the first link on the way to a path that neither this user nor the administrator made, or None.

    In a folder that many may write to, such a link can lead outputs to a place its maker chose.
    """
    if sys.platform == "win32":
        return None
    here = Path(os.getcwd()) / path
    at, todo, links = Path(here.anchor), list(reversed(here.parts[1:])), 0
    while todo:
        part = todo.pop()
        at = at.parent if part == ".." else at / part
        try:
            found = os.lstat(at)
            if not stat.S_ISLNK(found.st_mode):
                continue
            aim = at.parent / os.readlink(at)
        except OSError:
            continue
        links += 1
        if found.st_uid not in (0, os.geteuid()):
            return at
        if links > MOST_LINKS:
            return None
        at, todo = Path(aim.anchor), todo + list(reversed(aim.parts[1:]))
    return None
