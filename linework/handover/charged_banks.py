"""The banks of a design: batteries in series and beside each other, with their voltages."""

from __future__ import annotations

from dataclasses import dataclass

from linework.circuit import settle
from linework.design import Design
from linework.design.names import natural
from linework.handover.content import Content
from linework.handover.locking import circuits_of
from linework.study.memory import Case
from linework.study.once import once
from linework.study.situation import Situation
from linework.study.ways.banks import strings


@dataclass(frozen=True)
class Bank:
    """Batteries that are wired together for good: nominal and highest charging voltage in volt."""

    owners: tuple[str, ...]
    volts: float
    charged_v: float

    def fed_by(self, content: Content, part: str) -> bool:
        """Whether a source reaches any of its posts in some state of rest."""
        own = {*self.owners}
        return any(
            part in by for r in content.reports for (at, _), by in r.live.items() if at in own
        )

    def reaches(self, content: Content, part: str) -> bool:
        """Whether it makes any terminal of a part live in some state of rest."""
        own = {*self.owners}
        return any(
            own & {*by} for r in content.reports for (at, _), by in r.live.items() if at == part
        )


def banks(content: Content) -> list[Bank]:
    """By designation of the first battery of each, as they stand at rest."""
    return _banks(content.design, content.design.revision)


@once
def _banks(design: Design, _: int) -> list[Bank]:
    circuit = circuits_of(design, design.revision)[0]
    situation = Situation(circuit, settle(circuit, Case(circuit).search.choices.example({})))
    found: dict[tuple[int, int], Bank] = {}
    for string in strings(situation):
        cells = [circuit.sources[i] for i in string.cells]
        ends = (string.top, string.bottom)
        beside = found[ends].owners if ends in found else ()
        owners = sorted(
            {*beside, *(cell.owner for cell in cells)},
            key=lambda part: natural(design.part(part).designation),
        )
        volts, most = (
            sum(v) for v in zip(*((c.data.volts, c.data.most_v) for c in cells), strict=True)
        )
        found[ends] = Bank(tuple(owners), volts, most)
    return sorted(found.values(), key=lambda bank: natural(design.part(bank.owners[0]).designation))
