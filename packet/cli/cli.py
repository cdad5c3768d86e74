"""The command line: what can be asked, and how a run ends.

Exit status: 0 fits, 1 something does not fit, 2 bad file or usage, 3 cannot write, 70 internal error.
Nothing heavy is imported before it is known what is asked.
"""

from __future__ import annotations

import argparse
import gc
import sys
from collections.abc import Sequence

from packet.version import VERSION

FITS, DOES_NOT_FIT, BAD_FILE, CANNOT_WRITE, OUR_FAULT, STOPPED = 0, 1, 2, 3, 70, 130
HOW_TO_BEGIN = "To begin: collector-packet new my-shop.yaml; then check my-shop.yaml; then build my-shop.yaml."
STATUS_HELP = "Exit status: 0 fits, 1 something does not fit, 2 bad file or usage, 3 cannot write, 70 internal error"


def make_parser() -> argparse.ArgumentParser:
    """Return the parser of the whole command line."""
    parser = argparse.ArgumentParser(
        prog="collector-packet",
        description="One project file of a small wood shop's dust collector in, one printable build packet out.",
        epilog=f"{HOW_TO_BEGIN} {STATUS_HELP}",
    )
    parser.add_argument("--version", action="version", version=f"collector-packet {VERSION}")
    commands = parser.add_subparsers(dest="command", required=True, metavar="COMMAND")

    build = commands.add_parser("build", help="build the packet and all files beside it", epilog=STATUS_HELP)
    build.add_argument("project", help="the project file, such as projects/boatshed.yaml")
    build.add_argument("-o", "--out", metavar="DIR", help="folder for the outputs (default: out/NAME OF THE FILE)")
    build.add_argument("--only", metavar="SECTIONS", help="only these sections as one PDF, such as templates,gauge")
    add_display_options(build)
    build.add_argument("--watch", action="store_true", help="build again whenever the file is saved")
    build.add_argument("-q", "--quiet", action="store_true", help="no progress, no findings")

    check = commands.add_parser("check", help="show the findings, write nothing", epilog=STATUS_HELP)
    check.add_argument("project", help="the project file")
    check.add_argument("--json", action="store_true", help="findings as JSON")
    check.add_argument("--units", metavar="UNITS", help="inch or metric, this time only")
    check.add_argument("--watch", action="store_true", help="check again whenever the file is saved")

    new = commands.add_parser("new", help="start a project file by questions")
    new.add_argument("project", help="the file to write; it must not be there yet")
    new.add_argument("--from", dest="start", metavar="SHOP", help="start from a shop that is there, without questions")
    new.add_argument("--answers", metavar="FILE", help="take the answers from a file instead of asking")

    schema = commands.add_parser("schema", help="print a schema for editors and programs")
    schema.add_argument(
        "of",
        choices=("project", "answers", "sizing"),
        help="of the project file, of an answers file, or of sizing.json",
    )

    record = commands.add_parser("record", help="add a filled as-built form to the project's log")
    record.add_argument("project", help="the project file")
    record.add_argument("form", nargs="?", help="the filled PDF; without it the values are asked for")
    record.add_argument("--show", action="store_true", help="show the log instead")
    return parser


def add_display_options(parser: argparse.ArgumentParser) -> None:
    """Add what a print may have in another way than its project file says."""
    parser.add_argument("--paper", metavar="PAPER", help="letter, legal, tabloid, a4 or a3, for this print only")
    parser.add_argument("--units", metavar="UNITS", help="inch or metric, for this print only")


FEW_CYCLES = 10_000
"""Objects between two searches for cycles: with Python's own 700 a large shop's build spends a fifth on them."""


def main(arguments: Sequence[str] | None = None) -> int:
    """Run one command and return its exit status. Never shows a traceback."""
    from packet.cli.streams import CannotPrint, guard_streams

    gc.set_threshold(FEW_CYCLES)
    with guard_streams():
        try:
            try:
                status = run_arguments(arguments)
            except SystemExit as leaving:
                status = leaving.code if isinstance(leaving.code, int) else BAD_FILE
            sys.stdout.flush()
            return status
        except KeyboardInterrupt:
            print("\nstopped; every file is whole, the old one or the new one", file=sys.stderr)
            return STOPPED
        except CannotPrint as lost:
            print(f"collector-packet: {lost}", file=sys.stderr)
            return CANNOT_WRITE
        except BaseException as error:
            from packet.cli.fault import report_fault

            print(report_fault(error, arguments if arguments is not None else sys.argv[1:]), file=sys.stderr)
            return OUR_FAULT


def run_arguments(arguments: Sequence[str] | None) -> int:
    """Read the command line and run what it asks for. Raises SystemExit for help and bad usage."""
    if not (sys.argv[1:] if arguments is None else arguments):
        make_parser().print_help(sys.stderr)
        return BAD_FILE
    return run_command(make_parser().parse_args(arguments))


def run_command(asked: argparse.Namespace) -> int:
    """Run the command asked for; turn the user's faults into their exit status."""
    from packet.cli import commands
    from packet.cli.terminal import show_bad_project
    from packet.disk.write import BadTarget, CannotWrite
    from packet.reading.problem import BadProject
    from packet.words.reader import BadWords

    try:
        return commands.RUN[asked.command](asked)
    except BadProject as bad:
        show_bad_project(bad)
        return BAD_FILE
    except BadTarget as bad_target:
        print(f"collector-packet: {bad_target}", file=sys.stderr)
        return BAD_FILE
    except BadWords as bad_words:
        print(f"collector-packet: {bad_words}", file=sys.stderr)
        print("Mend that line, or put the file back as it was; templates/README.md tells how.", file=sys.stderr)
        return BAD_FILE
    except CannotWrite as cannot:
        print(f"collector-packet: {cannot}", file=sys.stderr)
        return CANNOT_WRITE


if __name__ == "__main__":
    sys.exit(main())
