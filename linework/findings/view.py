"""What a rule looks at: the design, and the studies of every live circuit of every case."""

from __future__ import annotations

from collections.abc import Callable, Collection, Iterable, Iterator, Mapping
from dataclasses import dataclass
from functools import cached_property
from typing import TypeVar

from linework.circuit.choices import Choices
from linework.circuit.lasting import Lasting
from linework.circuit.model import Circuit
from linework.codes.citing import Where, cited
from linework.design import Design, Part, PlaceKind, Run
from linework.design.names import natural, run_name
from linework.findings.assumptions import Assumed, assumed_values
from linework.findings.deciding import deciding_values
from linework.findings.model import Evidence, Hit, Level, Mend
from linework.findings.standing import Standing
from linework.kinds import Kind, Values
from linework.study.stands import is_loose, place_of, place_of_run, places
from linework.study.studies import Studies
from linework.study.wires.ampacities import Ampacities
from linework.words import say

_T = TypeVar("_T")


@dataclass(frozen=True)
class Look:
    """One live circuit of one case, with its names and its studies.

    ``state``: the arrangements in which it stands, in words; "" where it always does.
    ``settled``: what is not known as it is in that case.
    """

    state: str
    title: str
    settled: Mapping[tuple[str, str], str]
    studies: Studies

    @property
    def passing(self) -> bool:
        """Whether a follower is caught between two positions; only meetings, double bonds,
        live pins and nuisance trips are judged then."""
        return self.studies.state.passing is not None

    @property
    def meeting(self) -> bool:
        """Whether sources meet out of step: that is told, but what flows then is anybody's guess
        and hides nothing, so that rules of heat and load leave it out."""
        return bool(self.studies.energised.meetings)

    def hit(
        self,
        level: Level,
        subjects: tuple[str, ...],
        message: str,
        values: Mapping[str, object],
        evidence: tuple[Evidence, ...] = (),
        *,
        touches: frozenset[str] = frozenset(),
        explains: frozenset[str] = frozenset(),
        mend: Mend | None = None,
        clause: str = "",
    ) -> Hit:
        """A hit in this circuit; see :class:`Hit` for the rest."""
        return Hit(
            level,
            subjects,
            message,
            values,
            evidence,
            state=self.state,
            touches=touches,
            explains=explains,
            mend=mend,
            clause=clause,
        )


class View:
    """The whole of what is known, for all rules.

    ``circuit``: of the first case, for what does not depend on states. ``standing``: when the
    circuits of some words stand. ``restless``: the followers that find no rest, each with a
    state in which it finds none. ``cut``: parts not all of whose circuits were looked at.
    ``pocketed``: parts with loads alone that were not taken in all combinations.
    ``partial``: only the shown state is in. ``in_cases``: where something is not known, what each
    case shows, its design read so; ``case_words`` tells some of these cases, by their numbers.
    """

    def __init__(
        self,
        design: Design,
        looks: tuple[Look, ...],
        circuit: Circuit | None = None,
        standing: Standing | None = None,
        *,
        restless: tuple[tuple[tuple[str, ...], str], ...] = (),
        cut: tuple[str, ...] = (),
        pocketed: tuple[str, ...] = (),
        partial: bool = False,
        all_cases: bool = True,
        in_cases: tuple[View, ...] = (),
        case_words: Callable[[Collection[int]], tuple[str, ...]] = lambda numbers: (),
    ) -> None:
        self.design, self.looks, self.circuit = design, looks, circuit
        self.standing, self.restless = standing or Standing({}, Choices(())), restless
        self.partial, self.cut, self.all_cases = partial, cut, all_cases
        self.pocketed = pocketed
        self.in_cases, self.case_words = in_cases or (self,), case_words
        self.ampacities = Ampacities(design)

    @cached_property
    def assumed(self) -> list[Assumed]:
        """The defaults in use, quiet figures from memory among them where a verdict rests on
        them."""
        states = (look.studies for look in self.settled_looks)
        return [*assumed_values(self.design), *deciding_values(self.design, states)]

    @property
    def family(self) -> str:
        """NA or INT."""
        return self.design.settings.family

    def clause(self, by_family: Mapping[str, str]) -> str:
        """The one of some clauses that the family of the design goes by; empty for the rule's."""
        return by_family.get(self.family, "")

    def cited(self, rule: str, clauses: str, subjects: tuple[str, ...]) -> str:
        """Those of a line of clauses that hold where the subjects stand, for what they are."""
        parts = [self.kind(s) for s in subjects if self.part(s) is not None]
        device = "fuse" if any(kind.melts for kind in parts) else "breaker" if parts else ""
        where = Where(self._stands(subjects).value, self._solar, device)
        return cited(self.family, rule, clauses, where)

    def place_of(self, part: str) -> PlaceKind:
        """Where a part stands."""
        return place_of(self.design, part)

    def lies_loose(self, part: str) -> bool:
        """Whether it lies between what stands somewhere: a cord, a plug, an adapter."""
        return is_loose(self.design, part)

    def place_of_run(self, run: Run) -> PlaceKind:
        """Where a run lies; of one between two places, the one that moves."""
        return place_of_run(self.design, run)

    @property
    def places(self) -> frozenset[PlaceKind]:
        """Every place in which something of the design stands."""
        return places(self.design)

    def _stands(self, subjects: tuple[str, ...]) -> PlaceKind:
        """Where the first of some subjects stands; of none the place of the design."""
        for subject in subjects:
            run = self.run(subject)
            if run is not None:
                return self.place_of_run(run)
            if self.part(subject) is not None:
                return self.place_of(subject)
        return self.place

    @cached_property
    def _solar(self) -> bool:
        return bool(self.parts_that(lambda kind: kind.source.solar))

    @property
    def place(self) -> PlaceKind:
        """What the system stands in."""
        return self.design.settings.kind_of_place

    @property
    def settled_looks(self) -> Iterator[Look]:
        """The looks at circuits of states of rest."""
        return (look for look in self.looks if not look.passing)

    @property
    def orderly_looks(self) -> Iterator[Look]:
        """Those in which no sources meet."""
        return (look for look in self.settled_looks if not look.meeting)

    @property
    def complete(self) -> bool:
        """Whether every circuit of every case was looked at."""
        return self.all_cases and not self.cut

    @cached_property
    def lasting(self) -> Lasting | None:
        """What of that circuit is joined whatever the positions."""
        return None if self.circuit is None else Lasting(self.circuit)

    def name(self, element_id: str) -> str:
        """Designation of a part or run, as a person reads it."""
        element = self.design.get(element_id)
        if isinstance(element, Part):
            return element.designation
        if isinstance(element, Run):
            return run_name(self.design, element_id)
        return element_id

    def order(self, element_id: str) -> tuple[tuple[str, int], ...]:
        """The key by which elements are listed by their names."""
        return natural(self.name(element_id))

    def names(self, element_ids: Iterable[str]) -> str:
        """Designations in a row, in their order."""
        *some, last = sorted(map(self.name, element_ids), key=natural)
        return say("{some} and {last}", some=", ".join(some), last=last) if some else last

    def part(self, part_id: str) -> Part | None:
        """The part with this id, None for runs and seats."""
        element = self.design.get(part_id)
        return element if isinstance(element, Part) else None

    def parts_that(self, fact: Callable[[Kind], bool]) -> list[str]:
        """The ids of the parts of whose kind this is true, by designation."""
        parts = sorted(self.design.parts, key=lambda part: natural(part.designation))
        return [part.id for part in parts if fact(self.design.kind(part))]

    def kind(self, part_id: str) -> Kind:
        """The kind of a part."""
        return self.design.kind(self.design.part(part_id))

    def values(self, part_id: str) -> Values:
        """The ratings of a part, unknowns at their first possibility."""
        return self.design.values(self.design.part(part_id))

    def run(self, run_id: str) -> Run | None:
        """The run with this id, None for anything else."""
        element = self.design.get(run_id)
        return element if isinstance(element, Run) else None

    def run_values(self, run_id: str) -> Values:
        """The ratings of a run."""
        run = self.run(run_id)
        if run is None:
            raise KeyError(run_id)
        return self.design.run_values(run)
