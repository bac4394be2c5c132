"""Reads the arguments and hands over to one command.

Exit status: 0 with warnings or accepted findings only, 1 if a danger is not
accepted or something could not be analysed, 2 for a file that cannot be read.
"""

from __future__ import annotations

import argparse
import sys
from collections.abc import Callable, Sequence
from pathlib import Path

from linework.cli import check, export, study, supply
from linework.design import Design
from linework.storage import StorageError, load
from linework.words import say

UNREADABLE = 2

Command = Callable[[Design, argparse.Namespace], int]
COMMANDS: dict[str, Command] = {
    "check": check.run,
    "study": study.run,
    "supply": supply.run,
    "export": export.run,
}


def main(argv: Sequence[str]) -> int:
    """Run one of ``COMMANDS``; its exit status."""
    arguments = parser().parse_args(argv)
    try:
        design = load(Path(arguments.file))
    except StorageError as fault:
        print(fault, file=sys.stderr)
        return UNREADABLE
    return COMMANDS[arguments.command](design, arguments)


def parser() -> argparse.ArgumentParser:
    """The commands and their arguments."""
    top = argparse.ArgumentParser(prog="linework", description=say("Judge a drawn power system."))
    commands = top.add_subparsers(dest="command", required=True)
    one = commands.add_parser("check", help=say("print the findings"))
    one.add_argument("file")
    one.add_argument("--json", action="store_true", help=say("as one JSON object"))
    two = commands.add_parser("study", help=say("print every computed number"))
    two.add_argument("file")
    two.add_argument("--json", action="store_true", help=say("as one JSON object"))
    _supply_parser(
        commands.add_parser("supply", help=say("say whether the loads are carried over a year"))
    )
    _export_parser(commands.add_parser("export", help=say("write the drawing set as files")))
    return top


def _supply_parser(four: argparse.ArgumentParser) -> None:
    """The arguments of the command that works out supply over time."""
    four.add_argument("file")
    four.add_argument("--json", action="store_true", help=say("as one JSON object"))
    four.add_argument(
        "--years",
        type=_years,
        default=40,
        help=say("how many years with weather are drawn, 1 to 1000; 40 if not given"),
    )
    four.add_argument("--seed", type=int, default=1, help=say("another seed draws other years"))
    four.add_argument(
        "--climate",
        default="",
        metavar="FILE",
        help=say("own monthly means: columns month, sun (kWh/m2 a day), warmth (degC)"),
    )


def _years(text: str) -> int:
    """The number of years; ValueError (told by the parser) for none."""
    found = int(text)
    if not 1 <= found <= 1000:
        raise ValueError(text)
    return found


def _export_parser(three: argparse.ArgumentParser) -> None:
    """The arguments of the command that writes files."""
    three.add_argument("file")
    three.add_argument(
        "-o",
        "--output",
        required=True,
        metavar="OUT",
        help=say(
            "where to; its ending says what: .pdf the whole set; .svg, .png (300 dots per inch) or"
            " .dxf the one-line diagram, a file for each sheet; .xlsx the tables; .csv a file for"
            " each of them"
        ),
    )
    three.add_argument("--date", help=say("the date to print, as 2026-03-01; today if not given"))
    three.add_argument(
        "--sheets",
        default="",
        help=say(
            "only these, by name or number, between commas: diagram,runs or 1,3 (a name that is"
            " not known is answered with those there are)"
        ),
    )
    three.add_argument(
        "--paper",
        default="",
        help=say(
            "A4, A3, letter or tabloid, with ' upright' behind it if the diagram is to stand so;"
            " the design's own if not given. All is set anew on it at full size, a diagram that"
            " does not fit on several sheets"
        ),
    )
