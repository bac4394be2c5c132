"""linework export: the drawing set, or parts of it, in the form that a file name's ending says."""

from __future__ import annotations

import argparse
import datetime
import sys
from pathlib import Path

from linework.design import Design
from linework.words import say


def run(design: Design, arguments: argparse.Namespace) -> int:
    """Write the files; 2 where they cannot be written, else 0."""
    # Late: the libraries that write files are wanted by nobody else on the command line.
    from linework.handover import HandoverError
    from linework.handover.formats import Order, export

    try:
        order = Order(
            Path(arguments.output),
            _date(arguments.date),
            tuple(arguments.sheets.split(",")),
            arguments.paper,
        )
        written = export(design, order)
    except (HandoverError, ValueError) as fault:
        print(fault, file=sys.stderr)
        return 2
    for path in written:
        print(say("written: {path}", path=path))
    return 0


def _date(text: str | None) -> datetime.date:
    if text is None:
        return datetime.date.today()
    try:
        return datetime.date.fromisoformat(text)
    except ValueError as fault:
        raise ValueError(
            say("the date {text} is not one; write it as 2026-03-01", text=text)
        ) from fault
