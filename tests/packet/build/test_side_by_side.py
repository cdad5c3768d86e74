"""Two pieces of work on two cores: both done, and a failure of either is raised here as what it is."""

from __future__ import annotations

import errno
import os
import subprocess
import sys
import time
from pathlib import Path

import pytest

from packet.build import side_by_side
from packet.build.side_by_side import OtherSideFailed, run_side_by_side


def fail(error: BaseException) -> None:
    raise error


@pytest.mark.parametrize("fork", [True, False])
def test_both_are_done(tmp_path: Path, fork: bool, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(side_by_side, "can_fork", lambda: fork and hasattr(os, "fork"))
    run_side_by_side(lambda: (tmp_path / "a").touch(), lambda: (tmp_path / "b").touch())
    assert sorted(path.name for path in tmp_path.iterdir()) == ["a", "b"]


CHILD = """
import sys, time
from pathlib import Path
from packet.build import side_by_side
side_by_side.can_fork = lambda: True
def wait():
    while True:
        Path(sys.argv[1]).write_text(str(time.monotonic()))
        time.sleep(0.005)
side_by_side.run_side_by_side(lambda: time.sleep(60), wait)
"""


@pytest.mark.skipif(not sys.platform.startswith("linux"), reason="asked of the kernel on Linux only")
def test_the_work_beside_ends_when_its_parent_is_killed(tmp_path: Path) -> None:
    beat = tmp_path / "beat"
    environment = {**os.environ, "PYTHONPATH": str(Path(__file__).parents[3])}
    process = subprocess.Popen([sys.executable, "-c", CHILD, str(beat)], env=environment)
    until = time.monotonic() + 20
    while not beat.exists() and time.monotonic() < until:
        time.sleep(0.005)
    process.kill()
    process.wait()
    time.sleep(0.05)  # it may be in the middle of its last beat
    last = beat.read_text()
    time.sleep(0.1)
    assert beat.read_text() == last


@pytest.mark.skipif(not hasattr(os, "fork"), reason="no fork")
def test_a_full_disk_beside_is_a_full_disk_here(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(side_by_side, "can_fork", lambda: True)
    with pytest.raises(OSError, match="full") as caught:
        run_side_by_side(lambda: None, lambda: fail(OSError(errno.ENOSPC, "full")))
    assert caught.value.errno == errno.ENOSPC


@pytest.mark.skipif(not hasattr(os, "fork"), reason="no fork")
def test_a_fault_beside_keeps_its_traceback_and_a_fault_here_ends_both(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(side_by_side, "can_fork", lambda: True)
    with pytest.raises(OtherSideFailed, match="ZeroDivisionError"):
        run_side_by_side(lambda: None, lambda: fail(ZeroDivisionError()))
    with pytest.raises(KeyError):
        run_side_by_side(lambda: fail(KeyError("here")), lambda: None)
