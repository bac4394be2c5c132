"""One line of the test sheet, and what its lines are written with."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass
from enum import IntEnum
from hashlib import blake2b

from linework.codes.citing import PRACTICE, Where, cited
from linework.design import Part
from linework.design.names import natural
from linework.handover.content import Content
from linework.study.stands import place_of


class Block(IntEnum):
    """The order in which it is safe."""

    DEAD = 1
    INSULATION = 2
    LIVE = 3


Bounds = tuple[float | None, float | None]


@dataclass(frozen=True)
class Measurement:
    """One line of the test sheet.

    ``expected`` and ``tolerance`` in words; ``bounds`` as numbers of ``unit``: lowest and highest
    of each value that is read (None: no bound). ``key``: of what is read, "ground:W6". ``basis``:
    the clauses that ask for it there; of what is practice the tolerance says so.
    """

    key: str
    block: Block
    what: str
    detail: str
    expected: str
    tolerance: str = ""
    unit: str = ""
    bounds: tuple[Bounds, ...] = ()
    basis: str = ""

    @property
    def aside(self) -> str:
        """What stands beside what is measured: how, and what asks for it."""
        return " · ".join(filter(None, (self.detail, self.basis)))

    @property
    def field(self) -> str:
        """What names its fields in a form: letters and figures only, whatever a file calls a part,
        and the same as long as the key is."""
        return blake2b(self.key.encode(), digest_size=8).hexdigest()


def basis(content: Content, clauses: Mapping[str, str], part: Part | None = None) -> str:
    """Those of some clauses, by family, that hold in the place of the design; "" for practice."""
    design = content.design
    solar = any(design.kind(each).source.solar for each in design.parts)
    place = design.settings.place if part is None else _place(content, part)
    found = cited(content.family, "", clauses.get(content.family, ""), Where(place, solar))
    return "" if found == PRACTICE else found


def _place(content: Content, part: Part) -> str:
    return place_of(content.design, part.id).value


def chosen(content: Content, fact: Callable[[Part], bool]) -> list[Part]:
    """The parts of which something is true, by designation."""
    found = (part for part in content.design.parts if fact(part))
    return sorted(found, key=lambda part: natural(part.designation))


def names(content: Content, parts: Iterable[str]) -> str:
    """Designations in a row, each once, in their order."""
    return ", ".join(sorted({content.name(part) for part in parts}, key=natural))
