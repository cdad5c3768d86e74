"""Publish a folder of outputs whole or not at all.

All files are written into a hidden folder beside the target, which then takes the target's place in one step. A
reader sees the old outputs whole or the new outputs whole. What a killed build left behind is taken up by the next.
Files of the user's own inside the target are carried over, never deleted.
"""

from __future__ import annotations

import contextlib
import ctypes
import errno
import os
import re
import shutil
import sys
import tempfile
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path

OUTPUT_FILES = frozenset({"packet.pdf", "helper.pdf", "helper.html", "bill.csv", "cuts.csv", "sizing.json"})
OUTPUT_FOLDERS = frozenset({"parts", "large"})
ONLY_FILE = re.compile(r"only-[a-z0-9_-]+\.pdf")
RESERVED = re.compile(r"(con|prn|aux|nul|com\d|lpt\d)(\..*)?", re.IGNORECASE)
AT_FDCWD, RENAME_EXCHANGE = -100, 2
SYNC_FLAGS = os.O_RDWR if sys.platform == "win32" else os.O_RDONLY  # Windows syncs only what it may write
NEW, OLD = ".packet-new-", ".packet-old-"


class CannotWrite(OSError):
    """The outputs cannot be written; the target is as it was. Carries one line for the user."""


class BadTarget(ValueError):
    """The folder asked for must not be used for outputs."""


@dataclass(frozen=True)
class Staging:
    """A hidden folder being filled for a target."""

    folder: Path
    target: Path


def is_output(name: str) -> bool:
    """Tell whether a name in the target folder is one of our own outputs."""
    return name in OUTPUT_FILES or name in OUTPUT_FOLDERS or ONLY_FILE.fullmatch(name) is not None


def name_folder(stem: str) -> str:
    """Return a folder's name for a project file's stem that every usual system can hold."""
    name = re.sub(r'[<>:"|?*\\\x00-\x1f]', "-", stem).rstrip(". ") or "packet"
    return f"{name}-packet" if RESERVED.fullmatch(name) else name


def check_target(target: Path, project_file: Path) -> Path:
    """Return the real path of the target folder. Raises BadTarget when it is no folder of its own."""
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
    """Raise BadTarget for the top of a disk of its own: it cannot be replaced by a folder with the new outputs."""
    if os.path.ismount(target):
        raise BadTarget(
            f"{target} is the top of a disk of its own; choose a folder inside it, such as {target / 'shop'}"
        )


@contextlib.contextmanager
def stage_outputs(target: Path) -> Iterator[Staging]:
    """Give a hidden folder to fill; publish it at the end, or leave no trace after a failure. Raises CannotWrite."""
    made = [folder for folder in (target.parent, *target.parent.parents) if not folder.exists()]
    lock: int | None = None
    staged: Path | None = None
    done = False
    try:
        try:
            target.parent.mkdir(parents=True, exist_ok=True)
            with hold_parent(target):  # a folder that is not yet locked must not look like a leftover to another build
                take_up_leftovers(target)
                staged = Path(tempfile.mkdtemp(prefix=f".{target.name}{NEW}", dir=target.parent))
                staged.chmod(0o755)
                lock = lock_folder(staged)
            yield Staging(staged, target)
            publish(staged, target)
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
        if lock is not None:
            os.close(lock)


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


def write_whole(path: Path, fill: Callable[[Path], None]) -> None:
    """Write one file whole or not at all: fill a temporary neighbour, then take the name. Raises CannotWrite."""
    temporary: Path | None = None
    try:
        path.parent.mkdir(parents=True, exist_ok=True)
        handle, name = tempfile.mkstemp(prefix=f".{path.name}.", suffix=".part", dir=path.parent)
        os.close(handle)
        temporary = Path(name)
        fill(temporary)
        temporary.chmod(0o644)
        sync(temporary)
        os.replace(temporary, path)
        temporary = None
    except OSError as error:
        raise CannotWrite(explain_os_error(error, path)) from error
    finally:
        if temporary is not None:
            temporary.unlink(missing_ok=True)


def write_new(path: Path, text: str) -> None:
    """Write a text file whole under a name that is not taken. Raises FileExistsError when it is, CannotWrite."""
    temporary: Path | None = None
    try:
        handle, name = tempfile.mkstemp(prefix=f".{path.name}.", suffix=".part", dir=path.parent)
        temporary = Path(name)
        with os.fdopen(handle, "w", encoding="utf-8", newline="\n") as stream:
            stream.write(text)
        temporary.chmod(0o644)
        sync(temporary)
        take_name(temporary, path)
    except FileExistsError:
        raise
    except OSError as error:
        raise CannotWrite(explain_os_error(error, path)) from error
    finally:
        if temporary is not None:
            temporary.unlink(missing_ok=True)


def take_name(temporary: Path, path: Path) -> None:
    """Give a file a name that nothing has yet. Raises FileExistsError."""
    try:
        os.link(temporary, path)
    except FileExistsError:
        raise
    except OSError:  # a disk without second names
        if os.path.lexists(path):
            raise FileExistsError(errno.EEXIST, os.strerror(errno.EEXIST), str(path)) from None
        os.rename(temporary, path)


def publish(staged: Path, target: Path) -> None:
    """Put the staged folder in the target's place, in one step where the system can."""
    sync_all([path for path in sorted(staged.rglob("*")) if path.is_file()])
    with hold_parent(target):
        if not target.exists():
            os.rename(staged, target)
            return
        carry_files(target, staged)
        if exchange(staged, target):
            put_away(staged, target)
            return
        old = target.parent / f".{target.name}{OLD}{os.getpid()}"
        os.rename(target, old)
        try:
            os.rename(staged, target)
        except OSError:
            os.rename(old, target)
            raise
        put_away(old, target)


def carry_files(target: Path, staged: Path) -> None:
    """Bring the user's own files into the staged folder (the same file under a second name, or a copy)."""
    for entry in target.iterdir():
        if is_output(entry.name) or not entry.is_file() or entry.is_symlink():
            continue
        try:
            os.link(entry, staged / entry.name)
        except OSError:
            shutil.copy2(entry, staged / entry.name)


def put_away(old: Path, target: Path) -> None:
    """Move what is the user's from an old folder into the target, and delete our own old outputs."""
    for entry in list(old.iterdir()):
        mine = is_output(entry.name)
        if not mine and not os.path.lexists(target / entry.name):
            with contextlib.suppress(OSError):
                os.rename(entry, target / entry.name)
        elif entry.is_dir() and not entry.is_symlink():
            if mine:
                shutil.rmtree(entry, ignore_errors=True)
        elif mine or is_same_file(entry, target / entry.name):
            with contextlib.suppress(OSError):
                entry.unlink()
    with contextlib.suppress(OSError):
        old.rmdir()


def is_same_file(one: Path, other: Path) -> bool:
    """Tell whether two names hold the same file or the same bytes."""
    try:
        return os.path.samefile(one, other) or one.read_bytes() == other.read_bytes()
    except OSError:
        return False


def take_up_leftovers(target: Path) -> None:
    """Take up what a killed build left beside the target: bring back a lost target, clear hidden folders."""
    for prefix in (OLD, NEW):
        for left in sorted(target.parent.glob(f".{glob_escape(target.name)}{prefix}*")):
            lock = lock_folder(left)
            if lock is None and sys.platform != "win32":
                continue
            try:
                if prefix == OLD and not target.exists() and any(left.iterdir()):
                    os.rename(left, target)
                elif target.exists():
                    put_away(left, target)
                else:
                    shutil.rmtree(left, ignore_errors=True)
            finally:
                if lock is not None:
                    os.close(lock)


def glob_escape(name: str) -> str:
    return re.sub(r"([*?\[])", r"[\1]", name)


def lock_folder(folder: Path) -> int | None:
    """Return a handle that locks a folder while this process lives, or None when another holds it or none can."""
    if sys.platform == "win32":
        return None
    import fcntl

    try:
        handle = os.open(folder, os.O_RDONLY)
    except OSError:
        return None
    try:
        fcntl.flock(handle, fcntl.LOCK_EX | fcntl.LOCK_NB)
    except OSError:
        os.close(handle)
        return None
    return handle


@contextlib.contextmanager
def hold_parent(target: Path) -> Iterator[None]:
    """Let one build at a time publish into a parent folder."""
    if sys.platform == "win32":
        yield
        return
    import fcntl

    handle = os.open(target.parent, os.O_RDONLY)
    try:
        with contextlib.suppress(OSError):
            fcntl.flock(handle, fcntl.LOCK_EX)
        yield
        with contextlib.suppress(OSError):
            os.fsync(handle)
    finally:
        os.close(handle)


def exchange(one: Path, other: Path) -> bool:
    """Swap two folders in one step; tell whether the system could."""
    if not sys.platform.startswith("linux"):
        return False
    try:
        rename = ctypes.CDLL(None, use_errno=True).renameat2
    except (AttributeError, OSError):
        return False
    return bool(rename(AT_FDCWD, os.fsencode(one), AT_FDCWD, os.fsencode(other), RENAME_EXCHANGE) == 0)


def sync_all(paths: Sequence[Path]) -> None:
    """Sync many files at once; a disk takes them together in a fraction of the time."""
    from concurrent.futures import ThreadPoolExecutor

    with ThreadPoolExecutor(max_workers=16) as pool:
        for _ in pool.map(sync, paths):
            pass


def sync(path: Path) -> None:
    """Make sure a file's bytes are on the disk; a full disk shows here."""
    handle = os.open(path, SYNC_FLAGS)
    try:
        os.fsync(handle)
    finally:
        os.close(handle)
