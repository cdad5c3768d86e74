"""What a run prints: a reader that left, a full disk or a closed output ends in one true line, never in a traceback."""

from __future__ import annotations

import contextlib
import errno
import os
import sys
from collections.abc import Iterator
from typing import Any, TextIO, cast

REASONS = {
    errno.ENOSPC: "the disk is full",
    errno.EDQUOT: "the disk quota is used up",
    errno.EBADF: "the output is closed",
}


class CannotPrint(Exception):
    """The standard output takes no more. No OSError: nothing that was to be written to a file has failed."""

    def __init__(self, reason: str, done: str = "no file was written") -> None:
        self.reason, self.done = reason, done
        super().__init__(f"cannot print ({reason}); {done}")


class Guarded:
    """A standard stream that loses nothing in silence. gone: its reader left, or it failed; what follows is dropped.

    loud: raise CannotPrint when it fails (a reader that left is no fault: he has seen what he wanted)
    """

    def __init__(self, stream: TextIO | None, loud: bool) -> None:
        self.stream, self.loud, self.gone = stream, loud, False

    def write(self, text: str) -> int:
        if not self.gone:
            try:
                if self.stream is None:
                    raise OSError(errno.EBADF, os.strerror(errno.EBADF))
                self.stream.write(text)
            except OSError as error:
                self.lose(error)
        return len(text)

    def flush(self) -> None:
        if self.gone or self.stream is None:
            return
        try:
            self.stream.flush()
        except OSError as error:
            self.lose(error)

    def lose(self, error: OSError) -> None:
        """Drop what follows, also what the interpreter has in hand when it ends."""
        self.gone = True
        if self.stream is not None:
            with contextlib.suppress(OSError, ValueError):
                os.dup2(os.open(os.devnull, os.O_WRONLY), self.stream.fileno())
        if self.loud and error.errno != errno.EPIPE:
            raise CannotPrint(REASONS.get(error.errno or 0, error.strerror or str(error)))

    def __getattr__(self, name: str) -> Any:
        return getattr(self.stream, name)


@contextlib.contextmanager
def guard_streams() -> Iterator[None]:
    """Guard the standard streams while a command runs, and give an empty one in place of what was closed."""
    for number in (0, 1, 2):  # else the next file that is opened takes the number, and is printed into
        try:
            os.fstat(number)
        except OSError:
            os.open(os.devnull, os.O_RDWR)
    before = sys.stdin, sys.stdout, sys.stderr
    for stream in before:
        with contextlib.suppress(AttributeError, ValueError):
            stream.reconfigure(errors="replace")  # type: ignore[union-attr]
    with open(os.devnull, encoding="utf-8") as nothing:
        sys.stdin = before[0] or nothing
        sys.stdout, sys.stderr = cast(TextIO, Guarded(before[1], True)), cast(TextIO, Guarded(before[2], False))
        try:
            yield
            sys.stderr.flush()
        finally:
            sys.stdin, sys.stdout, sys.stderr = before


@contextlib.contextmanager
def tell_done(done: str) -> Iterator[None]:
    """Print inside: should that fail, the one line says what was done before it."""
    try:
        yield
        sys.stdout.flush()
    except CannotPrint as lost:
        raise CannotPrint(lost.reason, done) from None


def has_reader_left() -> bool:
    """Tell whether nobody reads the standard output any more."""
    return bool(getattr(sys.stdout, "gone", False))
