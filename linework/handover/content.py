"""What every section of the set is made from: one design, its analysis, a date."""

from __future__ import annotations

import datetime
from collections.abc import Callable, Hashable, Iterator, Mapping
from dataclasses import dataclass, field
from functools import cached_property
from typing import Any, TypeVar

from linework.analysis import Analysis
from linework.circuit import expand
from linework.circuit.model import Circuit
from linework.design import Design, Part, Run
from linework.design.names import run_name
from linework.findings.model import Finding
from linework.sheet.frame import UPRIGHT, Frame, frame_of
from linework.sheet.targets import part_targets
from linework.study.memory import Memory
from linework.study.report import StateReport
from linework.study.wires.ratings import rules_of
from linework.words import say

T = TypeVar("T")

PLACE = "place-"
"""So begin the anchors of places of which other sheets name the page."""


@dataclass(frozen=True)
class Content:
    """The design and its analysis as the paper shows them."""

    design: Design
    analysis: Analysis
    date: datetime.date
    paper: str = "A3"
    pages: Mapping[str, int] = field(default_factory=dict)
    """The first page of each sheet that is in the set, by its key, and the page of each place that
    others name (``PLACE``), by its anchor; empty while they are counted."""

    titles: Mapping[str, str] = field(default_factory=dict)
    """The title of each sheet, by its key."""
    annex: frozenset[str] = frozenset()
    """The keys of those behind the set that is signed."""
    memory: Memory | None = field(default=None, compare=False, repr=False)
    """That of the analysis, where it was made for the set."""
    _kept: dict[Hashable, Any] = field(default_factory=dict, compare=False, repr=False)
    """What was worked out, kept while only pages and titles become others."""

    def once(self, what: Hashable, make: Callable[[], T]) -> T:
        """What is made for a name, once for all passes; it must not hang on pages or titles."""
        if what not in self._kept:
            self._kept[what] = make()
        found: T = self._kept[what]
        return found

    @property
    def circuit(self) -> Circuit:
        """All of the design expanded, whatever the positions."""
        return self.once("circuit", lambda: expand(self.design))

    @property
    def drawing_paper(self) -> str:
        """The paper for which the diagram is laid out, upright or not.

        That of the set, but where something alone is larger than that: then the sheet as it was
        drawn is made smaller, frame and writing with it.
        """
        return frame_of(self.design.settings.sheet).name

    @property
    def drawing_frame(self) -> Frame:
        """The paper on which the diagram comes: that of the set, upright where it stands so."""
        drawn = frame_of(self.design.settings.sheet)
        return frame_of(self.paper, drawn.name.endswith(UPRIGHT))

    @property
    def family(self) -> str:
        """NA or INT."""
        return self.design.settings.family

    def say(self, message: str, **values: object) -> str:
        """A sentence in the words of the family."""
        return say(message, family=self.family, **values)

    def name(self, element_id: str) -> str:
        """Designation of a part or run."""
        element = self.design.get(element_id)
        if isinstance(element, Part):
            return element.designation
        if isinstance(element, Run):
            return run_name(self.design, element_id)
        return element_id

    def sheet_number(self, key: str) -> str:
        """The number of a sheet, as references and the title block say it."""
        return str(self.pages.get(key, "…"))

    def number_at(self, place: str, key: str) -> str:
        """The number of the sheet on which a place of this anchor stands, as of a table on a later
        page of the sheet ``key``; before that is known, of the first."""
        return str(self.pages.get(place, self.pages.get(key, "…")))

    def link_to(self, part_id: str) -> str:
        """The name of the place on the sheet where a part is drawn."""
        return self._places[part_id]

    @cached_property
    def _places(self) -> dict[str, str]:
        return part_targets(self.design)

    def full_name(self, part_id: str) -> str:
        """Designation and title of a part."""
        part = self.design.part(part_id)
        return f"{part.designation} {part.title}".strip()

    @cached_property
    def edition(self) -> str:
        """The rules that the set was judged by."""
        return rules_of(self.design).standards(self.design.settings.place)

    @cached_property
    def state_numbers(self) -> dict[str, int]:
        """State key -> its number in the state table."""
        return self.analysis.numbers()

    def states_count(self, finding: Finding) -> int:
        """In how many of the states of the annex a finding holds."""
        standing = finding.standing
        here = (r for r in self.analysis.reports if standing is None or standing.holds(r.positions))
        return len({r.key for r in here})

    @cached_property
    def reports(self) -> list[StateReport]:
        """The reports of states of rest."""
        return [r for r in self.analysis.reports if not r.passing]

    @cached_property
    def states_at_rest(self) -> frozenset[str]:
        """The keys of the states shown in which nothing is changing over."""
        return frozenset(report.key for report in self.reports)

    @cached_property
    def has_outlets(self) -> bool:
        """Whether there is an outlet at which a tester shows something in some state."""
        return any(report.readings for report in self.reports)

    @property
    def told(self) -> list[Finding]:
        """The findings in their order, but for values assumed, which have a sheet of their own."""
        return [finding for finding in self.analysis.findings if not finding.of_inputs]

    @property
    def with_consequences(self) -> list[Finding]:
        """These, each followed by what follows from it."""
        return [
            each
            for finding in self.told
            for each in (finding, *(below for below, _ in self.consequences(finding)))
        ]

    def consequences(self, finding: Finding, depth: int = 1) -> Iterator[tuple[Finding, int]]:
        """What follows from a finding, each with its depth under it."""
        for below in finding.consequences:
            yield below, depth
            yield from self.consequences(below, depth + 1)
