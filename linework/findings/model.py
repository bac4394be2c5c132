"""What a rule says, and what a person reads of it."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import KW_ONLY, dataclass, field, replace
from enum import IntEnum

from linework.circuit.arrangements import Arrangements
from linework.design import Accepted, Change, Design
from linework.words import N_, say

_TOLD = {"note": N_("note"), "warning": N_("warning"), "danger": N_("danger")}


class Level(IntEnum):
    """How bad: danger can hurt or burn, warning does not comply or will not work, note is worth
    knowing."""

    NOTE = 1
    WARNING = 2
    DANGER = 3

    @property
    def word(self) -> str:
        """The word in files."""
        return self.name.lower()

    @property
    def told(self) -> str:
        """The word for a reader."""
        return say(_TOLD[self.word])


@dataclass(frozen=True)
class Evidence:
    """One typed number. ``quantity`` is a kind of :mod:`linework.quantity`, or "text".

    ``value`` None with ``quantity`` "text": ``note`` says it in words.
    """

    name: str
    value: float | None
    quantity: str
    note: str = ""


@dataclass(frozen=True)
class Mend:
    """An edit that a rule proposes; it is offered only after it was proven on a copy.

    ``otherwise``: what is tried where this one does not prove itself.
    """

    title: str
    edit: Callable[[Design], Change]
    otherwise: Mend | None = None

    def ways(self) -> Iterator[Mend]:
        """This one, and what is tried after it."""
        here: Mend | None = self
        while here is not None:
            yield here
            here = here.otherwise

    def then(self, other: Mend | None) -> Mend:
        """The same with another way after all that it has, unless it has that already."""
        if other is None or other.title == self.title:
            return self
        rest = other if self.otherwise is None else self.otherwise.then(other)
        return replace(self, otherwise=rest)


@dataclass(frozen=True)
class Hit:
    """A rule's word on one circuit (``state`` "" for what holds whatever the state).

    What a rule sees in a state it says with :meth:`Look.hit`, which fills the state; a hit made
    without is of the design alone. The judge knows in which case it was said. ``message`` is a
    literal text with ``values``; hits of one rule, ``subjects`` and message in several states
    become one finding. ``touches``: ids by which a consequence finds its cause (sources, parts,
    runs), besides the subjects. ``explains``: ids of all that hangs on what is wrong here; what
    rules that name this one among their causes say of these follows from it, however grave.
    ``clause``: where the rule's own clause is not the one that decided.
    """

    level: Level
    subjects: tuple[str, ...]
    message: str
    values: Mapping[str, object] = field(default_factory=dict)
    evidence: tuple[Evidence, ...] = ()
    _: KW_ONLY
    state: str = ""
    touches: frozenset[str] = frozenset()
    explains: frozenset[str] = frozenset()
    mend: Mend | None = None
    clause: str = ""


@dataclass(frozen=True)
class NotChecked:
    """What a rule could not judge, and why; it blocks "sound"."""

    reason: str
    values: Mapping[str, object] = field(default_factory=dict)
    subjects: tuple[str, ...] = ()
    state: str = ""


@dataclass(frozen=True)
class Clear:
    """Something that a rule found right: "sound here, and why".

    ``quiet``: told on the card of its part and on paper, not in the margin, where only what
    people doubt stands.
    """

    subjects: tuple[str, ...]
    message: str
    values: Mapping[str, object] = field(default_factory=dict)
    clause: str = ""
    quiet: bool = False


Outcome = Hit | NotChecked | Clear


_UNWRITTEN = {"practice": N_("common practice, no source"), "maker": N_("the maker's manual")}
"""Clauses that no standard has."""


@dataclass(frozen=True)
class Finding:
    """One finding as everybody shows it. ``where`` are designations, ``subjects`` ids.

    ``states``: the arrangements of all states in which it holds, in words.
    """

    rule: str
    title: str
    level: Level
    subjects: tuple[str, ...]
    where: tuple[str, ...]
    states: tuple[str, ...]
    cases: tuple[str, ...]
    message: str
    evidence: tuple[Evidence, ...]
    clause: str
    edition: str
    fingerprint: str
    touches: frozenset[str] = frozenset()
    consequences: tuple[Finding, ...] = ()
    mend: Mend | None = None
    accepted: Accepted | None = None
    number: int = 0
    standing: Arrangements | None = None
    """The states in which it holds; None: whatever the state."""
    spoken: tuple[str, ...] = ()
    """``states`` as a person would say them."""
    of_inputs: bool = False
    """Whether it is about values that nobody has given, and not about the design."""

    @property
    def reference(self) -> str:
        """Where it is written: clause and edition, another standard, or that none has it."""
        if self.clause in _UNWRITTEN:
            return say(_UNWRITTEN[self.clause])
        return f"{self.edition} {self.clause}".strip() if self.clause else ""

    @property
    def open(self) -> bool:
        """Whether nobody has accepted it."""
        return self.accepted is None
