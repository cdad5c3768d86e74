"""Two pieces of work on two cores: both done, and a failure of either is raised here as what it is."""

from __future__ import annotations

import errno
import os
from pathlib import Path

import pytest

from packet import side_by_side
from packet.side_by_side import OtherSideFailed, run_side_by_side


def fail(error: BaseException) -> None:
    raise error


@pytest.mark.parametrize("fork", [True, False])
def test_both_are_done(tmp_path: Path, fork: bool, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(side_by_side, "can_fork", lambda: fork and hasattr(os, "fork"))
    run_side_by_side(lambda: (tmp_path / "a").touch(), lambda: (tmp_path / "b").touch())
    assert sorted(path.name for path in tmp_path.iterdir()) == ["a", "b"]


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
