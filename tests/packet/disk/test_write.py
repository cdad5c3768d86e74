"""Outputs appear whole or not at all: failure, kill at random moments, two at once, the user's own files."""

from __future__ import annotations

import errno
import os
import random
import signal
import subprocess
import sys
import threading
import time
from pathlib import Path

import pytest

from packet.disk import write
from packet.disk.write import BadTarget, CannotWrite, check_target, explain_os_error, stage_outputs, write_whole

FILES = ("packet.pdf", "bill.csv", "parts/lid.svg", "parts/lid.dxf", "large/box.pdf")


def fill(folder: Path, text: str) -> None:
    for name in FILES:
        (folder / name).parent.mkdir(exist_ok=True)
        (folder / name).write_text(text)


def publish(target: Path, text: str) -> None:
    with stage_outputs(target) as staging:
        fill(staging, text)


def read_all(folder: Path) -> dict[str, str]:
    return {str(p.relative_to(folder)): p.read_text() for p in sorted(folder.rglob("*")) if p.is_file()}


def test_a_new_folder_and_its_parents_are_made(tmp_path: Path) -> None:
    publish(tmp_path / "out" / "shop", "one")
    assert read_all(tmp_path) == {f"out/shop/{name}": "one" for name in FILES}


def test_new_outputs_take_the_place_of_old_ones_and_old_parts_go(tmp_path: Path) -> None:
    target = tmp_path / "shop"
    publish(target, "one")
    (target / "parts" / "old lid.svg").write_text("stale")
    publish(target, "two")
    assert read_all(tmp_path) == {f"shop/{name}": "two" for name in FILES}


def fail_after_filling(target: Path) -> None:
    with stage_outputs(target) as staging:
        fill(staging, "two")
        raise ZeroDivisionError


def test_a_failure_leaves_the_old_outputs_and_no_trace(tmp_path: Path) -> None:
    target = tmp_path / "shop"
    publish(target, "one")
    with pytest.raises(ZeroDivisionError):
        fail_after_filling(target)
    assert read_all(tmp_path) == {f"shop/{name}": "one" for name in FILES}


def test_a_failed_first_build_leaves_no_empty_folder(tmp_path: Path) -> None:
    with pytest.raises(ZeroDivisionError), stage_outputs(tmp_path / "out" / "shop"):
        raise ZeroDivisionError
    assert list(tmp_path.iterdir()) == []


def test_files_of_the_users_own_are_carried_over(tmp_path: Path) -> None:
    target = tmp_path / "shop"
    publish(target, "one")
    (target / "my notes.txt").write_text("measured twice")
    (target / "photos").mkdir()
    (target / "photos" / "lid.jpg").write_text("picture")
    (target / "elsewhere").symlink_to(tmp_path)
    publish(target, "two")
    assert (target / "my notes.txt").read_text() == "measured twice"
    assert (target / "photos" / "lid.jpg").read_text() == "picture"
    assert (target / "elsewhere").is_symlink()
    assert [p.name for p in tmp_path.iterdir()] == ["shop"]


@pytest.mark.parametrize("swap", [True, False], ids=["exchange", "two renames"])
def test_systems_without_exchange_publish_too(tmp_path: Path, monkeypatch: pytest.MonkeyPatch, swap: bool) -> None:
    if not swap:
        monkeypatch.setattr(write, "exchange", lambda *_: False)
    target = tmp_path / "shop"
    publish(target, "one")
    (target / "note.txt").write_text("mine")
    publish(target, "two")
    assert read_all(tmp_path) == {"shop/note.txt": "mine"} | {f"shop/{name}": "two" for name in FILES}


def test_a_target_lost_between_two_renames_comes_back(tmp_path: Path) -> None:
    """A build killed between its two renames leaves only the old folder under its hidden name."""
    target = tmp_path / "shop"
    publish(target, "one")
    (target / "note.txt").write_text("mine")
    os.rename(target, tmp_path / ".shop.packet-old-123")
    publish(target, "two")
    assert read_all(tmp_path) == {"shop/note.txt": "mine"} | {f"shop/{name}": "two" for name in FILES}


def test_leftovers_of_a_killed_build_are_cleared_and_a_live_one_is_left_alone(tmp_path: Path) -> None:
    target = tmp_path / "shop"
    fill_me = tmp_path / ".shop.packet-new-dead"
    fill_me.mkdir()
    fill(fill_me, "half")
    with stage_outputs(target) as live:
        fill(live, "one")
        publish(target, "two")
        assert not fill_me.exists()
        assert live.exists()
    assert read_all(tmp_path) == {f"shop/{name}": "one" for name in FILES}


def test_two_builds_at_once_leave_one_whole_result(tmp_path: Path) -> None:
    target = tmp_path / "shop"
    threads = [threading.Thread(target=publish, args=(target, str(number))) for number in range(24)]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    found = read_all(tmp_path)
    assert set(found) == {f"shop/{name}" for name in FILES}
    assert len(set(found.values())) == 1


WRITER = """
import sys, itertools
from pathlib import Path
sys.path.insert(0, {top!r})
from packet.disk.write import stage_outputs
print("ready", flush=True)
for number in itertools.count():
    with stage_outputs(Path({target!r})) as staging:
        for name in {files!r}:
            (staging / name).parent.mkdir(exist_ok=True)
            (staging / name).write_text(str(number))
"""


@pytest.mark.skipif(sys.platform == "win32", reason="needs kill")
def test_killed_at_random_moments_the_outputs_are_whole(tmp_path: Path) -> None:
    """Killed (SIGKILL) again and again at any moment, a reader always finds one whole set, old or new."""
    target = tmp_path / "shop"
    publish(target, "start")
    (target / "record.yaml").write_text("never lost")
    script = WRITER.format(top=str(Path(__file__).parents[3]), target=str(target), files=FILES)
    pick = random.Random(7)
    for _ in range(12):
        process = subprocess.Popen([sys.executable, "-c", script], stdout=subprocess.PIPE)
        assert process.stdout is not None
        process.stdout.readline()
        time.sleep(pick.uniform(0, 0.02))
        process.send_signal(signal.SIGKILL)
        process.wait()
        process.stdout.close()
        found = read_all(target)
        assert found.pop("record.yaml") == "never lost"
        assert set(found) == set(FILES)
        assert len(set(found.values())) == 1
    publish(target, "end")
    assert [p.name for p in tmp_path.iterdir()] == ["shop"]


@pytest.mark.parametrize(
    ("number", "reason"),
    [
        (errno.ENOSPC, "the disk is full"),
        (errno.EROFS, "the disk is read-only"),
        (errno.EACCES, "you may not write there"),
    ],
)
def test_reasons_are_said_in_words(number: int, reason: str) -> None:
    said = explain_os_error(OSError(number, os.strerror(number)), Path("out/shop"))
    assert said == f"cannot write out/shop: {reason}"


def test_a_full_disk_leaves_the_old_outputs(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    target = tmp_path / "shop"
    publish(target, "one")

    def fail(path: Path) -> None:
        raise OSError(errno.ENOSPC, os.strerror(errno.ENOSPC))

    monkeypatch.setattr(write, "sync", fail)
    with pytest.raises(CannotWrite, match="the disk is full"):
        publish(target, "two")
    with pytest.raises(CannotWrite, match="the disk is full"):
        write_whole(target / "only-gauge.pdf", lambda _: None)
    assert read_all(tmp_path) == {f"shop/{name}": "one" for name in FILES}


def test_a_file_where_a_folder_is_needed(tmp_path: Path) -> None:
    (tmp_path / "out").write_text("a file")
    with pytest.raises(CannotWrite, match="a file stands where a folder is needed"):
        publish(tmp_path / "out" / "shop", "one")


def test_one_file_is_replaced_whole(tmp_path: Path) -> None:
    write_whole(tmp_path / "a.pdf", lambda stream: stream.write(b"one"))
    with pytest.raises(ZeroDivisionError):
        write_whole(tmp_path / "a.pdf", lambda _: 1 // 0)
    assert read_all(tmp_path) == {"a.pdf": "one"}


def test_folders_that_hold_other_things_are_not_used(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)
    project = tmp_path / "projects" / "shop.yaml"
    project.parent.mkdir()
    project.write_text("packet: 1")
    for target in (Path("."), Path("/"), Path("projects"), Path("projects/.."), Path("~").expanduser()):
        with pytest.raises(BadTarget):
            check_target(target, project)
    with pytest.raises(BadTarget, match="is a file"):
        check_target(project, project)
    assert check_target(Path("out/../out/shop"), project) == tmp_path / "out" / "shop"


def test_a_link_to_a_folder_is_followed(tmp_path: Path) -> None:
    real = tmp_path / "real"
    real.mkdir()
    (tmp_path / "link").symlink_to(real)
    target = check_target(tmp_path / "link", tmp_path / "projects" / "shop.yaml")
    publish(target, "one")
    assert (tmp_path / "link").is_symlink()
    assert read_all(real) == dict.fromkeys(FILES, "one")
