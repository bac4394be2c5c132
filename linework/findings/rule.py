"""A rule: what it looks for, where that is written, and whose finding explains its own."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass

from linework.findings.model import Outcome
from linework.findings.view import View


@dataclass(frozen=True)
class Rule:
    """One rule. ``clauses`` by family; ``causes``: ids of rules whose finding explains this one.

    ``whole``: it looks at all states together and waits for the full analysis. ``as_given``: it
    asks what is known and what is not, of the design as given and not in each case.
    """

    id: str
    title: str
    check: Callable[[View], Iterator[Outcome]]
    clauses: Mapping[str, str]
    causes: tuple[str, ...] = ()
    whole: bool = False
    always_printed: bool = False
    as_given: bool = False
