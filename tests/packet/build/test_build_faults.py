"""Faults of the machine: full disk, read-only disk, vanished folder, clock set back, two builds at once, odd names."""

from __future__ import annotations

import datetime
import errno
import os
import re
import shutil
import subprocess
import sys
import tempfile
import threading
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from pypdf import PdfReader

from calc.record.entries import Entry
from packet.build import build
from packet.build.build import build_packet
from packet.build.outputs import Output
from packet.disk import write
from packet.disk.write import BadTarget, CannotWrite, name_folder, stage_outputs, write_new
from packet.log.log import append_entry, load_record

TOP = Path(__file__).parents[3]
MINIMAL = (TOP / "projects" / "minimal.yaml").read_text(encoding="utf-8")
TITLE = "Smallest collector (invented)"
resource = pytest.importorskip("resource")


def start(*arguments: str, cwd: Path, largest: int | None = None, **more: str) -> subprocess.Popen[str]:
    """Start the command; largest: no file may become larger than so many bytes, as on a full disk."""

    def limit() -> None:
        resource.setrlimit(resource.RLIMIT_FSIZE, (largest, largest))

    return subprocess.Popen(
        [sys.executable, "-m", "packet", *arguments], cwd=cwd, env={**os.environ, "PYTHONPATH": str(TOP), **more},
        stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True, errors="replace",
        preexec_fn=limit if largest is not None else None,
    )  # fmt: skip


def run(*arguments: str, cwd: Path, largest: int | None = None, **more: str) -> tuple[int, str, str]:
    process = start(*arguments, cwd=cwd, largest=largest, **more)
    out, error = process.communicate(timeout=60)
    return process.returncode, out, error


def read_all(folder: Path) -> dict[str, bytes]:
    return {str(path.relative_to(folder)): path.read_bytes() for path in sorted(folder.rglob("*")) if path.is_file()}


@pytest.fixture(scope="module")
def built(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A shop's folder with its outputs, built once; copy it before changing it."""
    folder = tmp_path_factory.mktemp("shop")
    (folder / "shop.yaml").write_text(MINIMAL, encoding="utf-8")
    status, _, said = run("build", "shop.yaml", "-q", cwd=folder)
    assert status == 0, said
    return folder


@pytest.fixture
def shop(built: Path, tmp_path: Path) -> Path:
    return Path(shutil.copytree(built, tmp_path / "shop"))


def test_a_disk_that_fills_up_on_the_way_leaves_the_old_outputs_whole(shop: Path) -> None:
    """A limit on the size of a file gives the same kind of error as a full disk; the packet is written last."""
    (shop / "out" / "shop" / "my notes.txt").write_text("measured twice")
    before = read_all(shop)
    status, _, said = run("build", "shop.yaml", "-q", cwd=shop, largest=150_000)
    assert (status, said.count("\n")) == (3, 1), said
    assert "larger than this disk or account allows" in said
    assert read_all(shop) == before


def test_some_pages_on_a_full_disk_leave_the_old_ones(shop: Path) -> None:
    before = read_all(shop)
    status, _, said = run("build", "shop.yaml", "--only", "print-check", "-q", cwd=shop, largest=5000)
    assert (status, said.count("\n")) == (3, 1), said
    assert read_all(shop) == before


def test_a_new_file_on_a_full_disk_is_not_left_half(tmp_path: Path) -> None:
    status, _, said = run("new", "shop.yaml", "--from", "small-shop", cwd=tmp_path, largest=500)
    assert (status, said.count("\n")) == (3, 1), said
    assert list(tmp_path.iterdir()) == []


@pytest.mark.parametrize("links", [True, False], ids=["links", "no links"])
def test_a_new_file_never_takes_a_name_that_is_taken(
    links: bool, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def refuse(*_: Any, **__: Any) -> None:
        raise OSError(errno.EPERM, "no second names on this disk")

    if not links:
        monkeypatch.setattr(os, "link", refuse)
    write_new(tmp_path / "shop.yaml", "one")
    with pytest.raises(FileExistsError):
        write_new(tmp_path / "shop.yaml", "two")
    (tmp_path / "dangling.yaml").symlink_to(tmp_path / "nowhere")
    with pytest.raises(FileExistsError):
        write_new(tmp_path / "dangling.yaml", "three")
    assert {path.name for path in tmp_path.iterdir()} == {"shop.yaml", "dangling.yaml"}
    assert (tmp_path / "shop.yaml").read_text() == "one"


def write_little(job: Any, folder: Path) -> None:
    (folder / "packet.pdf").write_bytes(b"new")


@pytest.fixture
def quick(monkeypatch: pytest.MonkeyPatch) -> None:
    """A build that computes everything and writes little."""
    monkeypatch.setattr(build, "OUTPUTS", (Output("writing little", write_little, "bill.csv"),))


@pytest.mark.parametrize(
    ("number", "said"), [(errno.EROFS, "the disk is read-only"), (errno.EACCES, "you may not write there")]
)
@pytest.mark.usefixtures("quick")
def test_a_disk_that_takes_nothing(number: int, said: str, shop: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """The error is made, so that it is seen by root as well, who may write into read-only folders."""

    def refuse(*_: Any, **__: Any) -> str:
        raise OSError(number, os.strerror(number))

    before = read_all(shop)
    monkeypatch.setattr(tempfile, "mkdtemp", refuse)
    with pytest.raises(CannotWrite, match=said):
        build_packet(shop / "shop.yaml", shop / "out" / "shop")
    assert read_all(shop) == before


@pytest.mark.usefixtures("quick")
def test_the_top_of_a_disk_of_its_own_is_explained(shop: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """A folder on which another disk is mounted can hold files but cannot be replaced: EBUSY (rename(2))."""
    rename = os.replace

    def refuse(one: Any, other: Any, **folders: Any) -> None:
        if Path(one).name == "shop":
            raise OSError(errno.EBUSY, os.strerror(errno.EBUSY))
        rename(one, other, **folders)

    before = read_all(shop)
    monkeypatch.setattr(write, "exchange", lambda *_: False)
    monkeypatch.setattr(os, "replace", refuse)
    with pytest.raises(CannotWrite, match="the top of a disk of its own; choose a folder inside it"):
        build_packet(shop / "shop.yaml", shop / "out" / "shop")
    assert read_all(shop) == before
    monkeypatch.setattr(os.path, "ismount", lambda path: Path(path) == shop / "out" / "shop")
    with pytest.raises(BadTarget, match="the top of a disk of its own; choose a folder inside it"):
        build_packet(shop / "shop.yaml", shop / "out" / "shop")
    assert read_all(shop) == before


@pytest.mark.parametrize("which", ["the staging folder", "all of out"])
def test_a_folder_that_vanishes_on_the_way(which: str, tmp_path: Path) -> None:
    target = tmp_path / "out" / "shop"

    def vanish(staging: Path) -> None:
        shutil.rmtree(staging if which == "the staging folder" else tmp_path / "out")
        (staging / "packet.pdf").write_bytes(b"new")

    def attempt() -> None:
        with stage_outputs(target) as staging:
            vanish(staging)

    with pytest.raises(CannotWrite, match="the folder vanished"):
        attempt()
    assert list(tmp_path.rglob("*.pdf")) == []


@pytest.mark.usefixtures("quick")
def test_a_clock_set_back_does_not_keep_old_outputs(shop: Path) -> None:
    """Every file there seems to be from the future; nothing in a build goes by the clock."""
    out = shop / "out" / "shop"
    for path in (*out.rglob("*"), shop / "shop.yaml"):
        os.utime(path, (4e9, 4e9))
    build_packet(shop / "shop.yaml", out)
    assert read_all(out) == {"packet.pdf": b"new"}


def test_two_builds_at_once_into_one_folder_leave_one_of_them_whole(shop: Path) -> None:
    for name in ("one", "two"):
        (shop / f"{name}.yaml").write_text(MINIMAL.replace(TITLE, f"Shop {name}"), encoding="utf-8")
    going = [start("build", f"{name}.yaml", "-q", "-o", "out/both", cwd=shop) for name in ("one", "two")]
    for process in going:
        _, said = process.communicate(timeout=60)
        assert process.returncode == 0, said
    out = shop / "out" / "both"
    about = PdfReader(out / "packet.pdf").metadata
    assert about is not None
    title = str(about.title)
    assert title in (out / "sizing.json").read_text(encoding="utf-8")
    assert title in {"Shop one", "Shop two"}
    assert title in (out / "helper.html").read_text(encoding="utf-8")
    assert [path.name for path in (shop / "out").iterdir() if path.name.startswith(".")] == []


def test_two_records_at_once_are_both_kept(shop: Path) -> None:
    def add(number: int) -> None:
        append_entry(
            shop / "shop.yaml",
            (Entry(date=datetime.date(2026, 1, 5), by=f"person {number}", kind="test", revision="A", digest="0" * 12),),
        )

    threads = [threading.Thread(target=add, args=(number,)) for number in range(12)]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    record = load_record(shop / "shop.yaml")
    assert record is not None
    assert sorted(entry.by for entry in record.entries) == sorted(f"person {number}" for number in range(12))


def test_a_record_on_a_full_disk_keeps_the_old_log(shop: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    first = Entry(date=datetime.date(2026, 1, 5), by="Jo", kind="test", revision="A", digest="0" * 12)
    log = append_entry(shop / "shop.yaml", (first,))
    before = log.read_bytes()

    def fail(_: Path) -> None:
        raise OSError(errno.ENOSPC, os.strerror(errno.ENOSPC))

    monkeypatch.setattr(write, "sync", fail)
    with pytest.raises(CannotWrite, match="the disk is full"):
        append_entry(shop / "shop.yaml", (first,))
    assert log.read_bytes() == before
    assert sorted(path.name for path in shop.iterdir()) == ["out", log.name, "shop.yaml"]


@pytest.mark.parametrize("command", ["build", "check"])
def test_a_locale_that_knows_no_letters_but_plain_ones(command: str, tmp_path: Path) -> None:
    (tmp_path / "Werkstatt für Łódź.yaml").write_text(MINIMAL.replace(TITLE, "Łódź ⅛ коллектор"), encoding="utf-8")
    plain = {"LC_ALL": "C", "LANG": "C", "PYTHONUTF8": "0", "PYTHONCOERCECLOCALE": "0"}
    more = ("-q", "--only", "cover") if command == "build" else ()
    status, _, said = run(command, "Werkstatt für Łódź.yaml", *more, cwd=tmp_path, **plain)
    assert status == 0, said
    assert "Traceback" not in said


@pytest.mark.parametrize(
    ("stem", "folder"),
    [
        ("boatshed", "boatshed"),
        ("my shop", "my shop"),
        ("con", "con-packet"),
        ("NUL", "NUL-packet"),
        ("com1", "com1-packet"),
        ("aux.v2", "aux.v2-packet"),
        ("console", "console"),
        ("shop.", "shop"),
        ("shop. .", "shop"),
        ("...", "packet"),
        ('a<b>:"|?*\\c', "a-b-------c"),
    ],
)
def test_folders_have_names_that_every_system_can_hold(stem: str, folder: str) -> None:
    """Reserved names and signs: Microsoft, Naming Files, Paths, and Namespaces (from memory)."""
    assert name_folder(stem) == folder


RESERVED = re.compile(r"(con|prn|aux|nul|com\d|lpt\d)(\..*)?", re.IGNORECASE)


def list_names(folder: Path, keep: Callable[[Path], bool] = Path.is_file) -> list[str]:
    return [path.name for path in folder.rglob("*") if keep(path)]


def test_parts_with_names_no_system_likes_get_plain_file_names(tmp_path: Path) -> None:
    text = MINIMAL.replace("stock: birch plywood", "stock: 'con'")
    names = ["'nul'", "'a\\b/c:d*'", "'gauge. . '", "'GAUGE.'"]
    ports = ", ".join(
        f"{{name: {name}, kind: {kind}, face: {face}, pail: 11.9 in}}"
        for name, kind, face in zip(
            names, ("filter", "inspection", "gauge", "inspection"), ("bottom", "front", "front", "back"), strict=True
        )
    )
    (tmp_path / "shop.yaml").write_text(f"{text}ports: [{ports}]\n", encoding="utf-8")
    status, _, said = run("build", "shop.yaml", "-q", cwd=tmp_path)
    assert status in (0, 1), said
    names = list_names(tmp_path / "out")
    assert len(names) > 30
    for name in names:
        assert re.fullmatch(r"[A-Za-z0-9][A-Za-z0-9._-]{0,99}", name), name
        assert not RESERVED.fullmatch(name)
        assert not name.endswith(".")
    for folder in (tmp_path / "out" / "shop" / "parts", tmp_path / "out" / "shop" / "large"):
        lowered = [name.lower() for name in list_names(folder)]
        assert len(lowered) == len(set(lowered))
