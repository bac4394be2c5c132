"""Marks a test as the check of a published worked example."""

from __future__ import annotations

import importlib
import pkgutil
from collections.abc import Callable
from dataclasses import dataclass
from typing import TypeVar

import tests.examples as home

_Test = TypeVar("_Test", bound=Callable[..., None])


@dataclass(frozen=True)
class Example:
    """Number in the collection, title of the source and where it is."""

    number: str
    source: str
    address: str


COMPANIONS = "github.com/FOSSEE/Python-Textbook-Companions"
"""Where the notebooks are that print the numbers of the textbooks."""


def published(number: str, source: str, address: str) -> Callable[[_Test], _Test]:
    """The test holds the program against this example."""

    def mark(test: _Test) -> _Test:
        test.example = Example(number, source, address)  # type: ignore[attr-defined]
        return test

    return mark


def examples() -> dict[str, list[str]]:
    """Number of each example -> the tests that hold the program against it."""
    found: dict[str, list[str]] = {}
    for name in sorted(m.name for m in pkgutil.iter_modules(home.__path__)):
        if name.startswith("test_"):
            module = importlib.import_module(f"{home.__name__}.{name}")
            for key, value in vars(module).items():
                mark = getattr(value, "example", None)
                if isinstance(mark, Example) and key.startswith("test_"):
                    found.setdefault(mark.number, []).append(f"{name}::{key}")
    return found
