"""How long a whole build takes against a bare script that draws as many pages of the same kind.

    python tests/bench/bare_reportlab.py [projects/boatshed.yaml]

Runs both as cold processes, several times, and prints the best of each (other work on the machine only adds), their
ratio on the clock (at most 5) and peak memory (at most 150 MB). The bare script knows nothing of dust collectors:
plain-string tables, text and line drawings by reportlab.
"""

from __future__ import annotations

import resource
import subprocess
import sys
import tempfile
import time
from pathlib import Path

TOP = Path(__file__).parents[2]
RUNS = 5
MOST_RATIO = 5.0
MOST_MB = 150.0

BARE = """
import sys
from reportlab.lib.styles import getSampleStyleSheet
from reportlab.pdfbase import pdfmetrics
from reportlab.pdfbase.ttfonts import TTFont
from reportlab.platypus import Flowable, PageBreak, Paragraph, SimpleDocTemplate, Table
import font_source_sans_pro as source

texts, tables, drawings = map(int, sys.argv[2:5])
pdfmetrics.registerFont(TTFont("Body", source.font_files_ttf["SourceSansPro"]))
style = getSampleStyleSheet()["BodyText"].clone("b", fontName="Body")

class Lines(Flowable):
    def wrap(self, width, height):
        return width, 600
    def draw(self):
        for n in range(200):
            x, y = 20 + (n % 20) * 22, 20 + (n // 20) * 55
            self.canv.circle(x, y, 9)
            self.canv.setFont("Body", 7)
            self.canv.drawString(x, y, f"{n}")

story = []
for n in range(texts):
    story += [Paragraph(f"{n} measure, mark, cut and fit the panel before the sealant goes on. " * 5, style)] * 12
    story.append(PageBreak())
for n in range(tables):
    rows = [["item", "size", "qty", "unit", "each", "cost"]]
    rows += [[f"part {r}", "11-27/32 in", str(r), "piece", "1.50", f"{r * 1.5:.2f}"] for r in range(30)]
    table = Table(rows, repeatRows=1)
    table.setStyle([("FONT", (0, 0), (-1, -1), "Body", 9), ("LINEBELOW", (0, 0), (-1, -1), 0.5, "grey")])
    story += [table, PageBreak()]
for n in range(drawings):
    story += [Lines(), PageBreak()]
SimpleDocTemplate(sys.argv[1], invariant=1).build(story)
"""


def time_process(command: list[str]) -> tuple[float, float]:
    """Return the wall time [s] and the processor time [s] of a process."""
    before = resource.getrusage(resource.RUSAGE_CHILDREN)
    start = time.perf_counter()
    subprocess.run(command, cwd=TOP, check=False, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
    wall = time.perf_counter() - start
    after = resource.getrusage(resource.RUSAGE_CHILDREN)
    return wall, after.ru_utime + after.ru_stime - before.ru_utime - before.ru_stime


def measure_memory(command: list[str]) -> float:
    """Return the peak memory [MB] of a process, asked of a parent that has no other child."""
    ask = (
        "import resource, subprocess, sys; subprocess.run(sys.argv[1:], stdout=-3, stderr=-3);"
        "print(resource.getrusage(resource.RUSAGE_CHILDREN).ru_maxrss / 1024)"
    )
    done = subprocess.run([sys.executable, "-c", ask, *command], cwd=TOP, capture_output=True, text=True, check=True)
    return float(done.stdout)


def count_pages(pdf: Path) -> int:
    from pypdf import PdfReader

    return len(PdfReader(pdf).pages)


def main() -> int:
    """Print the times, the ratio and the memory; return 1 when either is over its limit."""
    project = sys.argv[1] if len(sys.argv) > 1 else "projects/boatshed.yaml"
    with tempfile.TemporaryDirectory() as folder:
        out = Path(folder) / "out"
        build = [sys.executable, "-m", "packet", "build", project, "-o", str(out)]
        subprocess.run(build, cwd=TOP, check=False, stdout=subprocess.DEVNULL)
        pages = count_pages(out / "packet.pdf")
        drawings = pages * 4 // 10
        tables = pages * 4 // 10
        script = Path(folder) / "bare.py"
        script.write_text(BARE, encoding="utf-8")
        counts = [str(pages - drawings - tables), str(tables), str(drawings)]
        bare = [sys.executable, str(script), str(Path(folder) / "bare.pdf"), *counts]
        bare_times = [time_process(bare) for _ in range(RUNS)]
        build_times = [time_process(build) for _ in range(RUNS)]
        bare_pages = count_pages(Path(folder) / "bare.pdf")
        memory = measure_memory(build)
    bare_s, build_s = (min(wall for wall, _ in times) for times in (bare_times, build_times))
    bare_cpu, build_cpu = (min(cpu for _, cpu in times) for times in (bare_times, build_times))
    ratio = build_s / bare_s
    print(f"bare reportlab, {bare_pages} pages: {bare_s:.2f} s wall, {bare_cpu:.2f} s of the processor")
    print(f"whole build,    {pages} pages: {build_s:.2f} s wall, {build_cpu:.2f} s of the processor")
    print(f"ratio {ratio:.1f} (at most {MOST_RATIO:g}); of the processor's time {build_cpu / bare_cpu:.1f}")
    print(f"peak memory {memory:.0f} MB (at most {MOST_MB:g})")
    return 0 if ratio <= MOST_RATIO and memory <= MOST_MB else 1


if __name__ == "__main__":
    sys.exit(main())
