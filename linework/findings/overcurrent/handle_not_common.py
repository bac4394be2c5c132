"""Two hot conductors of one circuit on breakers that do not act together.

What is checked
    In every state: at each terminal with two hot conductors, and at the faces
    on one strap, whether both pass the same device or breakers whose handles
    are tied; and, where they share a neutral, whether they are on different
    legs. So for each neutral by which the circuit of another breaker comes
    back, wherever the two meet.
Why it matters
    One breaker off leaves half of the circuit live under the hands of who works
    on it. On one leg the currents add up in the shared neutral.
How to cure it
    A two-pole breaker, or an identified handle tie; one breaker on each leg.
Limits
    Whether fuses are opened by one switch is not looked at: such circuits are
    "not checked".
Sources
    NFPA 70 (2023) 210.4(B), 210.7, 240.15(B); IEC 60364-4-43 431.2.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from itertools import combinations

from linework.circuit.model import Device, FaceAt
from linework.findings.mending import change_part, together
from linework.findings.model import Evidence, Hit, Level, Mend, NotChecked, Outcome
from linework.findings.rule import Rule
from linework.findings.view import Look, View
from linework.study.neutral.together import neutrals_of_two_circuits
from linework.study.situation import Situation, System
from linework.study.ways.paths import volts_between
from linework.study.ways.protection import device_at
from linework.wiring import Pole, is_ungrounded
from linework.words import N_, say

APART = N_(
    "The two hot conductors of {where} pass {one} and {other}, which do not open together: with one"
    " of them off the other half stays live."
)
STRAP = N_(
    "The halves of {where} get their power from {one} and {other}, which do not open together: with"
    " one of them off the other half stays live, in the same box."
)
ONE_LEG = N_(
    "The two hot conductors of {where} pass {one} and {other} on the same leg: in their shared"
    " {neutral} the currents add up."
)
NEUTRAL = N_(
    "{one} and {other} share the {neutral} of {where}, and do not open together: with one of them"
    " off, the current of the other still comes back there, and who opens a joint gets its voltage."
)
NEUTRAL_ONE_LEG = N_(
    "{one} and {other} share the {neutral} of {where} and are on the same leg: in it their currents"
    " add up."
)
FUSES = N_("whether one switch opens {one} and {other} together is not known to the program")


@dataclass(frozen=True)
class _Couple:
    """Two devices of one circuit, seen at a terminal or the faces of a strap (``where``: its part),
    or at a neutral that both use (its run); ``volts`` between their two conductors.

    ``apart``, ``one_leg``: how it is told.
    """

    where: str
    one: Device
    other: Device
    same_leg: bool
    volts: float
    apart: str = APART
    one_leg: str = ONE_LEG


def check(view: View) -> Iterator[Outcome]:
    """One hit for each pair of devices."""
    for look in view.settled_looks:
        couples = _couples(look)
        for pair in sorted({_owners(c) for c in couples}):
            yield from _pair(view, look, [c for c in couples if _owners(c) == pair])


def _owners(couple: _Couple) -> tuple[str, str]:
    one, other = sorted((couple.one.owner, couple.other.owner))
    return one, other


def _couples(look: Look) -> list[_Couple]:
    situation = look.studies.situation
    found: list[_Couple] = []
    for (part, _), nodes in sorted(situation.circuit.terminals.items()):
        lines = [n for pole, n in nodes.items() if pole in (Pole.L1, Pole.L2, Pole.L3)]
        for a, b in combinations(lines, 2):
            found += _at(situation, part, (a, b), nodes.get(Pole.N))
    for one, other in combinations(situation.circuit.faces, 2):
        if one.owner == other.owner:
            found += _on_strap(situation, one, other)
    seen = {_owners(couple) for couple in found}
    return found + [c for c in _by_neutral(situation) if _owners(c) not in seen]


def _by_neutral(situation: Situation) -> Iterator[_Couple]:
    """Circuits that meet nowhere but in a neutral."""
    branches, sources = situation.circuit.branches, situation.circuit.sources
    for found in neutrals_of_two_circuits(situation):
        volts = 0.0 if found.same_leg else 2.0 * sources[found.taker.system.source].data.volts
        run = branches[found.branch].owner
        told = (NEUTRAL, NEUTRAL_ONE_LEG)
        yield _Couple(run, found.one, found.other, found.same_leg, volts, *told)


def _at(
    situation: Situation,
    part: str,
    ends: tuple[int, int],
    neutral: int | None,
    strap: bool = False,
) -> Iterator[_Couple]:
    """The devices before the two ends of a terminal, where they are two; of two sources where each
    feeds one of the ends."""
    both = {s.owner for s in situation.feeds(ends[0])} & {s.owner for s in situation.feeds(ends[1])}
    for one in situation.feeds(ends[0]):
        for other in situation.feeds(ends[1]):
            apart = one.owner != other.owner
            if not (one.is_ac and other.is_ac) or (apart and (strap or both)):
                continue
            same = one.source == other.source
            shared = same and _shared(situation, one, neutral)
            if same and not (shared or strap):
                continue
            first = device_at(situation, one, ends[0])
            second = device_at(situation, other, ends[1])
            if first is not None and second is not None and first.owner != second.owner:
                volts = 0.0 if same else volts_between(situation, *ends)
                yield _Couple(part, first, second, shared, volts, STRAP if strap else APART)


def _on_strap(situation: Situation, one: FaceAt, other: FaceAt) -> Iterator[_Couple]:
    """The devices of two faces of one outlet; what they share is told by their neutrals."""
    hots = [[n for p, n in f.nodes.items() if is_ungrounded(Pole(p))] for f in (one, other)]
    neutral = one.nodes.get(Pole.N)
    shared = neutral if neutral == other.nodes.get(Pole.N) else None
    for a in hots[0]:
        for b in hots[1]:
            yield from _at(situation, one.owner, (a, b), shared, strap=True)


def _shared(situation: Situation, system: System, neutral: int | None) -> bool:
    return neutral is not None and situation.clusters[neutral] == system.back


def _pair(view: View, look: Look, couples: list[_Couple]) -> Iterator[Outcome]:
    one, other = _owners(couples[0])
    names = {"one": view.name(one), "other": view.name(other)}
    same = [c for c in couples if c.same_leg]
    apart = [c for c in couples if not c.same_leg]
    if same:
        yield _hit(view, look, same[0].one_leg, names, same, None)
    elif view.kind(one).melts and view.kind(other).melts:
        yield NotChecked(FUSES, names, (one, other), look.state)
    elif not (_tied(view, one) and _tied(view, other)):
        message = apart[0].apart if len({c.apart for c in apart}) == 1 else APART
        yield _hit(view, look, message, names, apart, _mend(view, one, other))


def _tied(view: View, owner: str) -> bool:
    declared = "handle" in view.kind(owner).declared
    return declared and view.values(owner).pick("handle") == "tied"


def _hit(
    view: View,
    look: Look,
    message: str,
    names: Mapping[str, str],
    couples: list[_Couple],
    mend: Mend | None,
) -> Hit:
    parts = sorted({c.where for c in couples} - set(_owners(couples[0])))
    where = ", ".join(view.name(part) for part in parts) or names["one"]
    volts = max(c.volts for c in couples)
    strap = {"NA": "210.7, 240.15(B)"} if message == STRAP else {}
    return look.hit(
        Level.WARNING,
        _owners(couples[0]),
        message,
        {"where": where, **names},
        (Evidence(N_("voltage between the two"), volts, "voltage"),),
        touches=frozenset(parts),
        mend=mend,
        clause=view.clause(strap),
    )


def _mend(view: View, one: str, other: str) -> Mend | None:
    """Both handles tied, where they lie in neighbouring places of one board."""
    places = [seat for owner in (one, other) for seat in view.design.seats_of(owner)]
    handles = all("handle" in view.kind(owner).declared for owner in (one, other))
    if not handles or len(places) != 2:
        return None
    if places[0].host != places[1].host or not _neighbours(view, *(s.place for s in places)):
        return None
    names = {"one": view.name(one), "other": view.name(other)}
    title = say("Tie the handles of {one} and {other}", **names)
    done = say("tie the handles of {one} and {other}", **names)
    return together(title, done, [change_part(done, o, {"handle": "tied"}) for o in (one, other)])


def _neighbours(view: View, one: str, other: str) -> bool:
    """Places of a board are numbered down two columns: the next below is two further."""
    numbers = [int(word) for word in (one, other) if word.isdigit()]
    return len(numbers) == 2 and abs(numbers[0] - numbers[1]) == 2


RULE = Rule(
    "handle-not-common",
    N_("Breakers of one circuit do not act together"),
    check,
    {"NA": "210.4(B), 240.15(B)", "INT": "431.2"},
    hangs_on=("conductors-shorted",),
)
