"""A built wheel, installed elsewhere, works from any folder: templates and fonts travel with it."""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
from pathlib import Path

TOP = Path(__file__).parent.parent


def test_wheel_builds_a_packet_from_another_folder(tmp_path: Path) -> None:
    source = tmp_path / "source"
    shutil.copytree(
        TOP, source, ignore=shutil.ignore_patterns(".*", "tests", "out", "build", "dist", "*.egg-info", "__pycache__")
    )
    pip = [sys.executable, "-m", "pip", "--disable-pip-version-check", "-q"]
    subprocess.run([*pip, "wheel", "--no-deps", "-w", str(tmp_path / "wheel"), str(source)], check=True)
    (wheel,) = (tmp_path / "wheel").glob("*.whl")
    place, shop = tmp_path / "installed", tmp_path / "my shop"
    subprocess.run([*pip, "install", "--no-deps", "--no-compile", "--target", str(place), str(wheel)], check=True)
    shop.mkdir()
    shutil.copy(TOP / "projects" / "boatshed.yaml", shop)
    shutil.rmtree(source)

    where = subprocess.run(
        [sys.executable, "-c", "import packet; print(packet.__file__)"],
        capture_output=True, text=True, cwd=shop, env={**os.environ, "PYTHONPATH": str(place)}, check=True,
    )  # fmt: skip
    assert where.stdout.startswith(str(place))
    done = subprocess.run(
        [sys.executable, "-m", "packet", "build", "boatshed.yaml"],
        capture_output=True, text=True, cwd=shop, env={**os.environ, "PYTHONPATH": str(place)}, check=False,
    )  # fmt: skip
    assert done.returncode in (0, 1), done.stderr
    assert (shop / "out" / "boatshed" / "packet.pdf").read_bytes().startswith(b"%PDF")
    assert (shop / "out" / "boatshed" / "helper.html").stat().st_size > 1000
