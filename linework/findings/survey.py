"""Every live circuit of every case, each once, and states in which all of them are shown."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator
from dataclasses import dataclass, field

from linework.circuit import Settled, State, settle
from linework.circuit.arrangements import Arrangements, arranged, merged
from linework.circuit.choices import Arrangement, Choices
from linework.circuit.content import Mark
from linework.circuit.growing import Grown
from linework.circuit.incircuit import Extent
from linework.circuit.model import SelectorAt, SelectorKey
from linework.circuit.search import parted
from linework.circuit.states import caught as caught_in
from linework.design import Design
from linework.design.cases import case_text
from linework.findings.standing import Standing
from linework.findings.view import Look, View
from linework.study.memory import Case, Caught, Memory
from linework.study.report import StateReport, arrangement_words, sources_title
from linework.study.reporting import failed, report
from linework.study.situation import Situation
from linework.study.spoken import spoken_arrangement
from linework.study.studies import Studies


@dataclass
class _Entry:
    """One live circuit, whatever the cases in which it stands."""

    case: Case
    settled: Settled
    grown: Grown
    caught: Caught | None
    content: Mark
    studies: Studies
    arrangements: list[Arrangement] = field(default_factory=list)
    cases: list[Settled] = field(default_factory=list)


@dataclass
class _Shown:
    """A state with its live circuits."""

    case: Case
    state: State
    circuits: tuple[_Entry, ...]
    cases: list[Settled] = field(default_factory=list)


NOTHING_LIVE = Extent(frozenset(), frozenset(), frozenset(), frozenset(), frozenset())


class Survey:
    """Collects the live circuits of a design, case by case."""

    def __init__(
        self, design: Design, unknowns: dict[SelectorKey, tuple[str, ...]], memory: Memory
    ) -> None:
        self.design, self.memory = design, memory
        self.combinations = 0
        self.cut: set[str] = set()
        """Parts not all of whose circuits were looked at."""
        self.pocketed: set[str] = set()
        """Parts whose switches were not taken in all combinations."""
        self.cases: list[tuple[Case, Settled]] = []
        """Those whose circuits were taken."""
        self._entries: dict[Mark, _Entry] = {}
        self._shown: dict[tuple[State, frozenset[Mark]], _Shown] = {}
        self._restless: dict[tuple[SelectorKey, ...], str] = {}
        self._answers = Choices(
            SelectorAt(key, options, options[0], "hand") for key, options in unknowns.items()
        )

    @property
    def first(self) -> Case | None:
        """The first case that was taken."""
        return self.cases[0][0] if self.cases else None

    # taking

    def _begin(self, case: Case, settled: Settled) -> None:
        self.combinations = max(self.combinations, case.search.choices.number)
        self.cases.append((case, settled))

    def take(self, case: Case, settled: Settled) -> None:
        """Every live circuit of a case."""
        self._begin(case, settled)
        found = case.circuits
        self.cut.update(found.cut)
        self.pocketed.update(part for part, _ in found.pocketed)
        states: list[tuple[Arrangement, Caught | None]] = [({}, None)]
        for standing in (*found.at_rest, *found.passing):
            held = dict([standing.passing]) if standing.passing is not None else {}
            arrangements = [{**known, **held} for known in standing.arrangements]
            widest = min(merged(standing.arrangements, found.choices), key=len)
            states.append((dict(widest), standing.passing))
            self._enter(case, settled, standing.grown, standing.passing, arrangements)
        for known, moving in states:
            self._show(case, settled, found.choices.example(known), moving)
        self._take_restless(case, found.restless)

    def take_state(self, case: Case, settled: Settled, choice: Arrangement) -> None:
        """The live circuits of one state of a case."""
        self._begin(case, settled)
        for grown in parted(case.search.lasting, choice):
            self._enter(case, settled, grown, None, [choice])
        self._show(case, settled, choice, None)
        restless = self._state(case, choice, None).restless
        self._take_restless(case, [(key, choice) for key in restless])

    def _enter(
        self,
        case: Case,
        settled: Settled,
        grown: Grown,
        moving: Caught | None,
        arrangements: Iterable[Arrangement],
    ) -> None:
        content = case.contents.of(grown, moving)
        entry = self._entries.get(content)
        if entry is None:
            known = min(arrangements, key=len)
            state = self._state(case, known, moving)
            studies = self.memory.studies(case, grown, state, content)
            entry = _Entry(case, settled, grown, moving, content, studies)
            self._entries[content] = entry
        entry.arrangements += arrangements
        if settled not in entry.cases:
            entry.cases.append(settled)

    def _state(self, case: Case, known: Arrangement, moving: Caught | None) -> State:
        free = {key: at for key, at in known.items() if key in case.search.choices.free}
        state = settle(case.circuit, case.search.choices.example(free))
        return state if moving is None else caught_in(state, *moving)

    def _take_restless(
        self, case: Case, found: Collection[tuple[SelectorKey, Arrangement]]
    ) -> None:
        by_state: dict[str, list[SelectorKey]] = {}
        for key in dict.fromkeys(key for key, _ in found):
            known = [at for other, at in found if other == key]
            words = self._tell(case, arranged(known, case.search.choices))
            by_state.setdefault(" or ".join(words[:3]), []).append(key)
        for state, keys in by_state.items():
            self._restless.setdefault(tuple(keys), state)

    # showing

    def _show(
        self, case: Case, settled: Settled, choice: Arrangement, moving: Caught | None
    ) -> None:
        state = self._state(case, choice, moving)
        marks = [
            content
            for grown in parted(case.search.lasting, choice, moving)
            for content in (case.contents.of(grown), case.contents.of(grown, moving))
            if content in self._entries
        ]
        key = (state, frozenset(marks))
        if key not in self._shown:
            circuits = tuple(self._entries[mark] for mark in dict.fromkeys(marks))
            self._shown[key] = _Shown(case, state, circuits)
        if settled not in self._shown[key].cases:
            self._shown[key].cases.append(settled)

    def shown(self) -> Iterator[tuple[str, _Shown, str]]:
        """States that show every live circuit, those with few sources first: key, state, case."""
        named = [(arrangement_words_of(self.design, s), s) for s in self._shown.values()]
        named.sort(key=lambda item: (len(_parts(item[1].circuits)), item[0]))
        seen: set[int] = set()
        for name, shown in named:
            here = {id(entry) for entry in shown.circuits}
            if not here <= seen or not here:
                seen |= here
                yield name, shown, self._case_words(shown.cases)

    def report(self, shown: _Shown, case: str) -> StateReport:
        """The report of a state. NotSolved passes on."""
        whole = Situation(shown.case.circuit, shown.state)
        circuits = [entry.studies for entry in shown.circuits]
        dead = Studies(shown.case.circuit, shown.state, extent=NOTHING_LIVE)
        names = tuple(entry.content.hex() for entry in shown.circuits)
        return report(self.design, whole, circuits or [dead], names, case)

    def failed(self, shown: _Shown, case: str, cause: str) -> StateReport:
        """What can be told of a state whose report cannot be made: its name, and the cause."""
        names = tuple(entry.content.hex() for entry in shown.circuits)
        whole = Situation(shown.case.circuit, shown.state)
        return failed(self.design, whole, names, case, cause)

    # what the rules see

    def view(self, *, partial: bool = False, all_cases: bool = True) -> View:
        """All of it; where several cases were taken, what each of them shows by itself."""
        standing, restless = self.standing(), self.restless()

        def seen(
            design: Design, looks: tuple[Look, ...], case: Case | None, *in_cases: View
        ) -> View:
            return View(
                design,
                looks,
                None if case is None else case.circuit,
                standing,
                restless=restless,
                cut=tuple(sorted(self.cut)),
                pocketed=tuple(sorted(self.pocketed)),
                partial=partial,
                all_cases=all_cases,
                in_cases=in_cases,
                case_words=lambda numbers: self.case_words([self.cases[n][1] for n in numbers]),
            )

        each = self.cases if len(self.cases) > 1 else []
        in_cases = (
            seen(self.design.in_case(settled), self.looks_in(settled), case)
            for case, settled in each
        )
        return seen(self.design, self.looks(), self.first, *in_cases)

    def looks(self) -> tuple[Look, ...]:
        """Each live circuit once, whatever the case, those of few sources first."""
        return _sorted(self._look(entry, entry.settled) for entry in self._entries.values())

    def looks_in(self, settled: Settled) -> tuple[Look, ...]:
        """The live circuits that stand in one case."""
        entries = self._entries.values()
        return _sorted(self._look(entry, settled) for entry in entries if settled in entry.cases)

    def _look(self, entry: _Entry, settled: Settled) -> Look:
        words = " or ".join(self._tell(entry.case, self._arranged(entry)))
        title = sources_title(self.design, entry.grown.parts)
        return Look(words, title, settled, entry.studies)

    def standing(self) -> Standing:
        """When the circuits stand, by the words that tell it."""
        case = self.first
        choices = case.search.choices if case is not None else Choices(())
        known: dict[str, Arrangements] = {}
        for entry in self._entries.values():
            arrangements = self._arranged(entry)
            words = " or ".join(self._tell(entry.case, arrangements))
            if words:
                known[words] = arrangements
        return Standing(
            known,
            choices,
            lambda told: self._tell(case, told),
            lambda told: self._speak(case, told),
        )

    def _arranged(self, entry: _Entry) -> Arrangements:
        return arranged(entry.arrangements, entry.case.search.choices)

    def _tell(self, case: Case | None, told: Arrangements) -> tuple[str, ...]:
        assert case is not None
        words = (arrangement_words(self.design, case.circuit, cube) for cube in told.cubes)
        return tuple(word for word in words if word)

    def _speak(self, case: Case | None, told: Arrangements) -> tuple[str, ...]:
        assert case is not None
        words = (spoken_arrangement(self.design, case.circuit, cube) for cube in told.cubes)
        return tuple(word for word in words if word)

    def restless(self) -> tuple[tuple[tuple[str, ...], str], ...]:
        """Parts whose followers find no rest, with the states in which they find none."""
        return tuple(
            (tuple(sorted({part for part, _ in keys})), words)
            for keys, words in self._restless.items()
        )

    def _case_words(self, settled: list[Settled]) -> str:
        return " or ".join(self.case_words(settled))

    def case_words(self, settled: Collection[Settled]) -> tuple[str, ...]:
        """The unknowns on which it hangs that something is so in some cases, each as it is then;
        nothing where it is so in all that were taken."""
        if len(settled) == len(self.cases):
            return ()
        cubes = merged(settled, self._answers)
        texts = (case_text(self.design, dict(sorted(cube))) for cube in cubes)
        return tuple(text for text in texts if text)


def _sorted(looks: Iterable[Look]) -> tuple[Look, ...]:
    return tuple(sorted(looks, key=lambda look: (len(look.studies.situation.owners), look.state)))


def _parts(circuits: Iterable[_Entry]) -> set[str]:
    return {part for entry in circuits for part in entry.grown.parts}


def arrangement_words_of(design: Design, shown: _Shown) -> str:
    """The key of a state."""
    moving = shown.state.passing
    held = () if moving is None else ((moving, shown.state.positions[moving]),)
    return arrangement_words(design, shown.case.circuit, (*shown.state.free, *held))
