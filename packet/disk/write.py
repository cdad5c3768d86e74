"""Publish a folder of outputs whole or not at all.

All files are written into a hidden folder beside the target, which then takes the target's place in one step. A
reader sees the old outputs whole or the new outputs whole. What a killed build left behind is taken up by the next.
Files of the user's own inside the target are carried over, never deleted.

Links: one that leads to the target or to the log is followed when its user or the administrator made it, and refused
else. From there on nothing goes through a link: what is moved or deleted is named inside folders that are held. A file
is never written over in place, so that another name of it, or what a link in its place points to, stays as it is.
"""

from __future__ import annotations

import contextlib
import ctypes
import errno
import os
import re
import secrets
import shutil
import stat
import sys
import tempfile
from collections.abc import Callable, Iterator, Mapping, Sequence
from pathlib import Path
from typing import BinaryIO

from packet.disk.carry import NEW, OLD, OUTPUT_FOLDERS, carry_files, lock_folder, put_away, take_up_leftovers
from packet.disk.held import (
    NEVER_WAIT,
    NO_LINK,
    Held,
    find_strange_link,
    hold_folder,
    is_file,
    is_folder,
    is_mine,
    is_same,
    look,
    move,
    remove,
    remove_empty,
)

RESERVED = re.compile(r"(con|prn|aux|nul|com\d|lpt\d)(\..*)?", re.IGNORECASE)
AT_FDCWD, RENAME_EXCHANGE = -100, 2
SYNC_FLAGS = os.O_RDWR if sys.platform == "win32" else os.O_RDONLY  # Windows syncs only what it may write
Rescue = Callable[[Held, Held], Mapping[str, str]]
"""Given the old folder and the new one: bring over what somebody wrote into an old output; old names to new ones."""


class CannotWrite(OSError):
    """The outputs cannot be written; the target is as it was. Carries one line for the user."""


class BadTarget(ValueError):
    """The folder asked for must not be used for outputs."""


def name_folder(stem: str) -> str:
    """Return a folder's name for a project file's stem that every usual system can hold."""
    name = re.sub(r'[<>:"|?*\\\x00-\x1f]', "-", stem).rstrip(". ") or "packet"
    return f"{name}-packet" if RESERVED.fullmatch(name) else name


def check_target(target: Path, project_file: Path) -> Path:
    """Return the real path of the target folder. Raises BadTarget when it is no folder of its own."""
    if (strange := find_strange_link(target)) is not None:
        raise BadTarget(f"{strange} is a link that somebody else made; name the folder itself, or another one")
    real = Path(os.path.realpath(target))
    if real.exists() and not real.is_dir():
        raise BadTarget(f"{target} is a file; choose a folder for the outputs")
    used = {Path(os.path.realpath(os.getcwd())), Path(os.path.realpath(project_file)).parent, Path.home().resolve()}
    if real == Path(real.anchor) or any(real == place or real in place.parents for place in used):
        raise BadTarget(
            f"{target} holds other things; choose a folder of its own for the outputs, such as out/boatshed"
        )
    return real


def refuse_mount(target: Path) -> None:
    """Raise BadTarget for the top of a disk of its own, or one inside: it cannot be replaced by new outputs."""
    for place in (target, *(target / name for name in sorted(OUTPUT_FOLDERS))):
        if os.path.ismount(place):
            advice = f"choose a folder inside it, such as {target / 'shop'}" if place == target else "take it off there"
            raise BadTarget(f"{place} is the top of a disk of its own; {advice}")


def rescue_nothing(_: Held, __: Held) -> Mapping[str, str]:
    """Rescue for outputs that nobody writes into."""
    return {}


@contextlib.contextmanager
def stage_outputs(target: Path, rescue: Rescue = rescue_nothing) -> Iterator[Path]:
    """Give a hidden folder to fill; publish it at the end, or leave no trace after a failure. Raises CannotWrite."""
    made = [folder for folder in (target.parent, *target.parent.parents) if not folder.exists()]
    staged: Path | None = None
    done = False
    with contextlib.ExitStack() as stack:
        try:
            try:
                target.parent.mkdir(parents=True, exist_ok=True)
                with hold_parent(target) as parent:  # a folder not yet locked must not look like a leftover to another
                    take_up_leftovers(target.name, parent)
                    staged = Path(tempfile.mkdtemp(prefix=f".{target.name}{NEW}", dir=target.parent))
                    held = stack.enter_context(hold_folder(staged, parent))
                    lock_folder(held)
                    os.chmod(staged if held.handle is None else held.handle, 0o755)
                yield staged
                publish(held, target, rescue)
            except OSError as error:
                raise CannotWrite(explain_os_error(error, target)) from error
            done = True
        finally:
            if staged is not None and not done:
                shutil.rmtree(staged, ignore_errors=True)
            if not done:
                for folder in made:
                    with contextlib.suppress(OSError):
                        folder.rmdir()


def explain_os_error(error: OSError, target: Path) -> str:
    """Return one line that says what could not be written, and why."""
    reasons = {
        errno.ENOSPC: "the disk is full",
        errno.EDQUOT: "the disk quota is used up",
        errno.EACCES: "you may not write there",
        errno.EPERM: "you may not write there",
        errno.EROFS: "the disk is read-only",
        errno.ENAMETOOLONG: "the name is too long",
        errno.ENOTDIR: "a file stands where a folder is needed",
        errno.EEXIST: "a file stands where a folder is needed",
        errno.EBUSY: "the folder is the top of a disk of its own; choose a folder inside it",
        errno.EXDEV: "the folder is the top of a disk of its own; choose a folder inside it",
        errno.EFBIG: "a file would be larger than this disk or account allows",
        errno.EIO: "the disk does not answer",
        errno.ENOENT: "the folder vanished",
    }
    return f"cannot write {target}: {reasons.get(error.errno or 0, error.strerror or str(error))}"


def write_whole(path: Path, fill: Callable[[BinaryIO], object], before: Rescue = rescue_nothing) -> None:
    """Write one file whole or not at all: fill a temporary neighbour, then take the name. Raises CannotWrite.

    before: called with the folder (twice) just before the old file's place is taken
    """
    try:
        path.parent.mkdir(parents=True, exist_ok=True)
        with hold_folder(find_parent(path)) as folder:
            temporary = write_temporary(path.name, fill, folder)
            try:
                before(folder, folder)
                move(temporary, folder, path.name, folder)
            except BaseException:
                remove(temporary, folder)
                raise
    except CannotWrite:
        raise
    except OSError as error:
        raise CannotWrite(explain_os_error(error, path)) from error


def write_new(path: Path, text: str) -> None:
    """Write a text file whole under a name that is not taken. Raises FileExistsError when it is, CannotWrite."""
    try:
        with hold_folder(find_parent(path)) as folder:
            temporary = write_temporary(path.name, lambda stream: stream.write(text.encode("utf-8")), folder)
            try:
                take_name(temporary, path.name, folder)
            finally:
                with contextlib.suppress(FileNotFoundError):
                    remove(temporary, folder)
    except (FileExistsError, CannotWrite):
        raise
    except OSError as error:
        raise CannotWrite(explain_os_error(error, path)) from error


def find_parent(path: Path) -> Path:
    """Return the real folder that a file is in. Raises CannotWrite when another person's link leads there."""
    if (strange := find_strange_link(path.parent)) is not None:
        raise CannotWrite(f"cannot write {path}: {strange} is a link that somebody else made")
    return Path(os.path.realpath(path.parent))


def write_temporary(name: str, fill: Callable[[BinaryIO], object], folder: Held) -> str:
    """Return the name of a hidden new file beside the one named, filled and on the disk, with that one's rights.

    Raises OSError, and what fill raises; then nothing is left.
    """
    old = look(folder, name)
    mode = stat.S_IMODE(old.st_mode) if is_file(old) and old is not None else 0o644
    temporary = f".{name}.{secrets.token_hex(4)}.part"
    flags = os.O_WRONLY | os.O_CREAT | os.O_EXCL | NO_LINK | NEVER_WAIT
    handle = os.open(folder.at(temporary), flags, 0o600, dir_fd=folder.handle)
    try:
        with os.fdopen(handle, "wb") as stream:
            fill(stream)
            stream.flush()
            if hasattr(os, "fchmod"):
                os.fchmod(handle, mode)
            sync(handle)
    except BaseException:
        remove(temporary, folder)
        raise
    return temporary


def take_name(temporary: str, name: str, folder: Held) -> None:
    """Give a file a name that nothing has yet. Raises FileExistsError."""
    try:
        os.link(folder.at(temporary), folder.at(name), src_dir_fd=folder.handle, dst_dir_fd=folder.handle)
    except FileExistsError:
        raise
    except OSError:  # a disk without second names: take the name first, then put the file in its place
        os.close(os.open(folder.at(name), os.O_WRONLY | os.O_CREAT | os.O_EXCL, 0o600, dir_fd=folder.handle))
        move(temporary, folder, name, folder)


def publish(staged: Held, target: Path, rescue: Rescue = rescue_nothing) -> None:
    """Put the staged folder in the target's place, in one step where the system can."""
    sync_all([path for path in sorted(staged.path.rglob("*")) if path.is_file()])
    hidden = staged.path.name
    with hold_parent(target) as parent:
        refuse_swapped(staged, parent)
        if look(parent, target.name) is None:
            move(hidden, parent, target.name, parent)
            return
        with hold_folder(target, parent) as old:
            kept = rescue(old, staged)
            carry_files(old, staged)
            if not exchange(parent, hidden, target.name):
                hidden = f".{target.name}{OLD}{os.getpid()}"
                move(target.name, parent, hidden, parent)
                try:
                    move(staged.path.name, parent, target.name, parent)
                except OSError:
                    move(hidden, parent, target.name, parent)
                    raise
            put_away(old, staged, kept)
        with contextlib.suppress(OSError):
            remove_empty(hidden, parent)


def refuse_swapped(staged: Held, parent: Held) -> None:
    """Raise FileNotFoundError when the hidden folder is no longer the one that was filled."""
    found = look(parent, staged.path.name)
    if found is None or not is_folder(found) or not is_mine(found):
        raise FileNotFoundError(errno.ENOENT, os.strerror(errno.ENOENT), str(staged.path))
    if staged.handle is not None and not is_same(os.fstat(staged.handle), found):
        raise FileNotFoundError(errno.ENOENT, os.strerror(errno.ENOENT), str(staged.path))


@contextlib.contextmanager
def hold_parent(target: Path) -> Iterator[Held]:
    """Hold the folder a target is in; let one build at a time publish into it."""
    with hold_folder(target.parent) as parent:
        if parent.handle is None or sys.platform == "win32":
            yield parent
            return
        import fcntl

        with contextlib.suppress(OSError):
            fcntl.flock(parent.handle, fcntl.LOCK_EX)
        yield parent
        with contextlib.suppress(OSError):
            os.fsync(parent.handle)


def exchange(parent: Held, one: str, other: str) -> bool:
    """Swap two folders of a held folder in one step; tell whether the system could."""
    if not sys.platform.startswith("linux"):
        return False
    try:
        rename = ctypes.CDLL(None, use_errno=True).renameat2
    except (AttributeError, OSError):
        return False
    at = AT_FDCWD if parent.handle is None else parent.handle
    names = (os.fsencode(parent.at(one)), os.fsencode(parent.at(other)))
    return bool(rename(at, names[0], at, names[1], RENAME_EXCHANGE) == 0)


def sync_all(paths: Sequence[Path]) -> None:
    """Sync many files at once; a disk takes them together in a fraction of the time."""
    from concurrent.futures import ThreadPoolExecutor

    with ThreadPoolExecutor(max_workers=16) as pool:
        for _ in pool.map(sync, paths):
            pass


def sync(file: Path | int) -> None:
    """Make sure a file's bytes are on the disk; a full disk shows here. file: its path, or its handle."""
    if isinstance(file, int):
        os.fsync(file)
        return
    handle = os.open(file, SYNC_FLAGS | NO_LINK)
    try:
        os.fsync(handle)
    finally:
        os.close(handle)
