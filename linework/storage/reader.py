"""From plain values to a design: everything that is wrong or unknown is collected with its path."""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import partial

from linework.design import Design, Element, Part, Run, Settings, changed
from linework.design.integrity import Flaw, flaws
from linework.quantity.errors import quoted
from linework.storage.elements import READERS, Read, read_settings
from linework.storage.errors import Fault, FileFaults
from linework.storage.fields import A_LIST, AN_OBJECT, Fields, Report, shortened
from linework.storage.kept import ELSEWHERE, kept


@dataclass(frozen=True)
class Loaded:
    """A design read from a file, and what the file holds that is not known or does not fit."""

    design: Design
    warnings: tuple[Fault, ...] = ()


def read_document(document: dict[str, object], name: str, strict: bool = True) -> Loaded:
    """The design of a document in the format of this version.

    FileFaults with everything that is wrong. Unless ``strict``, what does not fit together but
    can be held becomes a warning.
    """
    reading = _Reading(document)
    reading.read()
    refused, odd = reading.judged()
    if not strict and not any(breaks for _, breaks in refused):
        odd, refused = [*odd, *(fault for fault, _ in refused)], []
    if refused:
        openable = not any(breaks for _, breaks in refused)
        raise FileFaults(name, tuple(fault for fault, _ in refused), openable)
    return Loaded(reading.design(), tuple(odd))


class _Reading:
    """Elements in the order of the file, each with its path and what it is."""

    def __init__(self, document: dict[str, object]) -> None:
        self.report = Report()
        self.top = Fields(document, "", self.report)
        self.elements: list[Element] = []
        self.paths: list[Fields] = []
        self.unclear: set[int] = set()
        self.elsewhere: dict[str, object] = {}

    def read(self) -> None:
        """Take every section."""
        self.top.whole("format", 1)
        settings = Fields(self.top.inner("settings"), "settings", self.report)
        self._add(settings, read_settings)
        for section, wanted in (("settings", AN_OBJECT), ("parts", A_LIST)):
            if section not in self.top.raw:
                self.top.lacks(section, wanted)
        for section, read in READERS.items():
            self.top.listed(section, partial(self._element, read))
        unknown = self.top.left_over()
        if unknown:
            self.elsewhere[""] = unknown

    def _element(self, read: Read, at: str, value: object) -> None:
        if not isinstance(value, dict):
            self.report.wrong(at, AN_OBJECT, value)
            return
        title = value.get("designation")
        path = f"{at} {quoted(title)}" if isinstance(title, str) and title.strip() else at
        self._add(Fields(value, path, self.report), read)

    def _add(self, one: Fields, read: Read) -> None:
        before = len(self.report.faults)
        element = read(one)
        if not isinstance(element, Part | Run | Settings):
            unknown = one.left_over()
            if unknown:
                self.elsewhere[element.id] = unknown
        if len(self.report.faults) > before:
            self.unclear.add(len(self.elements))
        self.elements.append(element)
        self.paths.append(one)

    def judged(self) -> tuple[list[tuple[Fault, bool]], list[Fault]]:
        """Faults, each with whether no design could hold it; warnings."""
        refused = [(fault, True) for fault in self.report.faults]
        found = flaws(self.elements, self.unclear)
        refused += [(self._fault(flaw), flaw.breaks) for flaw in found]
        return refused, self.report.warnings

    def _fault(self, flaw: Flaw) -> Fault:
        return Fault(self.paths[flaw.position].at(flaw.field), shortened(flaw.message))

    def design(self) -> Design:
        """The design, once nothing breaks it."""
        settings, *rest = self.elements
        assert isinstance(settings, Settings)
        if self.elsewhere:
            extra = tuple(sorted((*settings.extra, *kept({ELSEWHERE: self.elsewhere}))))
            settings = replace(settings, extra=extra)
        design = Design(settings)
        design.apply(changed("", [(None, element) for element in rest]))
        design.revision = 0
        return design
