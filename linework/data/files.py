"""Where the resources lie, and how their texts and tables are read."""

from __future__ import annotations

import csv
import difflib
import io
from functools import cache
from pathlib import Path, PurePosixPath

_PACKAGE = Path(__file__).resolve().parents[1]
_PLACES = (_PACKAGE / "_resources", _PACKAGE.parent / "resources")


class ResourceError(Exception):
    """A file that belongs to the program is missing or damaged; the text says what to do."""


@cache
def _root() -> Path:
    for place in _PLACES:
        if place.is_dir():
            return place
    looked = " and ".join(str(place) for place in _PLACES)
    raise ResourceError(
        f"The program's own files are missing: looked for the folders {looked}. "
        "Install Linework again, or run it from a complete checkout."
    )


def _below_root(name: str) -> Path:
    parts = PurePosixPath(name)
    if parts.is_absolute() or ".." in parts.parts or "\\" in name:
        raise ResourceError(
            f"{name!r} is no name of a program file. "
            "Give the path below resources/, with forward slashes and without '..'."
        )
    return _root() / parts


def exists(name: str) -> bool:
    """Whether there is a file of that name, for what may be absent."""
    return _below_root(name).is_file()


def path(name: str) -> Path:
    """The file of that name. ResourceError if there is none."""
    found = _below_root(name)
    if found.is_file():
        return found
    raise ResourceError(f"The program file {name} is missing in {found.parent}. {_cure(found)}")


def _cure(missing: Path) -> str:
    folder = missing.parent
    beside = [item.name for item in folder.iterdir()] if folder.is_dir() else []
    near = difflib.get_close_matches(missing.name, beside, n=1)
    if near:
        return f"Did you mean {near[0]}?"
    return "Install Linework again, or restore the file in the checkout."


def names(folder: str) -> list[str]:
    """Names of the files straight in a folder, sorted, each ready for ``path``.

    ResourceError if there is no such folder. Hidden files do not count.
    """
    found = _below_root(folder)
    if not found.is_dir():
        raise ResourceError(
            f"The program folder {folder} is missing in {found.parent}. "
            "Install Linework again, or restore the folder in the checkout."
        )
    return sorted(
        found.joinpath(item.name).relative_to(_root()).as_posix()
        for item in found.iterdir()
        if item.is_file() and not item.name.startswith(".")
    )


def read_text(name: str) -> str:
    """The text of a file. ResourceError if it is missing or is not UTF-8."""
    file = path(name)
    try:
        return file.read_text(encoding="utf-8-sig")
    except UnicodeDecodeError as error:
        raise ResourceError(
            f"The program file {name} in {file.parent} is not UTF-8 text: byte {error.start} "
            "cannot be read. Restore the file."
        ) from error


def read_csv(name: str) -> list[dict[str, str]]:
    """The rows of a table, each with a text under every column's heading; blank lines are left out.

    ResourceError if the file is missing, has no heading row, names a column twice, or has a row
    with more or fewer fields than headings: a shifted row must never pass for a value.
    """
    rows = csv.reader(io.StringIO(read_text(name), newline=""), strict=True)
    try:
        heading = next(rows, [])
        if not heading or len(set(heading)) != len(heading) or "" in heading:
            raise ResourceError(
                f"The table {name} needs a first line that names every column once; "
                f"it reads {','.join(heading)!r}."
            )
        return [_record(name, rows.line_num, heading, row) for row in rows if row]
    except csv.Error as error:
        raise ResourceError(f"The table {name}, line {rows.line_num}: {error}.") from error


def _record(name: str, line: int, heading: list[str], row: list[str]) -> dict[str, str]:
    if len(row) != len(heading):
        raise ResourceError(
            f"The table {name}, line {line}, has {len(row)} fields under {len(heading)} headings. "
            "Put a text that holds a comma in double quotes."
        )
    return dict(zip(heading, row, strict=True))
