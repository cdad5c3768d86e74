"""Kill a build at random moments, again and again: python -m tests.bench.kill [how many].

Every second kill comes about when the new outputs take the place of the old ones. After every kill the outputs must be
the old ones whole or the new ones whole; at the end no hidden folder may be left.
"""

from __future__ import annotations

import contextlib
import hashlib
import os
import random
import shutil
import signal
import subprocess
import sys
import tempfile
import time
from pathlib import Path

TOP = Path(__file__).parents[2]


def take_digest(folder: Path) -> str:
    """Return one digest of every file's name and bytes."""
    digest = hashlib.sha256()
    for path in sorted(folder.rglob("*")):
        if path.is_file():
            digest.update(path.relative_to(folder).as_posix().encode() + b"\0" + path.read_bytes() + b"\0")
    return digest.hexdigest()


def build(shop: Path, revision: str) -> subprocess.Popen[bytes]:
    """Start a build of the boatshed under a revision, so that every output differs from the last."""
    text = (TOP / "projects" / "boatshed.yaml").read_text(encoding="utf-8")
    (shop / "boatshed.yaml").write_text(text.replace("revision: B", f"revision: {revision}"), encoding="utf-8")
    command = [sys.executable, "-m", "packet", "build", "boatshed.yaml", "-q"]
    environment = {**os.environ, "PYTHONPATH": str(TOP)}
    return subprocess.Popen(command, cwd=shop, env=environment, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)


def wait_for_pages(shop: Path, process: subprocess.Popen[bytes]) -> None:
    """Wait until the packet is written into the hidden folder, or the build has ended."""
    while process.poll() is None:
        for packet in (shop / "out").glob(".boatshed.packet-new-*/packet.pdf"):
            with contextlib.suppress(OSError):
                if packet.stat().st_size:
                    return
        time.sleep(0.005)


def main(count: int) -> int:
    shop = Path(tempfile.mkdtemp(prefix="kill-"))
    out = shop / "out" / "boatshed"
    known: dict[str, str] = {}
    times: list[float] = []
    for revision in ("A", "B"):
        start = time.perf_counter()
        build(shop, revision).wait()
        times.append(time.perf_counter() - start)
        known[take_digest(out)] = revision
    (out / "my record.txt").write_text("never lost")
    pick, halves, kills = random.Random(1), 0, 0
    for number in range(count):
        process = build(shop, "AB"[number % 2])
        if number % 4 < 2:
            wait_for_pages(shop, process)
            time.sleep(pick.uniform(0, 0.25))
        else:
            time.sleep(pick.uniform(0, max(times)))
        kills += process.poll() is None
        process.send_signal(signal.SIGKILL)
        process.wait()
        if not (out / "my record.txt").exists():
            halves += 1
            print(f"kill {number}: the record is gone")
        (out / "my record.txt").rename(shop / "aside")
        if take_digest(out) not in known:
            halves += 1
            print(f"kill {number}: half outputs")
        (shop / "aside").rename(out / "my record.txt")
    time.sleep(max(times))
    build(shop, "A").wait()
    left = [path.name for path in (shop / "out").iterdir() if path.name != "boatshed"]
    print(f"{count} runs, {kills} killed on the way, {halves} half; left over: {left or 'nothing'}")
    shutil.rmtree(shop)
    return 1 if halves or left else 0


if __name__ == "__main__":
    sys.exit(main(int(sys.argv[1]) if len(sys.argv) > 1 else 200))
