"""What the drawing set costs beside the analysis that it prints.

Run by itself (python -m tests.speed.test_export) for processor times as processes, and their ratio.
Under pytest the work is counted, not timed.
"""

from __future__ import annotations

import datetime
import io
import resource
import subprocess
import sys
import tempfile
from collections import Counter
from collections.abc import Callable, Mapping, Sequence
from dataclasses import replace
from pathlib import Path
from typing import Any

import pypdf
import pytest
from reportlab.platypus import Flowable

from linework.handover import one_line, positions
from linework.handover.content import Content
from linework.handover.document import SHEETS, content_of, pages_bytes
from linework.handover.pages import SetCanvas
from linework.handover.sheets import Band, Room, Sheet
from linework.storage import load
from tests.speed.test_judging import SAMPLE

GOAL = 1.5
"""The set takes less than so many times what the check alone takes."""
DATE = datetime.date(2026, 3, 1)

_NAMING = {"cover", "findings", "diagram", "operator", "loops", "tests", "commissioning"} | {
    "placards",
    "conductors",
    "further",
}
"""The sheets that name a page; others are made but once."""

# under pytest


@pytest.fixture(scope="module")
def trailer() -> Content:
    return content_of(load(SAMPLE), DATE)


def fresh(content: Content) -> Content:
    """The same, nothing of which was worked out."""
    return replace(content, _kept={})


def counted(work: Callable[..., Any], count: Counter[str], name: str) -> Callable[..., Any]:
    def asked(*args: Any, **named: Any) -> Any:
        count[name] += 1
        return work(*args, **named)

    return asked


def test_each_thing_is_worked_out_once(trailer: Content, monkeypatch: pytest.MonkeyPatch) -> None:
    """Though the pages are gone through twice: the diagram, and what may be live in a position."""
    count: Counter[str] = Counter()
    for module, name in ((one_line, "compose"), (positions, "_live_held")):
        monkeypatch.setattr(module, name, counted(getattr(module, name), count, name))
    pages_bytes(fresh(trailer))
    told = positions.positions(trailer)
    assert count["compose"] == 1
    assert 0 < count["_live_held"] <= len(told)


def test_only_what_names_a_page_is_made_again(trailer: Content) -> None:
    made: dict[str, list[Mapping[str, int]]] = {}

    def watched(sheet: Sheet) -> Sheet:
        def make(content: Content, room: Room) -> Sequence[Flowable | Band]:
            known = made.setdefault(sheet.key, [])
            known += [content.pages] * all(content.pages is not each for each in known)
            return sheet.make(content, room)

        return replace(sheet, make=make)

    whole = pages_bytes(fresh(trailer), [watched(sheet) for sheet in SHEETS])
    assert whole == pages_bytes(fresh(trailer))
    again = {key for key, passes in made.items() if len(passes) > 1}
    assert again <= _NAMING
    assert made.keys() == {sheet.key for sheet in SHEETS}


def test_pages_are_painted_once(trailer: Content, monkeypatch: pytest.MonkeyPatch) -> None:
    count: Counter[str] = Counter()
    monkeypatch.setattr(SetCanvas, "showPage", counted(SetCanvas.showPage, count, "pages"))
    whole = pages_bytes(fresh(trailer))
    assert count["pages"] == len(pypdf.PdfReader(io.BytesIO(whole)).pages)
    chosen = pages_bytes(
        fresh(trailer), choose=lambda known: {n for v in known.values() for n in v}
    )
    assert chosen == whole


# by itself


def processor_s(*words: str) -> float:
    """Processor time of a process of the program, in seconds."""
    begin = resource.getrusage(resource.RUSAGE_CHILDREN).ru_utime
    done = subprocess.run([sys.executable, "-m", "linework", *words], stdout=subprocess.DEVNULL)
    assert done.returncode in (0, 1)
    return resource.getrusage(resource.RUSAGE_CHILDREN).ru_utime - begin


def main(rounds: int = 5) -> None:
    """Print the shortest of some rounds, one and the other in turn, and the ratio."""
    with tempfile.TemporaryDirectory() as folder:
        out = str(Path(folder) / "set.pdf")
        times = [
            (processor_s("check", str(SAMPLE)), processor_s("export", str(SAMPLE), "-o", out))
            for _ in range(rounds)
        ]
    check, export = (min(column) for column in zip(*times, strict=True))
    print(f"{check:8.2f} s  check of the trailer")
    print(f"{export:8.2f} s  export of its set")
    print(f"{export / check:8.2f} x  goal {GOAL:g} x")


if __name__ == "__main__":
    main()
