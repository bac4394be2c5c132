"""From a design to files: the ending chooses the form, and all files are written or none."""

from __future__ import annotations

import datetime
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from importlib import import_module
from pathlib import Path

from linework.analysis import Analysis
from linework.data import ResourceError
from linework.design import Design
from linework.handover.content import Content
from linework.handover.document import HandoverError, content_of
from linework.sheet.frame import PaperError, frame_of
from linework.storage import StorageError
from linework.storage.files import write_several
from linework.words import say

Asked = tuple[str, ...]
Made = Mapping[str, bytes]
"""What distinguishes a file from its fellows in the set (a number, the name of a table) -> its
content; one file alone takes the name that was asked for."""
Make = Callable[[Content, Asked], Made]

_MODULES = {
    ".pdf": "pdf",
    ".svg": "svg",
    ".png": "png",
    ".dxf": "dxf",
    ".xlsx": "xlsx",
    ".csv": "csv",
}
"""Each form in a module of its own, imported with its library only when it is asked for."""

ENDINGS = tuple(_MODULES)


@dataclass(frozen=True)
class Order:
    """What is to be written where. ``sheets``: names or numbers, all if empty. ``paper``: ""
    takes the design's own."""

    path: Path
    date: datetime.date
    sheets: Asked = ()
    paper: str = ""


def export(design: Design, order: Order, analysis: Analysis | None = None) -> tuple[Path, ...]:
    """Write the files and return their paths, in order.

    HandoverError for an ending, paper or sheet that is not known, and where a file cannot be
    written; then nothing was.
    """
    make = _make_for(order.path)
    try:
        paper = frame_of(order.paper).name if order.paper else ""
    except PaperError as fault:
        raise HandoverError(str(fault)) from fault
    content = content_of(design, order.date, analysis, paper)
    try:
        made = make(content, order.sheets)
        files = {_path(order.path, key, len(made)): data for key, data in made.items()}
        write_several(files)
    except (StorageError, ResourceError) as fault:
        raise HandoverError(str(fault)) from fault
    return tuple(files)


def _make_for(path: Path) -> Make:
    ending = path.suffix.casefold()
    if ending not in _MODULES:
        raise HandoverError(
            say(
                "{path} was not written: its ending must say what it is to be, one of {known}.",
                path=path,
                known=", ".join(ENDINGS),
            )
        )
    made: Make = import_module(f"linework.handover.formats.{_MODULES[ending]}").make
    return made


def _path(path: Path, key: str, count: int) -> Path:
    """The name itself, or X-1.svg, X-2.svg where there are several."""
    return path if count == 1 else path.with_name(f"{path.stem}-{key}{path.suffix}")
