"""The order in which a finished installation is first made live, worked out from the design.

Dead and locked out, then direct current, the inverter alone, supply, sets, changeovers, charging,
all of it for an hour (common practice, no source). Each step names its own parts and the lines of
the test sheet that must fit before the next; what a design lacks has no step.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass
from enum import Enum, auto

from reportlab.lib.units import mm
from reportlab.platypus import Flowable, Table, TableStyle

from linework.design.names import natural
from linework.handover.charged_banks import banks
from linework.handover.content import Content
from linework.handover.locking import circuits_of, order_of, sheet_of_order
from linework.handover.measurements import Block, measurements
from linework.handover.measurements.line import names
from linework.handover.measurements.outlets import told
from linework.handover.sheets import Room, Sheet
from linework.handover.styles import INK, REGULAR, RULE, size_of, text
from linework.study.lockout import Sort
from linework.study.report import StateReport
from linework.wiring import SourceGroup
from linework.words import N_


@dataclass(frozen=True)
class Step:
    """One step: its name, what is done, and the keys of what must fit before the next."""

    head: str
    how: str
    proofs: tuple[str, ...]


class Stands(Enum):
    """What a position stands on."""

    OUTSIDE = auto()
    ENGINE = auto()
    STORE = auto()


def steps(content: Content) -> list[Step]:
    """In their order; none of a design in which nothing is ever live."""
    if not order_of(content).before:
        return []
    facts = _Facts(content)
    made = (each for make in _MAKERS for each in make(facts))
    return [Step(content.say(step.head), step.how, step.proofs) for step in made]


class _Facts:
    """A design as the steps ask for it."""

    def __init__(self, content: Content) -> None:
        self.content = content
        self.say = content.say
        self.lines = measurements(content)
        self.groups = {number: _group(content, p.shown) for number, p in told(content)}

    def proofs(self, *starts: str, group: Stands | None = None) -> tuple[str, ...]:
        """The keys that begin so; of what is read in a position only those of a group of it."""
        return tuple(
            line.key
            for line in self.lines
            if line.key.split(":")[0] in starts
            and (group is None or self.groups.get(int(line.key.rsplit(":", 1)[1])) == group)
        )

    def of_parts(self, start: str, parts: Iterable[str]) -> tuple[str, ...]:
        """The keys of what is read at some parts."""
        wanted = {f"{start}:{part}" for part in parts}
        return tuple(line.key for line in self.lines if line.key in wanted)

    def trips(self, group: Stands) -> tuple[str, ...]:
        """Of ground-fault devices those that are live in some position of a group."""
        shown = [p.shown for number, p in told(self.content) if self.groups[number] == group]
        live = {part for r in shown for part, _ in r.live}
        return self.of_parts("trip", live)

    def parting(self) -> tuple[list[str], list[str]]:
        """The parts by which the lock-out parts a store, and those by which it parts the sun."""
        steps_of = order_of(self.content).steps
        sorts = (Sort.SUN, Sort.STORE)
        found = [s.means.part for s in steps_of if s.means.sort in sorts]
        stores = {
            part
            for part in found
            if any(bank.reaches(self.content, part) for bank in banks(self.content))
        }
        return [p for p in found if p in stores], [p for p in found if p not in stores]

    def levers(self) -> list[str]:
        """The levers of the lock-out through which a store feeds."""
        content, steps_of = self.content, order_of(self.content).steps
        turned = [s.means.part for s in steps_of if s.means.sort is Sort.TRANSFER]
        return [p for p in turned if any(bank.reaches(content, p) for bank in banks(content))]

    def named(self, parts: Iterable[str]) -> str:
        """Designations in a row."""
        return names(self.content, parts)

    def sources(self, fact: Callable[[SourceGroup], bool]) -> list[str]:
        """The parts that are such a source."""
        design = self.content.design
        found = (part for part in design.parts if fact(design.kind(part).source))
        return [part.id for part in sorted(found, key=lambda part: natural(part.designation))]

    def inverting(self) -> list[str]:
        """What makes alternating current from direct."""
        circuit = circuits_of(self.content.design, self.content.design.revision)[0]
        found = {
            c.owner
            for c in circuit.conversions
            if circuit.sources[c.source].data.hertz > 0.0
            and circuit.loads[c.load].data.hertz == 0.0
        }
        return sorted(found, key=lambda part: natural(self.content.name(part)))

    def plugs(self, sources: Iterable[str]) -> list[str]:
        """The plugs through which some sources come in."""
        own, design = {*sources}, self.content.design
        live = {p for r in self.content.reports for (p, _), by in r.live.items() if own & {*by}}
        return [
            part.id
            for part in sorted(design.parts, key=lambda part: natural(part.designation))
            if part.id in live and design.kind(part).plugs and not design.kind(part).cord
        ]


def _group(content: Content, r: StateReport) -> Stands:
    """What a position stands on: a supply, else a set, else what inverts."""
    kinds = [content.design.kind(content.design.part(s.part)).source for s in r.sources if s.hertz]
    if any(kind.off_site for kind in kinds):
        return Stands.OUTSIDE
    return Stands.ENGINE if any(kind.driven for kind in kinds) else Stands.STORE


_AT_OUTLETS = ("outlet", "legs", "loop", "fault")


# the steps


def _dead(facts: _Facts) -> Iterator[Step]:
    say = facts.say
    yield Step(
        N_("Agree"),
        say(
            "Revision {revision} of this set on the table; who leads, who stops it and where.",
            revision=facts.content.design.settings.revision,
        ),
        (),
    )
    means = [each.means.part for each in order_of(facts.content).steps]
    told_means = [facts.content.name(part) for part in dict.fromkeys(means)]
    yield Step(
        N_("Lock out"),
        say(
            "By the order of sheet {sheet}: {parts}. Every breaker off. Wait for capacitors."
            " Prove it dead.",
            sheet=sheet_of_order(facts.content),
            parts=", ".join(told_means),
        )
        if told_means
        else say("Every breaker off. Prove it dead."),
        (),
    )
    dead = tuple(line.key for line in facts.lines if line.block is not Block.LIVE)
    locks = facts.proofs("interlock")
    how = say("All of A, then all of B; put back what was lifted.")
    if locks:
        how = " ".join((how, say("Interlocks tried while dead.")))
    if dead:
        yield Step(N_("Dead tests"), how, (*dead, *locks))


def _direct(facts: _Facts) -> Iterator[Step]:
    say = facts.say
    stores = facts.sources(lambda kind: kind.stores)
    if not stores:
        return
    (closed, _), levers, inverting = facts.parting(), facts.levers(), facts.inverting()
    off = {*inverting, *facts.sources(lambda kind: kind.charges or kind.solar)}
    how = [
        say("Fill the capacitors of {parts} through a resistor.", parts=facts.named(inverting))
        if inverting
        else "",
        say("Close {parts}.", parts=facts.named(closed)) if closed else "",
        say("{parts} from off into each position.", parts=facts.named(levers)) if levers else "",
        say("Then its circuits one by one; off stay {parts}.", parts=facts.named(off))
        if off
        else say("Then its circuits one by one."),
    ]
    yield Step(N_("Direct current"), " ".join(filter(None, how)), facts.proofs("volts"))


def _alone(facts: _Facts) -> Iterator[Step]:
    inverting = facts.inverting()
    if not inverting:
        return
    read = facts.proofs(*_AT_OUTLETS, group=Stands.STORE)
    yield Step(
        N_("Inverter"),
        facts.say(
            "{parts} on without load; then its loads, the smallest first.",
            parts=facts.named(inverting),
        ),
        (*facts.of_parts("hertz", inverting), *read, *facts.trips(Stands.STORE)),
    )


def _supply(facts: _Facts) -> Iterator[Step]:
    supplies = facts.sources(lambda kind: kind.off_site)
    if not supplies:
        return
    say, plugs = facts.say, facts.plugs(supplies)
    read = facts.proofs(*_AT_OUTLETS, group=Stands.OUTSIDE)
    how = (
        say(
            "{supplies} read first. Mains off; the cord at its inlet first, then {plugs}; mains on."
            " Out the other way round.",
            supplies=facts.named(supplies),
            plugs=facts.named(plugs),
        )
        if plugs
        else say("{supplies} read first, mains off; then mains on.", supplies=facts.named(supplies))
    )
    yield Step(N_("Supply"), how, (*facts.proofs("supply"), *read, *facts.trips(Stands.OUTSIDE)))


def _sets(facts: _Facts) -> Iterator[Step]:
    sets = facts.sources(lambda kind: kind.driven)
    if not sets:
        return
    say, plugs = facts.say, facts.plugs(sets)
    before = say(
        "{sets} outdoors, warm, without load. Joined to its frame or not, as drawn, before it feeds"
        " anything.",
        sets=facts.named(sets),
    )
    then = say("Then {plugs} in.", plugs=facts.named(plugs)) if plugs else ""
    proofs = (*facts.of_parts("link", sets), *facts.of_parts("hertz", sets))
    read = facts.proofs(*_AT_OUTLETS, group=Stands.ENGINE)
    yield Step(
        N_("Generator"),
        " ".join(filter(None, (before, then))),
        (*proofs, *read, *facts.trips(Stands.ENGINE)),
    )


def _transfers(facts: _Facts) -> Iterator[Step]:
    between, pins = facts.proofs("interlock", "transfer", "under-load"), facts.proofs("pins")
    if between:
        yield Step(
            N_("Changeovers"),
            facts.say("Every pair of sources, there and back: without load, then with."),
            (*between, *pins),
        )
    elif pins:
        how = facts.say("Nothing comes back to what is pulled out.")
        yield Step(N_("Bare pins"), how, pins)
    starts = facts.proofs("start")
    if starts:
        motors = [key.split(":")[1] for key in starts]
        how = facts.say("{motors}, one at a time, on each source.", motors=facts.named(motors))
        yield Step(N_("Motors"), how, starts)


def _charging(facts: _Facts) -> Iterator[Step]:
    say = facts.say
    arrays = facts.sources(lambda kind: kind.solar)
    _, suns = facts.parting()
    proofs = facts.proofs("open", "short", "shutdown", "charge", "part")
    if not proofs:
        return
    how = [
        say(
            "{arrays} read open before {parts} closes.",
            arrays=facts.named(arrays),
            parts=facts.named(suns),
        )
        if arrays and suns
        else "",
        say("Each charger alone, then all together.") if facts.proofs("charge") else "",
        say("Last, part the store under load.") if facts.proofs("part") else "",
    ]
    yield Step(N_("Charge"), " ".join(filter(None, how)), proofs)


def _whole(facts: _Facts) -> Iterator[Step]:
    proofs = facts.proofs("heat", "fumes")
    if proofs:
        yield Step(N_("One hour"), facts.say("All drawn loads on, on each source in turn."), proofs)
    drills = [*_drills(facts)]
    if drills:
        yield Step(N_("Drill"), " ".join(drills), ())
    yield Step(
        N_("Hand over"),
        facts.say(
            "Placards on, schedules in the doors, set and test sheet signed; tell the user what"
            " must never be plugged where."
        ),
        (),
    )


def _drills(facts: _Facts) -> Iterator[str]:
    """What is made to fail on purpose."""
    say, design = facts.say, facts.content.design
    trips = [key.split(":")[1] for key in facts.proofs("trip")]
    if trips:
        yield say("Press the button of {parts}.", parts=facts.named(trips))
    plugs = facts.plugs(facts.sources(lambda kind: kind.off_site))
    if plugs:
        yield say("Pull {plugs} under load.", plugs=facts.named(plugs))
    sets = facts.sources(lambda kind: kind.driven)
    if sets:
        yield say("Let {sets} run low on fuel.", sets=facts.named(sets))
    if facts.sources(lambda kind: kind.stores):
        yield say("Let the store run down to its cut-out.")
    circuit = circuits_of(design, design.revision)[0]
    boards = (p for p in design.parts if design.kind(p).board)
    mains = [p.id for p in boards if any(part == p.id for part, _ in circuit.selectors)]
    if mains:
        yield say("Open the main of {parts}.", parts=facts.named(mains))


_MAKERS = (_dead, _direct, _alone, _supply, _sets, _transfers, _charging, _whole)


# the page


def commissioning(content: Content, room: Room) -> list[Flowable]:
    """One list; nothing where nothing is ever live."""
    found = steps(content)
    if not found:
        return []
    say = content.say
    known = {line.key: number for number, line in enumerate(measurements(content), start=1)}
    rows: list[list[object]] = [["", "", text(say("lines that must fit before the next"), "head")]]
    for number, step in enumerate(found, start=1):
        numbers = spans(sorted(known[key] for key in step.proofs))
        what = text(f"{step.head}: {step.how}", "cell")
        rows.append([text(str(number), "strong"), what, text(numbers, "cell")])
    made = Table(rows, colWidths=_widths(room.width), repeatRows=1, hAlign="LEFT")
    made.setStyle(
        TableStyle(
            [
                ("FONT", (0, 0), (-1, -1), REGULAR, size_of(25)),
                ("VALIGN", (0, 0), (-1, -1), "TOP"),
                ("LINEBELOW", (0, 0), (-1, 0), 0.9, INK),
                ("LINEBELOW", (0, 1), (-1, -1), 0.5, RULE),
                ("LEFTPADDING", (0, 0), (-1, -1), 0.9 * mm),
                ("RIGHTPADDING", (0, 0), (-1, -1), 0.9 * mm),
                ("TOPPADDING", (0, 0), (-1, -1), 0.4 * mm),
                ("BOTTOMPADDING", (0, 0), (-1, -1), 0.6 * mm),
            ]
        )
    )
    return [text(say("Order of commissioning"), "title", anchor="commissioning"), made]


def _widths(width: float) -> list[float]:
    fixed = [8 * mm, 0.0, 42 * mm]
    fixed[1] = width - sum(fixed)
    return fixed


def spans(found: Sequence[int]) -> str:
    """Numbers in their order, what follows on each other as a span: "1–4, 7, 9–11"."""
    groups: list[list[int]] = []
    for number in found:
        if groups and number == groups[-1][-1] + 1:
            groups[-1].append(number)
        else:
            groups.append([number])
    return ", ".join(
        str(g[0]) if len(g) == 1 else f"{g[0]}, {g[1]}" if len(g) == 2 else f"{g[0]}–{g[-1]}"
        for g in groups
    )


COMMISSIONING = Sheet(
    "commissioning",
    N_("Order of commissioning"),
    N_("instruction"),
    commissioning,
    flows=True,
    early=True,
)
