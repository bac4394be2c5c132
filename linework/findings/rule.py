"""A rule: what it looks for, where that is written, and whose finding explains its own."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass

from linework.findings.model import Outcome
from linework.findings.view import View


@dataclass(frozen=True)
class Rule:
    """One rule. ``clauses`` by family; ``causes``: ids of rules whose finding explains this one
    where they share a place and it is as grave. ``hangs_on``: ids of rules whose finding explains
    it, however grave it is, where it says that this hangs on it (:class:`Hit`, ``explains``).

    ``timeless``: what it says is drawn from all states, so that a cause on which it hangs explains
    it in whatever state that holds. ``whole``: it looks at all states together and waits for
    the full analysis. ``as_given``: it asks what is known and what is not, of the design as given
    and not in each case.
    """

    id: str
    title: str
    check: Callable[[View], Iterator[Outcome]]
    clauses: Mapping[str, str]
    causes: tuple[str, ...] = ()
    hangs_on: tuple[str, ...] = ()
    whole: bool = False
    timeless: bool = False
    always_printed: bool = False
    as_given: bool = False
