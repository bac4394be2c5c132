"""linework export: the drawing set as PDF."""

from __future__ import annotations

import argparse
import datetime
import sys
from pathlib import Path

from linework.design import Design
from linework.words import say


def run(design: Design, arguments: argparse.Namespace) -> int:
    """Write the set; 2 where it cannot be written, else 0."""
    # Late: the PDF library is wanted by nobody else on the command line.
    from linework.handover import HandoverError, write_set

    try:
        date = _date(arguments.date)
        write_set(design, Path(arguments.output), date=date)
    except (HandoverError, ValueError) as fault:
        print(fault, file=sys.stderr)
        return 2
    print(say("written: {path}", path=arguments.output))
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
