"""The command line as a process: exit status, stdout, stderr and the files left."""

from __future__ import annotations

import hashlib
import json
import os
import re
import shutil
import signal
import subprocess
import sys
import time
import tomllib
from dataclasses import replace
from pathlib import Path

import pytest
from pypdf import PdfReader

from packet.reading.display_asked import Asked, tell_asked
from packet.reading.load import load_project
from packet.version import VERSION
from tests.packet.hostile import SAMPLE_FILES

TOP = Path(__file__).parents[3]
BAD = Path(__file__).parents[1] / "reading" / "bad"
MAIN_FILES = ["bill.csv", "cuts.csv", "helper.html", "helper.pdf", "packet.pdf", "sizing.json"]
WHOLE_SAMPLES = ("boatshed", "cart", "minimal", "outdoor", "schoolroom")


def run(*arguments: str, cwd: Path, **more: str) -> subprocess.CompletedProcess[str]:
    environment = {**os.environ, "PYTHONPATH": str(TOP), "COLUMNS": "100", **more}
    return subprocess.run(
        [sys.executable, "-m", "packet", *arguments],
        capture_output=True, text=True, encoding="utf-8", errors="replace", cwd=cwd, env=environment, timeout=60,
        check=False,
    )  # fmt: skip


@pytest.fixture(scope="module")
def shop(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A folder with the boatshed's file, built once."""
    folder = tmp_path_factory.mktemp("my shop")
    shutil.copy(TOP / "projects" / "boatshed.yaml", folder)
    return folder


@pytest.fixture(scope="module")
def built(shop: Path) -> subprocess.CompletedProcess[str]:
    return run("build", "boatshed.yaml", cwd=shop)


def list_tree(folder: Path) -> list[str]:
    return sorted(str(path.relative_to(folder)) for path in folder.rglob("*") if path.is_file())


def test_build_of_a_shop_that_fits_ends_with_0_and_says_what_it_wrote(
    shop: Path, built: subprocess.CompletedProcess[str]
) -> None:
    assert built.returncode == 0, built.stderr
    assert built.stderr == ""
    out = shop / "out" / "boatshed"
    assert sorted(path.name for path in out.iterdir() if path.is_file()) == MAIN_FILES
    assert {path.suffix for path in (out / "parts").iterdir()} == {".svg", ".dxf"}
    assert {path.suffix for path in (out / "large").iterdir()} == {".pdf"}
    for name in (*MAIN_FILES, "parts/", "large/"):
        assert f"  {name}" in built.stdout
    assert "Findings: " in built.stdout
    assert "100 % (also called actual size, or scale: none, or no\nscaling)" in built.stdout
    assert max(len(line) for line in built.stdout.splitlines()) <= 100


NO_NETWORK = """
import socket, sys
def refuse(*a, **k): raise OSError("network is cut off")
socket.socket.connect = refuse; socket.create_connection = refuse; socket.getaddrinfo = refuse
from packet.cli.cli import main
sys.exit(main(["build", "boatshed.yaml", "-o", sys.argv[1]]))
"""


def test_same_bytes_on_another_day_in_another_place_without_a_network(
    shop: Path, built: subprocess.CompletedProcess[str], tmp_path: Path
) -> None:
    """Another hash seed, time zone and encoding; every way out of the machine cut off."""
    assert built.returncode == 0
    elsewhere = {
        "PYTHONHASHSEED": "12345",
        "TZ": "Asia/Tokyo",
        "PYTHONIOENCODING": "latin-1",
        "LC_ALL": "C",
        "PYTHONUTF8": "0",
        "SOURCE_DATE_EPOCH": "0",
        "http_proxy": "http://127.0.0.1:9",
        "PYTHONPATH": str(TOP),
    }
    second = tmp_path / "again"
    again = subprocess.run(
        [sys.executable, "-c", NO_NETWORK, str(second)],
        capture_output=True,
        cwd=shop,
        env={**os.environ, **elsewhere},
        check=False,
    )
    assert again.returncode == 0, again.stderr
    first = shop / "out" / "boatshed"
    assert list_tree(first) == list_tree(second)
    assert [n for n in list_tree(first) if (first / n).read_bytes() != (second / n).read_bytes()] == []


def test_only_some_sections_are_one_pdf_and_the_rest_is_left(
    shop: Path, built: subprocess.CompletedProcess[str]
) -> None:
    before = list_tree(shop)
    done = run("build", "boatshed.yaml", "--only", "gauge, templates", cwd=shop)
    assert done.returncode == 0, done.stderr
    added = [name for name in list_tree(shop) if name not in before]
    assert added == ["out/boatshed/only-gauge-templates.pdf"]
    (shop / added[0]).unlink()


def test_other_paper_and_units_for_one_print_only(shop: Path, tmp_path: Path) -> None:
    """Sizes of the sheets: ISO 216, A4 is 210 x 297 mm."""
    out = tmp_path / "out"
    done = run(
        "build", "boatshed.yaml", "--paper", "A4", "--units", "metric", "--only", "cover,bill", "-o", str(out), cwd=shop
    )
    assert done.returncode == 0, done.stderr
    said = "Asked for in this print only: paper a4 (the file says letter), units metric (the file says inch)."
    assert said in done.stdout
    reader = PdfReader(out / "only-cover-bill.pdf")
    assert [float(side) for side in reader.pages[0].mediabox[2:]] == pytest.approx([210 / 25.4 * 72, 297 / 25.4 * 72])
    pages = [" ".join(page.extract_text().split()) for page in reader.pages]
    assert said in pages[0]
    assert " mm" in pages[0]
    assert " cfm" not in pages[0]
    digest = hashlib.sha256((shop / "boatshed.yaml").read_bytes()).hexdigest()[:12]
    assert all(f"file {digest} · A4" in page for page in pages)


def test_paper_and_units_as_the_file_has_them_are_not_mentioned(shop: Path, tmp_path: Path) -> None:
    same = ("--paper", "letter", "--units", "inch", "--only", "cover", "-o", str(tmp_path / "out"))
    done = run("build", "boatshed.yaml", *same, cwd=shop)
    assert done.returncode == 0, done.stderr
    assert "this print only" not in done.stdout
    assert "this print only" not in PdfReader(tmp_path / "out" / "only-cover.pdf").pages[0].extract_text()


def test_unknown_paper_and_units_are_told_together(shop: Path) -> None:
    done = run("build", "boatshed.yaml", "--paper", "a44", "--units", "metre", cwd=shop)
    assert (done.returncode, done.stdout) == (2, "")
    assert done.stderr == (
        "--paper: 'a44' is not known here\n"
        "         expected letter, legal, tabloid, a4 or a3\n"
        "         did you mean 'a4'?\n"
        "--units: 'metre' is not known here\n"
        "         expected inch or metric\n"
        "         did you mean 'metric'?\n"
        "2 problems; nothing was built\n"
    )


def test_check_in_other_units(shop: Path) -> None:
    done = run("check", "boatshed.yaml", "--units", "metric", cwd=shop)
    assert done.returncode == 0, done.stderr
    assert "m³/h" in done.stdout
    assert "cfm" not in done.stdout


def test_a_barometer_that_the_altitude_contradicts_is_asked_about(shop: Path, tmp_path: Path) -> None:
    """A weather report's pressure is reduced to sea level: 30 inHg (101.6 kPa) cannot be read at 5280 ft, where the
    standard atmosphere has 0.823 of sea level's density (case table: 0.0617 over 0.075 lb/ft3)."""
    text = (shop / "boatshed.yaml").read_text(encoding="utf-8")
    for pressure, verdict in (("101.6 kPa", "does not fit"), ("83.4 kPa", "fits")):
        told = text.replace("altitude: 40 ft", f"altitude: 5280 ft\n  barometer: {pressure}")
        (tmp_path / "high.yaml").write_text(told, encoding="utf-8")
        done = run("check", "high.yaml", "--json", cwd=tmp_path)
        assert done.returncode in (0, 1), done.stderr
        found = [f for f in json.loads(done.stdout)["findings"] if f["key"] == "air.barometer"]
        assert [finding["verdict"] for finding in found] == [verdict]
    (tmp_path / "high.yaml").write_text(told.replace("83.4 kPa", "101.6 kPa"), encoding="utf-8")
    shown = run("check", "high.yaml", cwd=tmp_path).stdout
    assert "barometer against altitude" in shown
    assert "mend: Check barometer and altitude" in shown


def test_an_unknown_section_ends_with_2(shop: Path) -> None:
    done = run("build", "boatshed.yaml", "--only", "templtes", cwd=shop)
    assert (done.returncode, done.stdout) == (2, "")
    assert "no section is called 'templtes'; did you mean 'templates'?" in done.stderr


def test_a_shop_that_does_not_fit_is_built_and_ends_with_1(shop: Path, tmp_path: Path) -> None:
    text = (shop / "boatshed.yaml").read_text(encoding="utf-8").replace("ceiling: 10 ft 2 in", "ceiling: 5 ft")
    (tmp_path / "low.yaml").write_text(text.replace("motor_top: 8 ft 4 in", "motor_top: 4 ft"), encoding="utf-8")
    done = run("build", "low.yaml", cwd=tmp_path)
    assert done.returncode == 1, done.stderr
    assert "DOES NOT FIT" in done.stdout
    assert (tmp_path / "out" / "low" / "packet.pdf").read_bytes().startswith(b"%PDF")
    checked = run("check", "low.yaml", cwd=tmp_path)
    assert checked.returncode == 1
    rows = [line.split("  ")[0] for line in checked.stdout.splitlines() if line.startswith(("fits", "tight", "DOES"))]
    assert rows == sorted(rows, key=["tight", "DOES NOT FIT"].index), "worst last, what fits folded"
    assert checked.stdout.splitlines()[-1].startswith("Next: change one thing in low.yaml")


@pytest.mark.parametrize("command", ["build", "check"])
def test_a_bad_file_ends_with_2_all_problems_on_stderr_nothing_written(command: str, tmp_path: Path) -> None:
    shutil.copy(BAD / "no_unit.yaml", tmp_path)
    done = run(command, "no_unit.yaml", cwd=tmp_path)
    assert (done.returncode, done.stdout) == (2, "")
    expected = (BAD / "no_unit.txt").read_text(encoding="utf-8")
    built = "; nothing was built" if command == "build" else ""
    assert done.stderr == f"{expected}7 problems{built}\n"
    assert list_tree(tmp_path) == ["no_unit.yaml"]
    assert [path.name for path in tmp_path.iterdir()] == ["no_unit.yaml"]


def test_a_bad_file_leaves_the_last_good_packet(shop: Path, built: subprocess.CompletedProcess[str]) -> None:
    out = shop / "out" / "boatshed"
    before = {name: (out / name).read_bytes() for name in list_tree(out)}
    (shop / "broken").mkdir(exist_ok=True)
    shutil.copy(BAD / "tabs.yaml", shop / "broken" / "boatshed.yaml")
    assert run("build", "broken/boatshed.yaml", "-o", "out/boatshed", cwd=shop).returncode == 2
    assert {name: (out / name).read_bytes() for name in list_tree(out)} == before


def test_missing_file_and_folder_end_with_2_in_one_line(tmp_path: Path) -> None:
    done = run("check", "nothing.yaml", cwd=tmp_path)
    assert done.returncode == 2
    begin = "         to begin it: collector-packet new, with that name\n"
    assert done.stderr == f"nothing.yaml: there is no such file\n{begin}1 problem\n"


@pytest.mark.parametrize("arguments", [[], ["biuld"], ["build", "--what", "x"], ["schema", "box"]])
def test_bad_usage_ends_with_2(arguments: list[str], tmp_path: Path) -> None:
    done = run(*arguments, cwd=tmp_path)
    assert (done.returncode, done.stdout) == (2, "")
    assert "usage: collector-packet" in done.stderr
    assert arguments or "To begin: collector-packet new my-shop.yaml" in done.stderr


@pytest.mark.parametrize(
    ("out", "status", "said"),
    [
        (".", 2, "holds other things"),
        ("boatshed.yaml", 2, "is a file"),
        ("/proc/none/out", 3, "cannot write"),
        ("a-file/out", 3, "a file stands where a folder is needed"),
    ],
)
def test_folders_that_cannot_be_used(shop: Path, out: str, status: int, said: str) -> None:
    (shop / "a-file").write_text("")
    before = list_tree(shop)
    done = run("build", "boatshed.yaml", "-o", out, cwd=shop)
    assert done.returncode == status, done.stderr
    assert said in done.stderr
    assert done.stderr.count("\n") == 1
    assert list_tree(shop) == before


def test_a_read_only_folder_ends_with_3(shop: Path, tmp_path: Path) -> None:
    """Root may write into any folder but the kernel's own."""
    tmp_path.chmod(0o500)
    folder = Path("/sys") if os.geteuid() == 0 else tmp_path
    done = run("build", "boatshed.yaml", "-o", str(folder / "out"), cwd=shop)
    assert done.returncode == 3
    assert re.search(r"cannot write .*: (you may not write there|the disk is read-only)", done.stderr)
    assert done.stderr.count("\n") == 1


def test_check_json_holds_every_finding_in_base_units(shop: Path) -> None:
    done = run("check", "boatshed.yaml", "--json", cwd=shop)
    assert done.returncode == 0, done.stderr
    data = json.loads(done.stdout)
    assert data["verdict"] == "tight"
    keys = [finding["key"] for finding in data["findings"]]
    assert len(keys) == len(set(keys)) > 30
    flow = next(finding for finding in data["findings"] if finding["key"] == "flow.planer")
    assert flow["limit"]["value"] == pytest.approx(650 * 0.3048**3 / 60)  # 650 cfm in m3/s
    assert flow["shown"]["limit"] == "650 cfm"


def test_check_says_why_a_value_beyond_its_limit_is_tight(shop: Path) -> None:
    """A value above its limit is tight when the low end of its band is not: the band must be seen."""
    data = json.loads(run("check", "boatshed.yaml", "--json", cwd=shop).stdout)
    banded = [f for f in data["findings"] if f["verdict"] == "tight" and f["sense"] == "at least" and f["low"]
              and f["low"]["value"] < f["limit"]["value"] < f["value"]["value"]]  # fmt: skip
    assert banded
    shown = run("check", "boatshed.yaml", cwd=shop, COLUMNS="150").stdout
    assert len(re.findall(r"^    It may lie between \S+ \S+ and \S+ \S+; the verdict", shown, re.MULTILINE)) >= len(
        banded
    )


def test_check_fits_a_narrow_terminal(shop: Path) -> None:
    done = run("check", "boatshed.yaml", cwd=shop, COLUMNS="72")
    assert done.returncode == 0
    assert max(len(line) for line in done.stdout.splitlines()) <= 72
    assert "\x1b" not in done.stdout


@pytest.mark.parametrize("name", [path.name for path in SAMPLE_FILES if path.stem != "boatshed"])
def test_every_other_sample_fits_and_builds(name: str, tmp_path: Path) -> None:
    done = run("build", f"projects/{name}", "-q", "-o", str(tmp_path / "out"), cwd=TOP)
    assert done.returncode == 0, done.stdout + done.stderr
    written = set(list_tree(tmp_path / "out"))
    assert {"bill.csv", "packet.pdf"} <= written
    if Path(name).stem in WHOLE_SAMPLES:
        assert set(MAIN_FILES) <= written


def test_check_writes_nothing(shop: Path) -> None:
    before = list_tree(shop)
    run("check", "boatshed.yaml", cwd=shop)
    assert list_tree(shop) == before


def test_version_is_the_packages_and_loads_nothing_else(tmp_path: Path) -> None:
    """House rule: under 0.1 s. tests/bench times it; here is what makes it so."""
    declared = tomllib.loads((TOP / "pyproject.toml").read_text(encoding="utf-8"))["project"]["version"]
    assert declared == VERSION
    done = run("--version", cwd=tmp_path)
    assert (done.returncode, done.stdout) == (0, f"collector-packet {VERSION}\n")
    code = (
        "import sys; from packet.cli.cli import main; main(['--version']); "
        "print([m for m in sorted(sys.modules) if m.split('.')[0] in ('calc', 'packet', 'templates')])"
    )
    shown = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, cwd=TOP, check=True).stdout
    light = ["packet", "packet.cli", "packet.cli.cli", "packet.cli.streams", "packet.cli.usage", "packet.version"]
    assert shown.splitlines()[-1] == str(light)


def test_version_and_a_broken_file_load_no_heavy_library(tmp_path: Path) -> None:
    (tmp_path / "broken.yaml").write_text("a: [1\n")
    code = (
        "import sys; from packet.cli.cli import main; main({}); "
        "print([m for m in ('pint','reportlab','ezdxf','pypdf','jinja2','numpy') if m in sys.modules])"
    )
    for arguments in (["--version"], ["check", "broken.yaml"]):
        done = subprocess.run(
            [sys.executable, "-c", code.format(arguments)],
            capture_output=True, text=True, cwd=tmp_path, env={**os.environ, "PYTHONPATH": str(TOP)}, check=True,
        )  # fmt: skip
        assert done.stdout.splitlines()[-1] == "[]"


def test_schema_is_json(tmp_path: Path) -> None:
    for of in ("project", "answers", "sizing"):
        done = run("schema", of, cwd=tmp_path)
        assert done.returncode == 0, done.stderr
        assert json.loads(done.stdout)["$schema"].startswith("http")


def test_a_fault_of_our_own_is_one_line_with_a_report_and_70(shop: Path, tmp_path: Path) -> None:
    code = (
        "import sys, calc.sizing.sizing\n"
        "def fail(project): raise RuntimeError('secret detail')\n"
        "calc.sizing.sizing.size_project = fail\n"
        "from packet.cli.cli import main; sys.exit(main(['build', 'boatshed.yaml', '-o', 'never']))"
    )
    done = subprocess.run(
        [sys.executable, "-c", code], capture_output=True, text=True, cwd=shop, check=False,
        env={**os.environ, "PYTHONPATH": str(TOP), "TMPDIR": str(tmp_path)},
    )  # fmt: skip
    assert (done.returncode, done.stdout) == (70, "")
    assert done.stderr.count("\n") == 1
    assert "internal error (RuntimeError); report saved in " in done.stderr
    (report,) = tmp_path.iterdir()
    assert str(report) in done.stderr
    assert "secret detail" in report.read_text(encoding="utf-8")
    assert not (shop / "never").exists()


def test_output_into_a_closed_pipe_is_quiet(shop: Path) -> None:
    command = f"{sys.executable} -m packet check boatshed.yaml | head -n 1"
    done = subprocess.run(
        ["bash", "-c", command], capture_output=True, text=True, cwd=shop, env={**os.environ, "PYTHONPATH": str(TOP)},
        check=False,
    )  # fmt: skip
    assert done.stderr == ""


@pytest.mark.skipif(sys.platform == "win32", reason="needs signals")
def test_stopping_a_build_leaves_no_trace(shop: Path, tmp_path: Path) -> None:
    for is_there in (lambda: True, lambda: any(tmp_path.glob("out/.new.packet-new-*"))):
        process = subprocess.Popen(
            [sys.executable, "-m", "packet", "build", "boatshed.yaml", "-o", str(tmp_path / "out" / "new")],
            cwd=shop, env={**os.environ, "PYTHONPATH": str(TOP)}, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL,
        )  # fmt: skip
        while not is_there() and process.poll() is None:
            time.sleep(0.005)
        process.send_signal(signal.SIGINT)
        process.wait()
        assert not list(tmp_path.rglob(".*"))
        shutil.rmtree(tmp_path / "out", ignore_errors=True)


def test_other_paper_than_the_printer_was_measured_with_is_said() -> None:
    project = load_project(TOP / "projects" / "boatshed.yaml").project
    corrected = replace(project, display=replace(project.display, printer_x=0.998))
    assert "measured on letter: print the check page on this paper" in tell_asked(corrected, Asked(paper="a4"))
    assert "measured" not in tell_asked(project, Asked(paper="a4"))
    assert "measured" not in tell_asked(corrected, Asked(units="metric"))
