"""Links, second names and other people's things beside, in and on the way to the outputs: nothing of theirs is touched.

Real links, hard links, pipes and owners; the system's own rules are link(2), rename(2) and open(2) with O_NOFOLLOW.
"""

from __future__ import annotations

import datetime
import os
import sys
from collections.abc import Callable
from pathlib import Path

import pytest

from calc.record.entries import Entry
from packet.disk import write
from packet.disk.write import BadTarget, CannotWrite, check_target, refuse_mount, stage_outputs, write_new, write_whole
from packet.log.log import append_entry
from tests.packet.disk.test_write import FILES, publish, read_all

pytestmark = pytest.mark.skipif(sys.platform == "win32", reason="needs links and owners")
as_root = pytest.mark.skipif(sys.platform == "win32" or os.geteuid() != 0, reason="only root gives files away")
NOBODY = 65534
ENTRY = Entry(date=datetime.date(2026, 1, 5), by="Jo", kind="test", revision="A", digest="0" * 12)


@pytest.fixture
def theirs(tmp_path: Path) -> Path:
    """A place that is not for outputs, with things in it that have the names of outputs."""
    place = tmp_path / "elsewhere"
    place.mkdir()
    for name in ("bill.csv", "packet.pdf", "my diary.txt", "only-gauge.pdf"):
        (place / name).write_text("theirs")
    for folder in ("parts", "photos"):
        (place / folder).mkdir()
        (place / folder / "a.txt").write_text("theirs")
    return place


@pytest.fixture
def out(tmp_path: Path) -> Path:
    """Where a target called shop stands or will stand."""
    place = tmp_path / "out"
    place.mkdir()
    return place


def list_all(folder: Path) -> list[str]:
    return sorted(str(path.relative_to(folder)) for path in folder.rglob("*"))


@pytest.mark.parametrize("name", [".shop.packet-new-x", ".shop.packet-old-1", ".shop.packet-new-abcd_123"])
@pytest.mark.parametrize("target_there", [True, False])
def test_a_link_planted_as_a_leftover_is_not_followed(name: str, target_there: bool, theirs: Path, out: Path) -> None:
    if target_there:
        publish(out / "shop", "one")
    (out / name).symlink_to(theirs)
    before = read_all(theirs)
    publish(out / "shop", "two")
    assert read_all(theirs) == before
    assert read_all(out / "shop") == dict.fromkeys(FILES, "two")
    assert (out / name).is_symlink()


def test_links_inside_a_leftover_are_not_followed(theirs: Path, out: Path) -> None:
    publish(out / "shop", "one")
    left = out / ".shop.packet-new-x"
    left.mkdir()
    for name in ("parts", "large", "photos"):
        (left / name).symlink_to(theirs)
    (left / "bill.csv").symlink_to(theirs / "bill.csv")
    before = read_all(theirs)
    publish(out / "shop", "two")
    assert read_all(theirs) == before
    assert (out / "shop" / "photos").is_symlink()
    assert [path.name for path in out.iterdir()] == ["shop"]


@as_root
@pytest.mark.parametrize("target_there", [True, False])
def test_a_leftover_of_somebody_else_is_left_alone(target_there: bool, out: Path) -> None:
    if target_there:
        publish(out / "shop", "one")
    for prefix in ("new", "old"):
        left = out / f".shop.packet-{prefix}-x"
        left.mkdir()
        (left / "packet.pdf").write_text("theirs")
        (left / "notes.txt").write_text("theirs")
        os.chown(left, NOBODY, NOBODY)
    publish(out / "shop", "two")
    assert read_all(out / "shop") == dict.fromkeys(FILES, "two")
    assert [text for name, text in read_all(out).items() if name.startswith(".")] == ["theirs"] * 4


def test_a_leftover_that_is_a_file_or_a_pipe_is_left_alone(out: Path) -> None:
    publish(out / "shop", "one")
    (out / ".shop.packet-new-x").write_text("a file")
    os.mkfifo(out / ".shop.packet-old-1")
    publish(out / "shop", "two")
    assert (out / ".shop.packet-new-x").read_text() == "a file"
    assert (out / ".shop.packet-old-1").is_fifo()


def test_a_leftover_of_another_target_with_a_longer_name_is_left_alone(out: Path) -> None:
    left = out / ".shop.packet-new-x.packet-new-y"
    left.mkdir()
    (left / "notes.txt").write_text("of the shop called shop.packet-new-x")
    publish(out / "shop", "one")
    assert (left / "notes.txt").exists()


def test_what_the_user_had_comes_back_from_a_leftover_without_its_target(out: Path) -> None:
    """Killed after the exchange, then the target removed by hand: the old folder holds the only copy of the photos."""
    left = out / ".shop.packet-new-x"
    (left / "photos").mkdir(parents=True)
    (left / "photos" / "lid.jpg").write_text("mine")
    (left / "packet.pdf").write_text("old")
    publish(out / "shop", "one")
    assert read_all(out) == {"shop/photos/lid.jpg": "mine"} | {f"shop/{name}": "one" for name in FILES}


@pytest.mark.parametrize("name", ["parts", "large", "packet.pdf", "only-gauge.pdf", "helper.html"])
def test_a_link_under_a_name_of_ours_goes_and_what_it_points_to_stays(name: str, theirs: Path, out: Path) -> None:
    publish(out / "shop", "one")
    old = out / "shop" / name
    if old.is_dir():
        old.rename(theirs / "was here")
    old.unlink(missing_ok=True)
    old.symlink_to(theirs if name in ("parts", "large") else theirs / "bill.csv")
    before = read_all(theirs)
    publish(out / "shop", "two")
    assert read_all(theirs) == before
    assert not (out / "shop" / name).is_symlink()
    assert read_all(out) == {f"shop/{name}": "two" for name in FILES}


@pytest.mark.parametrize("swap", [True, False], ids=["exchange", "two renames"])
def test_a_link_of_the_users_own_is_carried_as_a_link(
    swap: bool, theirs: Path, out: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    if not swap:
        monkeypatch.setattr(write, "exchange", lambda *_: False)
    publish(out / "shop", "one")
    (out / "shop" / "to a folder").symlink_to(theirs)
    (out / "shop" / "to a file").symlink_to(theirs / "my diary.txt")
    (out / "shop" / "to nothing").symlink_to(theirs / "none")
    before = read_all(theirs)
    publish(out / "shop", "two")
    assert read_all(theirs) == before
    assert [os.readlink(out / "shop" / f"to {what}") for what in ("a folder", "a file", "nothing")] == [
        str(theirs), str(theirs / "my diary.txt"), str(theirs / "none"),
    ]  # fmt: skip


def test_an_output_that_is_also_somebodys_file_is_not_written_over_in_place(theirs: Path, out: Path) -> None:
    publish(out / "shop", "one")
    for name in ("bill.csv", "only-gauge.pdf"):
        (out / "shop" / name).unlink(missing_ok=True)
        os.link(theirs / name, out / "shop" / name)
    write_whole(out / "shop" / "only-gauge.pdf", lambda stream: stream.write(b"two"))
    publish(out / "shop", "two")
    assert (theirs / "bill.csv").read_text() == (theirs / "only-gauge.pdf").read_text() == "theirs"
    assert (out / "shop" / "bill.csv").read_text() == "two"


def test_a_file_that_is_a_link_is_replaced_not_written_through(theirs: Path, out: Path) -> None:
    (out / "only-gauge.pdf").symlink_to(theirs / "only-gauge.pdf")
    write_whole(out / "only-gauge.pdf", lambda stream: stream.write(b"two"))
    assert (theirs / "only-gauge.pdf").read_text() == "theirs"
    assert not (out / "only-gauge.pdf").is_symlink()
    (out / "new.yaml").symlink_to(theirs / "none")
    with pytest.raises(FileExistsError):
        write_new(out / "new.yaml", "text")
    assert not (theirs / "none").exists()


def test_a_folder_under_the_name_of_a_file_of_ours_is_the_users(out: Path) -> None:
    publish(out / "shop", "one")
    (out / "shop" / "packet.pdf").unlink()
    (out / "shop" / "packet.pdf").mkdir()
    (out / "shop" / "packet.pdf" / "page 1.jpg").write_text("mine")
    publish(out / "shop", "two")
    assert read_all(out) == {"shop/packet-2.pdf/page 1.jpg": "mine"} | {f"shop/{name}": "two" for name in FILES}


def test_a_file_changed_while_it_was_carried_is_kept_in_both_states(out: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """An editor saves by putting a new file in the old one's place, just before the folders change places."""
    publish(out / "shop", "one")
    (out / "shop" / "notes.txt").write_text("old")
    real = write.exchange

    def save_and_exchange(parent: write.Held, one: str, other: str) -> bool:
        (out / "shop" / "saving").write_text("new and longer")
        os.replace(out / "shop" / "saving", out / "shop" / "notes.txt")
        return real(parent, one, other)

    monkeypatch.setattr(write, "exchange", save_and_exchange)
    publish(out / "shop", "two")
    found = read_all(out)
    assert {found.pop("shop/notes.txt"), found.pop("shop/notes-2.txt")} == {"old", "new and longer"}
    assert set(found) == {f"shop/{name}" for name in FILES}


def test_without_second_names_files_are_copied_with_their_times(out: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    publish(out / "shop", "one")
    (out / "shop" / "notes.txt").write_text("mine")
    os.utime(out / "shop" / "notes.txt", (1e9, 1e9))

    def refuse(*_: object, **__: object) -> None:
        raise PermissionError(1, "no second names")

    monkeypatch.setattr(os, "link", refuse)
    publish(out / "shop", "two")
    assert (out / "shop" / "notes.txt").read_text() == "mine"
    assert (out / "shop" / "notes.txt").stat().st_mtime == 1e9


def test_a_pipe_in_the_folder_is_carried_and_waits_for_nobody(out: Path) -> None:
    publish(out / "shop", "one")
    os.mkfifo(out / "shop" / "pipe")
    publish(out / "shop", "two")
    assert (out / "shop" / "pipe").is_fifo()


def test_a_link_planted_in_the_targets_place_on_the_way_is_not_followed(theirs: Path, out: Path) -> None:
    before = read_all(theirs)

    def plant() -> None:
        with stage_outputs(out / "shop") as staging:
            (staging / "packet.pdf").write_text("new")
            (out / "shop").symlink_to(theirs)

    with pytest.raises(CannotWrite):
        plant()
    assert read_all(theirs) == before
    assert list_all(out) == ["shop"]


def test_a_link_planted_in_the_parents_place_on_the_way_is_not_followed(theirs: Path, out: Path) -> None:
    before = read_all(theirs)

    def plant() -> None:
        with stage_outputs(out / "shop") as staging:
            (staging / "packet.pdf").write_text("new")
            out.rename(out.with_name("moved"))
            out.symlink_to(theirs)

    with pytest.raises(CannotWrite):
        plant()
    assert read_all(theirs) == before


def make_strange(link: Path, aim: Path) -> Path:
    link.symlink_to(aim)
    os.chown(link, NOBODY, NOBODY, follow_symlinks=False)
    return link


@as_root
@pytest.mark.parametrize(
    "ask",
    [
        lambda place: place / "link",
        lambda place: place / "link" / "shop",
        lambda place: place / "own" / "shop",
        lambda place: Path(os.path.relpath(place / "a folder" / ".." / "link" / "shop")),
    ],
    ids=["the target", "on the way", "behind an own link", "by way of a folder"],
)
def test_a_link_that_somebody_else_made_is_refused(ask: Callable[[Path], Path], theirs: Path, out: Path) -> None:
    (out / "a folder").mkdir()
    link = make_strange(out / "link", theirs)
    (out / "own").symlink_to(link)
    with pytest.raises(BadTarget, match=r"link is a link that somebody else made; name the folder itself"):
        check_target(ask(out), out / "projects" / "shop.yaml")
    with pytest.raises(CannotWrite, match="link is a link that somebody else made"):
        write_whole(ask(out) / "a.pdf", lambda stream: stream.write(b"new"))
    with pytest.raises(CannotWrite, match="link is a link that somebody else made"):
        write_new(ask(out) / "a.yaml", "new")
    assert not list(theirs.rglob("a.*l"))


def test_own_links_are_followed_to_the_target_and_to_the_log(theirs: Path, out: Path) -> None:
    (out / "link").symlink_to(theirs)
    assert check_target(out / "link" / "shop", out / "projects" / "shop.yaml") == theirs / "shop"
    (out / "loop").symlink_to(out / "loop")
    with pytest.raises(CannotWrite):
        write_whole(out / "loop" / "a.pdf", lambda stream: stream.write(b"new"))
    (out / "shop.as-built.yaml").symlink_to(theirs / "log.yaml")
    for _ in range(2):
        append_entry(out / "shop.yaml", (ENTRY,))
    assert (out / "shop.as-built.yaml").is_symlink()
    assert (theirs / "log.yaml").read_text().count("- date: 2026-01-05") == 2


@as_root
def test_a_log_that_is_somebody_elses_link_is_refused(theirs: Path, out: Path) -> None:
    make_strange(out / "shop.as-built.yaml", theirs / "log.yaml")
    with pytest.raises(CannotWrite, match="is a link that somebody else made"):
        append_entry(out / "shop.yaml", (ENTRY,))
    assert not (theirs / "log.yaml").exists()


def test_a_log_keeps_its_rights_and_its_other_name(out: Path) -> None:
    log = append_entry(out / "shop.yaml", (ENTRY,))
    log.chmod(0o600)
    os.link(log, out / "copy of an evening")
    before = log.read_bytes()
    append_entry(out / "shop.yaml", (ENTRY,))
    assert log.stat().st_mode & 0o777 == 0o600
    assert (out / "copy of an evening").read_bytes() == before


@pytest.mark.parametrize("name", ["parts", "large"])
def test_a_disk_mounted_inside_the_outputs_is_not_emptied(
    name: str, out: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(os.path, "ismount", lambda path: Path(path) == out / "shop" / name)
    with pytest.raises(BadTarget, match=f"shop/{name} is the top of a disk of its own; take it off there"):
        refuse_mount(out / "shop")
