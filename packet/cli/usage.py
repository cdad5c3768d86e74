"""What can be typed: the parser of the command line, with examples and exit statuses below each help."""

from __future__ import annotations

import argparse
import sys
from collections.abc import Sequence

from packet.version import VERSION

COMMANDS = ("build", "check", "new", "schema", "record", "completion")
HOW_TO_BEGIN = "To begin: collector-packet new my-shop.yaml; then check my-shop.yaml; then build my-shop.yaml."
STATUS_HELP = "Exit status: 0 fits, 1 something does not fit, 2 bad file or usage, 3 cannot write, 70 internal error"
DONE_HELP = "Exit status: 0 done, 2 bad file or usage, 3 cannot write, 70 internal error"


def make_parser() -> argparse.ArgumentParser:
    """Return the parser of the whole command line."""
    parser = argparse.ArgumentParser(
        prog="collector-packet",
        description="One project file of a small wood shop's dust collector in, one printable build packet out.",
        epilog=f"{HOW_TO_BEGIN} {STATUS_HELP}",
    )
    parser.add_argument("--version", action="version", version=f"collector-packet {VERSION}")
    commands = parser.add_subparsers(dest="command", required=True, metavar="COMMAND")

    build = add_command(commands, "build", "build the packet and all files beside it", BUILD_EXAMPLES, STATUS_HELP)
    build.add_argument("project", nargs="?", help="the project file (default: the only one in this folder)")
    build.add_argument("-o", "--out", metavar="DIR", help="folder for the outputs (default: out/NAME OF THE FILE)")
    build.add_argument("--only", metavar="SECTIONS", help="only these sections as one PDF, such as templates,gauge")
    add_display_options(build)
    build.add_argument("--watch", action="store_true", help="build again whenever the file is saved")
    build.add_argument("-q", "--quiet", action="store_true", help="no progress, no findings")

    check = add_command(commands, "check", "show the findings, write nothing", CHECK_EXAMPLES, STATUS_HELP)
    check.add_argument(
        "project",
        nargs="?",
        help="the project file (default: the only one in this folder); or the code of a printed sheet, "
        "to find its file and revision here and in the folders below",
    )
    check.add_argument("--all", action="store_true", help="show what fits as well")
    check.add_argument("--json", action="store_true", help="findings as JSON")
    check.add_argument("--units", metavar="UNITS", help="inch or metric, this time only")
    check.add_argument("--watch", action="store_true", help="check again whenever the file is saved")

    new = add_command(commands, "new", "start a project file by questions", NEW_EXAMPLES, DONE_HELP)
    new.add_argument("project", help="the file to write; it must not be there yet")
    new.add_argument("--from", dest="start", metavar="SHOP", help="start from a shop that is there, without questions")
    new.add_argument("--answers", metavar="FILE", help="take the answers from a file instead of asking")

    schema = add_command(commands, "schema", "print a schema for editors and programs", SCHEMA_EXAMPLES, DONE_HELP)
    schema.add_argument(
        "of",
        choices=("project", "answers", "sizing"),
        help="of the project file, of an answers file, or of sizing.json",
    )

    record = add_command(commands, "record", "add a filled as-built form to the log", RECORD_EXAMPLES, DONE_HELP)
    record.add_argument("project", help="the project file")
    record.add_argument("form", nargs="?", help="the filled PDF; without it the values are asked for")
    record.add_argument("--show", action="store_true", help="show the log instead")

    completion = add_command(
        commands, "completion", "print what makes a shell complete these commands", COMPLETION_EXAMPLES, DONE_HELP
    )
    completion.add_argument("shell", choices=("bash", "zsh", "tcsh"), help="your shell")
    return parser


BUILD_EXAMPLES = ("build my-shop.yaml", "build my-shop.yaml --only templates")
CHECK_EXAMPLES = ("check my-shop.yaml", "check my-shop.yaml --all", "check 3f0a9c41d2e7")
NEW_EXAMPLES = ("new my-shop.yaml", "new my-shop.yaml --from boatshed")
SCHEMA_EXAMPLES = ("schema project",)
RECORD_EXAMPLES = ("record my-shop.yaml out/my-shop/packet.pdf", "record my-shop.yaml --show")
COMPLETION_EXAMPLES = ("completion bash",)


def add_command(
    commands: argparse._SubParsersAction[argparse.ArgumentParser],
    name: str,
    does: str,
    examples: Sequence[str],
    statuses: str,
) -> argparse.ArgumentParser:
    """Return the parser of one command, with examples and exit statuses below its help."""
    shown = "\n".join(f"  collector-packet {example}" for example in examples)
    return commands.add_parser(
        name,
        help=does,
        description=f"{does[0].upper()}{does[1:]}.",
        epilog=f"for example:\n{shown}\n\n{statuses}",
        formatter_class=argparse.RawDescriptionHelpFormatter,
    )


def add_display_options(parser: argparse.ArgumentParser) -> None:
    """Add what a print may have in another way than its project file says."""
    parser.add_argument("--paper", metavar="PAPER", help="letter, legal, tabloid, a4 or a3, for this print only")
    parser.add_argument("--units", metavar="UNITS", help="inch or metric, for this print only")


def put_right(arguments: Sequence[str]) -> list[str]:
    """Take ``help`` and ``version`` as the words they are. Raises SystemExit with status 2 for an unknown command."""
    first, *rest = arguments
    if first == "version" and not rest:
        return ["--version"]
    if first == "help":
        return [*rest[:1], "--help"]
    if first.startswith("-") or first in COMMANDS:
        return list(arguments)
    from packet.reading.problem import find_nearest, list_words
    from packet.words.visible import make_visible

    near = find_nearest(first, COMMANDS)
    if near:
        hint = f"did you mean '{near}'?"
    elif first.lower().endswith((".yaml", ".yml")):
        hint = f"what is to be done with it? For example: collector-packet check {make_visible(first)}"
    else:
        hint = f"expected {list_words(COMMANDS)}"
    make_parser().print_usage(sys.stderr)
    print(f"collector-packet: no command is called '{make_visible(first)}'; {hint}", file=sys.stderr)
    raise SystemExit(2)
