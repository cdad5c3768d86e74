"""Run two independent pieces of work side by side on two cores, where the system can; one after the other elsewhere."""

from __future__ import annotations

import os
import pickle
import signal
import sys
import traceback
from collections.abc import Callable
from contextlib import suppress

from packet.words.reader import BadWords

Work = Callable[[], None]
END_WITH_PARENT = 1  # PR_SET_PDEATHSIG of Linux


class OtherSideFailed(RuntimeError):
    """The work beside ours failed by an internal error; carries its traceback."""


def run_side_by_side(here: Work, beside: Work) -> None:
    """Run `here` in this process and `beside` in a copy of it. Raises what either raises; OSError and BadWords stay."""
    if not can_fork():
        here()
        beside()
        return
    reading, writing = os.pipe()
    sys.stdout.flush()
    sys.stderr.flush()
    parent = os.getpid()
    child = os.fork()
    if child == 0:
        os.close(reading)
        end_with(parent)
        run_as_copy(beside, writing)
    os.close(writing)
    try:
        here()
        with os.fdopen(reading, "rb") as stream:
            said = stream.read()
    except BaseException:
        with suppress(OSError):
            os.kill(child, signal.SIGKILL)
        os.waitpid(child, 0)
        raise
    _, status = os.waitpid(child, 0)
    if said:
        error = pickle.loads(said)  # our own copy wrote it
        raise error
    if status != 0:
        raise OtherSideFailed("the work beside ours was killed")


def can_fork() -> bool:
    """Tell whether this system can copy a process and has a second core for it."""
    return hasattr(os, "fork") and sys.platform != "darwin" and (os.cpu_count() or 1) > 1


def end_with(parent: int) -> None:
    """Let this process be ended when its parent is: nobody would publish what it writes."""
    if not sys.platform.startswith("linux"):
        return
    import ctypes

    with suppress(AttributeError, OSError):
        ctypes.CDLL(None).prctl(END_WITH_PARENT, signal.SIGKILL, 0, 0, 0)
    if os.getppid() != parent:  # it ended before it could be asked
        os._exit(1)


def run_as_copy(work: Work, writing: int) -> None:
    """Run in the copied process, say what went wrong through the pipe, and end without any clean-up of the parent's."""
    status = 0
    try:
        work()
    except OSError as error:
        status = 1
        os.write(writing, pickle.dumps(OSError(error.errno, error.strerror, error.filename)))
    except BadWords as fault:
        status = 1
        os.write(writing, pickle.dumps(fault))
    except BaseException as error:
        status = 1
        with suppress(OSError):
            os.write(writing, pickle.dumps(OtherSideFailed("".join(traceback.format_exception(error))[-30000:])))
    finally:
        os._exit(status)
