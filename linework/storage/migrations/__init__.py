"""From an older format of the file to the one of this version, a step at a time.

A step is a pure function on plain dicts from format n to n + 1, in a module of its own named
after it, and registered in ``STEPS`` under n. It may rely on the old format and must not change
what it is given. ``tests/storage/files`` keeps a file of each format for good.
"""

from __future__ import annotations

import copy
from collections.abc import Callable, Mapping

from linework.storage.errors import StorageError
from linework.words import say

FORMAT = 1
"""The format that this version writes."""

Step = Callable[[dict[str, object]], dict[str, object]]

STEPS: Mapping[int, Step] = {}
"""The step from each older format to the next."""


def migrate(
    document: dict[str, object],
    name: str,
    steps: Mapping[int, Step] = STEPS,
    current: int = FORMAT,
) -> dict[str, object]:
    """The document in the ``current`` format.

    StorageError where it names no format, a newer one, or cannot be carried over.
    """
    number = _format_of(document, name, current)
    for old in range(number, current):
        try:
            document = {**steps[old](copy.deepcopy(document)), "format": old + 1}
        except (LookupError, TypeError, ValueError, AttributeError) as error:
            raise StorageError(
                say(
                    "{name} is of format {old} and cannot be carried over to format {new}: "
                    "{reason}. The file was left as it is.",
                    name=name,
                    old=old,
                    new=old + 1,
                    reason=f"{type(error).__name__} {error}"[:200],
                )
            ) from error
    return document


def _format_of(document: dict[str, object], name: str, current: int) -> int:
    number = document.get("format")
    if not isinstance(number, int) or isinstance(number, bool) or number < 1:
        raise StorageError(
            say(
                "{name} is not a design of this program: it does not begin with its format, a "
                "whole number.",
                name=name,
            )
        )
    if number > current:
        raise StorageError(
            say(
                "{name} is of format {number}, written by a newer version; this one reads up to "
                "{known}. The file was left as it is: install the newer version.",
                name=name,
                number=str(number)[:20],
                known=current,
            )
        )
    return number
