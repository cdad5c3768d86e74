"""The command line: what can be asked, and how a run ends.

Exit status: 0 fits, 1 something does not fit, 2 bad file or usage, 3 cannot write, 70 internal error.
Nothing heavy is imported before it is known what is asked.
"""

from __future__ import annotations

import argparse
import gc
import sys
from collections.abc import Sequence

from packet.cli.usage import make_parser, put_right

FITS, DOES_NOT_FIT, BAD_FILE, CANNOT_WRITE, OUR_FAULT, STOPPED = 0, 1, 2, 3, 70, 130

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
    return run_command(make_parser().parse_args(put_right(sys.argv[1:] if arguments is None else arguments)))


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
        show_bad_project(bad, building=asked.command == "build")
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
