"""In which positions which link counts, and what a tester shows then."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from linework.circuit.model import Condition
from linework.design.names import natural
from linework.findings.explain import picture_word
from linework.handover.content import Content
from linework.handover.grounding.signs import numbers_text
from linework.handover.positions import Position, link_words, positions
from linework.study.report import StateReport


@dataclass(frozen=True)
class Counting:
    """Positions in which the same links count for the same sources. ``links``: in words, a line
    for each live source."""

    number: int
    positions: tuple[Position, ...]
    links: tuple[str, ...]

    @property
    def titles(self) -> str:
        """What the operator finds, one after the other."""
        return "; ".join(dict.fromkeys(position.title for position in self.positions))

    @property
    def reports(self) -> list[StateReport]:
        """Of all its positions, in every case."""
        return [report for position in self.positions for report in position.reports]


def countings(content: Content) -> list[Counting]:
    """Those in which alternating current is live, in the order of their positions."""
    found: dict[tuple[str, ...], list[Position]] = {}
    for position in positions(content):
        links = tuple(link_words(content, position))
        if links:
            found.setdefault(links, []).append(position)
    return [Counting(n, tuple(of), links) for n, (links, of) in enumerate(found.items(), start=1)]


def sign_of(told: Sequence[Counting], owner: str, when: Condition = ()) -> str:
    """The numbers of those in which the link of a part, or a run that is one, counts: "1–3, 5";
    with a question mark where it does so in some cases of what is not known only."""
    sure, perhaps = [], []
    for each in told:
        for position in each.positions:
            counts = [_counts(report, owner, when) for report in position.reports]
            if all(counts):
                sure.append(each.number)
            elif any(counts):
                perhaps.append(each.number)
    rest = (f"{number}?" for number in sorted({*perhaps} - {*sure}))
    return ", ".join(filter(None, (numbers_text({*sure}), *rest)))


def _counts(report: StateReport, owner: str, when: Condition) -> bool:
    closed = all(report.positions.get(key) in among for key, among in when)
    return closed and any(bond.is_ac and owner in bond.places for bond in report.bonds)


def shown_by_tester(content: Content, reports: Iterable[StateReport]) -> list[str]:
    """ "correct: XD1, XD4": the outlets that are live by what a tester shows at them."""
    found: dict[str, set[str]] = {}
    for report in reports:
        for reading in report.readings:
            if reading.picture != "dead":
                word = picture_word(reading, content.family)
                found.setdefault(word, set()).add(content.name(reading.owner))
    return [
        content.say("{shown}: {outlets}", shown=word, outlets=", ".join(sorted(names, key=natural)))
        for word, names in found.items()
    ]
