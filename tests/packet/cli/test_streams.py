"""Outputs that take nothing and inputs that give nothing: one true line each, at once, and never a traceback.

``/dev/full`` is a device of Linux that is always full (full(4)); a FIFO gives nothing until somebody writes (fifo(7)).
"""

from __future__ import annotations

import os
import pty
import shutil
import subprocess
import sys
from pathlib import Path

import pytest

from tests.packet.log.test_log import GOOD, fill
from tests.shop import load_job, write_pages

TOP = Path(__file__).parents[3]
pytestmark = pytest.mark.skipif(not Path("/dev/full").exists(), reason="needs the devices of Linux")


@pytest.fixture
def shop(tmp_path: Path) -> Path:
    shutil.copy(TOP / "projects" / "minimal.yaml", tmp_path / "shop.yaml")
    return tmp_path


def run(command: str, cwd: Path) -> subprocess.CompletedProcess[str]:
    """Run a line of the shell, in which PACKET is the command; reports of internal errors would lie in cwd."""
    return subprocess.run(
        ["bash", "-c", command.replace("PACKET", f"{sys.executable} -m packet")],
        capture_output=True, text=True, errors="replace", cwd=cwd, timeout=60, check=False, stdin=subprocess.DEVNULL,
        env={**os.environ, "PYTHONPATH": str(TOP), "TMPDIR": str(cwd)},
    )  # fmt: skip


def list_all(folder: Path) -> list[str]:
    return sorted(str(path.relative_to(folder)) for path in folder.rglob("*"))


@pytest.mark.parametrize("where", [">/dev/full", ">&-"])
@pytest.mark.parametrize(
    "command",
    ["check shop.yaml", "check shop.yaml --json", "schema project", "--version", "--help", "record shop.yaml"],
)
def test_an_output_that_takes_nothing(command: str, where: str, shop: Path) -> None:
    reason = "the disk is full" if "full" in where else "the output is closed"
    done = run(f"PACKET {command} {where}", shop)
    assert done.stderr == f"collector-packet: cannot print ({reason}); no file was written\n"
    assert done.returncode == 3
    assert list_all(shop) == ["shop.yaml"]


@pytest.mark.parametrize("where", [">/dev/full", ">&-"])
def test_what_was_done_before_is_said(where: str, shop: Path) -> None:
    shutil.copy(TOP / "projects" / "boatshed.yaml", shop / "boatshed.yaml")
    forms = write_pages(load_job("boatshed"), ("commissioning", "as-built", "maintenance"))[0]
    fill(forms, GOOD | {"test.date": "2026-01-05"}, shop / "filled.pdf")
    for command, said, made in (
        ("build shop.yaml -q --only cover", "the outputs are in out/shop", "out/shop/only-cover.pdf"),
        ("new other.yaml --from small-shop", "other.yaml is written", "other.yaml"),
        ("record boatshed.yaml filled.pdf", "added to boatshed.as-built.yaml", "boatshed.as-built.yaml"),
    ):
        done = run(f"PACKET {command} {where}", shop)
        assert done.returncode == 3, done.stderr
        assert done.stderr.endswith(f"); {said}\n")
        assert done.stderr.count("\n") == 1
        assert (shop / made).stat().st_size > 0


@pytest.mark.parametrize("where", ["2>&-", "2>/dev/full"])
def test_messages_that_nobody_takes_do_not_go_into_the_output(where: str, shop: Path) -> None:
    for command, status in (("check none.yaml", 2), ("check shop.yaml --json", 0), ("biuld", 2)):
        done = run(f"PACKET {command} {where}", shop)
        assert (done.returncode, done.stderr) == (status, "")
        assert done.stdout.startswith("{") if status == 0 else not done.stdout
    assert run("PACKET check shop.yaml >&- 2>&-", shop).returncode == 3


def test_files_are_not_opened_under_the_number_of_a_closed_output(shop: Path) -> None:
    """A file opened when 0, 1 and 2 are closed gets their number, and what is printed goes into it."""
    assert run("PACKET build shop.yaml -q --only cover <&- >&- 2>&-", shop).returncode == 3
    assert (shop / "out" / "shop" / "only-cover.pdf").read_bytes().startswith(b"%PDF")


@pytest.mark.parametrize("change", ["", "s/ceiling: .*/ceiling: 5 ft/"])
def test_a_reader_that_left_changes_no_verdict(change: str, shop: Path) -> None:
    shutil.copy(TOP / "projects" / "boatshed.yaml", shop / "shop.yaml")
    run(f"sed -i '{change}' shop.yaml", shop)
    whole = run("PACKET check shop.yaml --json >/dev/null", shop).returncode
    assert whole == (1 if change else 0)
    left = run("PACKET check shop.yaml --json | head -c 10 >/dev/null; exit ${PIPESTATUS[0]}", shop)
    assert (left.returncode, left.stderr) == (whole, "")


def test_watching_ends_when_nobody_reads_any_more(shop: Path) -> None:
    done = run("PACKET check shop.yaml --watch | true", shop)
    assert done.stderr == ""


@pytest.mark.parametrize("given", ["<&-", "</dev/null", "< <(head -c 5000 /dev/urandom)"])
def test_answers_that_are_none(given: str, shop: Path) -> None:
    done = run(f"PACKET record shop.yaml {given}", shop)
    assert done.returncode == 2, done.stderr
    assert done.stderr == "\nthe answers ended early; nothing was recorded\n"
    assert run(f"PACKET new other.yaml {given} 2>/dev/null", shop).returncode == 0


@pytest.mark.parametrize("odd", ["pipe.yaml", "/dev/zero", "folder"])
@pytest.mark.parametrize(
    "command", ["check {}", "build {}", "new other.yaml --answers {}", "record {} --show", "record shop.yaml {}"]
)
def test_pipes_devices_and_folders_are_refused_at_once(command: str, odd: str, shop: Path) -> None:
    os.mkfifo(shop / "pipe.yaml")
    (shop / "folder").mkdir()
    done = run(f"PACKET {command.format(odd)}", shop)
    assert done.returncode == 2, done.stderr
    assert done.stdout == ""
    assert "is not a plain file" in done.stderr or "this is a folder" in done.stderr
    assert "1 problem" in done.stderr
    assert list_all(shop) == ["folder", "pipe.yaml", "shop.yaml"]


@pytest.mark.parametrize("command", ["check shop.yaml", "build shop.yaml", "record shop.yaml --show"])
def test_a_log_that_is_a_pipe_is_refused_at_once(command: str, shop: Path) -> None:
    os.mkfifo(shop / "shop.as-built.yaml")
    done = run(f"PACKET {command}", shop)
    assert done.returncode == 2
    assert "shop.as-built.yaml: this is not a plain file\n         expected the log of a project\n" in done.stderr


def test_a_pipe_beside_a_form_does_not_keep_its_project_from_being_found(shop: Path) -> None:
    shutil.copy(TOP / "projects" / "boatshed.yaml", shop / "boatshed.yaml")
    forms = write_pages(load_job("boatshed"), ("commissioning", "as-built", "maintenance"))[0]
    fill(forms, GOOD | {"test.date": "2026-01-05"}, shop / "filled.pdf")
    os.mkfifo(shop / "pipe.yaml")
    done = run("PACKET record filled.pdf", shop)
    assert done.returncode == 0, done.stderr


def test_questions_are_asked_at_a_real_terminal(shop: Path) -> None:
    """A terminal of its own (pty(7)): the prompt is printed, the answer read."""
    ours, theirs = pty.openpty()
    process = subprocess.Popen(
        [sys.executable, "-m", "packet", "record", "shop.yaml"], cwd=shop, stdin=theirs, stdout=theirs, stderr=theirs,
        env={**os.environ, "PYTHONPATH": str(TOP)},
    )  # fmt: skip
    os.close(theirs)
    os.write(ours, b"2\n2026-01-05\nJo\n.\n")
    assert process.wait(timeout=60) == 0
    said = os.read(ours, 100_000).decode()
    os.close(ours)
    assert "1, 2, 3 or 4: " in said
    assert "nothing was added" in said
