"""What each command does, once it is known which one is asked for."""

from __future__ import annotations

import argparse
import sys
from collections.abc import Callable
from pathlib import Path
from typing import TYPE_CHECKING

from calc.finding import Verdict
from packet.cli.finding_files import choose_project, is_code, tell_code
from packet.cli.invocation import name_program
from packet.cli.streams import tell_done
from packet.cli.terminal import clear_progress, get_width, make_progress, show_warnings
from packet.reading.problem import find_nearest, list_words

if TYPE_CHECKING:
    from packet.build.build import Built
    from packet.job import AnyJob

HOW_TO_PRINT = """\
How to print: open packet.pdf and choose 100 % (also called actual size, or scale: none, or no
scaling). Print the print check page first and measure its rules with your own tape. Cut nothing
before they agree."""


def read_only(text: str | None) -> tuple[str, ...] | None:
    """Return the sections asked for, in the packet's order. Raises SystemExit with status 2 for an unknown one."""
    if text is None:
        return None
    from packet.build.outputs import PARTS
    from packet.pages.kit.sections import SECTION_NAMES

    names = [name.strip().lower().replace("_", "-").replace(" ", "-") for name in text.split(",") if name.strip()]
    if names == [PARTS]:
        return (PARTS,)
    for name in names:
        if name not in SECTION_NAMES:
            near = find_nearest(name, SECTION_NAMES)
            hint = f"; did you mean '{near}'?" if near else ""
            print(
                f"collector-packet: no section is called '{name}'{hint}\nsections: {list_words(SECTION_NAMES, 40)}\n"
                f"or {PARTS} alone: the files for a machine that cuts",
                file=sys.stderr,
            )
            raise SystemExit(2)
    if not names:
        print(f"collector-packet: --only needs a section: {list_words(SECTION_NAMES, 40)}", file=sys.stderr)
        raise SystemExit(2)
    return tuple(name for name in SECTION_NAMES if name in names)


def run_build(asked: argparse.Namespace) -> int:
    """Build; then findings, files and how to print."""
    asked.project = choose_project(asked.project)
    if asked.watch:
        from packet.cli.watch import watch_file

        return watch_file(Path(asked.project), lambda: build_once(asked), building=True)
    return build_once(asked)


def build_once(asked: argparse.Namespace) -> int:
    from packet.build.build import build_packet
    from packet.reading.display_asked import read_asked

    only, display = read_only(asked.only), read_asked(asked.paper, asked.units)
    try:
        built = build_packet(
            Path(asked.project), Path(asked.out) if asked.out else None, only, make_progress(asked.quiet), display
        )
    finally:
        clear_progress(asked.quiet)
    show_warnings(built.job)
    show_kept(built, asked.project)
    with tell_done(f"the outputs are in {show_path(built.out)}"):
        show_built(built, asked.quiet, only is not None)
    return get_status(built.job.verdict)


def show_kept(built: Built, project: str) -> None:
    """Say on stderr which old forms were kept, why, and how what they say gets into the log."""
    for kept in built.kept:
        path = show_path(built.out / kept.name)
        if kept.state == "unread":
            print(
                f"note: the old {kept.was} could not be read (damaged or locked); it is kept as {path}", file=sys.stderr
            )
        elif kept.state == "marked":
            print(f"note: the old {kept.was} has notes put on its pages; it is kept as {path}", file=sys.stderr)
        else:
            print(
                f"note: the old {kept.was} has values typed in that are not in the log; it is kept as {path}\n"
                f"to record them: collector-packet record {quote_path(project)} {quote_path(path)}",
                file=sys.stderr,
            )


def quote_path(path: str) -> str:
    """Return a path as it can be pasted into a terminal."""
    import shlex

    return f'"{path}"' if sys.platform == "win32" else shlex.quote(path)


def get_status(verdict: Verdict) -> int:
    return 1 if verdict is Verdict.DOES_NOT_FIT else 0


def show_built(built: Built, quiet: bool, part: bool) -> None:
    """Print the findings, the files by folder, and how to print."""
    from packet.words.findings import count_verdicts, write_table

    job = built.job
    if not quiet:
        print(write_table(job.findings, job.reader, get_width()))
        print()
    print(f"Findings: {count_verdicts(job.judged)}.")
    if job.asked:
        print(job.asked)
    print(f"Written to {show_path(built.out)}:")
    for line in list_by_folder(built.files):
        print(f"  {line}")
    if not quiet and not part:
        print(f"\n{HOW_TO_PRINT}")


def show_path(path: Path) -> str:
    """Return a path as short as it can be said from here."""
    try:
        return str(path.relative_to(Path.cwd().resolve()))
    except ValueError:
        return str(path)


def list_by_folder(files: tuple[str, ...]) -> list[str]:
    """Return main files by name and folders with a count."""
    lines = [name for name in files if "/" not in name]
    folders: dict[str, list[str]] = {}
    for name in files:
        if "/" in name:
            folders.setdefault(name.rsplit("/", 1)[0], []).append(name.rsplit(".", 1)[-1])
    for folder, kinds in folders.items():
        counts = ", ".join(f"{kinds.count(kind)} {kind}" for kind in sorted(set(kinds)))
        lines.append(f"{folder}/ ({counts})")
    return lines


def run_check(asked: argparse.Namespace) -> int:
    """Show the findings, or what made a sheet; write nothing."""
    asked.project = choose_project(asked.project)
    if is_code(asked.project):
        return tell_code(asked.project)
    if asked.watch:
        from packet.cli.watch import watch_file

        return watch_file(Path(asked.project), lambda: check_once(asked), building=False)
    return check_once(asked)


def check_once(asked: argparse.Namespace) -> int:
    from packet.job import make_job
    from packet.reading.display_asked import read_asked

    display = read_asked(None, asked.units)
    try:
        job = make_job(Path(asked.project), make_progress(asked.json), display)
        job.check_words()
        findings = job.findings
    finally:
        clear_progress(asked.json)
    if asked.json:
        import json

        from packet.build.check import describe_check

        print(json.dumps(describe_check(job), indent=2, ensure_ascii=False))
    else:
        from packet.words.findings import count_verdicts, write_table

        show_warnings(job)
        print(write_table(findings, job.reader, get_width(), whole=asked.all))
        print(f"\nFindings: {count_verdicts(findings)}.")
        if not asked.all and any(finding.verdict is Verdict.FITS for finding in findings):
            print("What fits is folded to its count; --all shows it.")
        show_left_out(job)
        print(tell_next(job.verdict, asked.project))
    return get_status(job.verdict)


def tell_next(verdict: Verdict, project: str) -> str:
    """Return the one line that says what to do after a check, with a command that can be pasted."""
    program, path = name_program(), quote_path(project)
    if verdict is Verdict.DOES_NOT_FIT:
        return f"Next: change one thing in {path}, save it, and look again: {program} check {path}"
    return f"Next: {program} build {path}"


def run_completion(asked: argparse.Namespace) -> int:
    """Print what makes a shell complete the commands and their options."""
    import shtab

    from packet.cli.usage import make_parser

    print(shtab.complete(make_parser(), asked.shell))
    return 0


def show_left_out(job: AnyJob) -> None:
    """Print what the file leaves out, and a line for each key that would bring it."""
    from packet.words.phrases import take_words
    from packet.work.left_out import list_examples, tell_left_out

    told = tell_left_out(job.has, job.keys, job.reader.language)
    if told:
        print(f"\n{take_words('parts', job.reader.language)('left_out')}:")
        print(
            "\n".join(
                [*(f"  {line}" for line in told), "", *(f"  {line}" for line in list_examples(job.has, job.keys))]
            )
        )


def run_schema(asked: argparse.Namespace) -> int:
    """Print a JSON Schema."""
    import json

    if asked.of == "project":
        from packet.fields.schema import make_project_schema

        print(json.dumps(make_project_schema(), indent=2, ensure_ascii=False))
    elif asked.of == "answers":
        from packet.fields.schema import make_answers_schema

        print(json.dumps(make_answers_schema(), indent=2, ensure_ascii=False))
    else:
        from packet.files.sizing_json import SCHEMA

        print(json.dumps(SCHEMA, indent=2, ensure_ascii=False))
    return 0


def run_record(asked: argparse.Namespace) -> int:
    """Add to the as-built log, or show it."""
    from packet.cli.record_ask import run_record as run

    return run(asked)


def run_new(asked: argparse.Namespace) -> int:
    """Write a new project file."""
    from packet.cli.new import write_new_project

    return write_new_project(Path(asked.project), asked.start, asked.answers)


RUN: dict[str, Callable[[argparse.Namespace], int]] = {
    "build": run_build,
    "check": run_check,
    "schema": run_schema,
    "record": run_record,
    "new": run_new,
    "completion": run_completion,
}
