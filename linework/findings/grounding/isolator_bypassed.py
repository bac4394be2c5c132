"""A galvanic isolator or isolation transformer past which shore and boat meet.

What is checked
    For each of them, in every state: whether metal joins its two sides past it,
    and whether a ground wire ends at either side of an isolator.
Why it matters
    It then keeps nothing apart: through the ground wire the metal of this boat
    is a battery with that of the others at the dock, and is eaten away. Nobody
    gets a shock of it.
How to cure it
    The ground wire from shore alone to one stud, all ground wires of the boat to
    the other.
Limits
    What the water joins is not counted. Signal cables and hoses of metal, which
    bypass it too, are not drawn. Whether its diodes are whole is measured, not
    seen. Its rating against that of the shore cord is judged, not its listing.
Sources
    ABYC A-28 and E-11, from memory.
"""

from __future__ import annotations

from collections.abc import Iterator

from linework.design import End
from linework.findings.mending import reattach
from linework.findings.model import Evidence, Hit, Level, Mend, Outcome
from linework.findings.rule import Rule
from linework.findings.view import Look, View
from linework.study.neutral.grounds import relied_on
from linework.study.situation import Situation
from linework.study.slack import exceeds
from linework.study.walks import walk, way_to
from linework.words import N_, say

PAST = N_(
    "{where} keeps nothing apart: {runs} joins its two sides past it. The {ground} is whole, but"
    " the metal of this boat is eaten by that of others. Bring all {ground_wires} of the boat to"
    " one side and only that from shore to the other."
)
WOUND = N_(
    "{where} keeps nothing apart: {runs} joins its two sides past it. Metal of this boat and of"
    " others is a battery again, and currents of the shore may take the way through the water. Let"
    " no conductor from shore meet one of the boat."
)
OPEN = N_(
    "{where} keeps nothing apart: no {ground_wire} ends at its side {side}. Bring all"
    " {ground_wires} of the boat to one side and only that from shore to the other."
)
SMALL = N_(
    "{where} is made for {rated} A and lies in the {ground_wire} behind {device} of {amps} A: a"
    " fault may burn it open, and the {ground} is gone without a sign."
)


def check(view: View) -> Iterator[Outcome]:
    """One hit for each isolator and what is wrong with it."""
    for part in view.parts_that(lambda kind: True):
        sides = view.kind(part).keeps_apart(view.values(part))
        bare = [side for side in sides if not view.design.runs_at(part, side)]
        tied = _tied(view, part)
        if len(bare) == 1 and tied:
            yield _open(view, part, bare[0])
        elif sides and not bare:
            for look in view.settled_looks:
                yield from _joined(view, look, part)
                yield from _small(view, look, part) if tied else ()


def _tied(view: View, part: str) -> bool:
    """Whether it lies in a ground wire alone; else it is a transformer."""
    values = view.values(part)
    sides = view.kind(part).keeps_apart(values)
    return all(t.role == "tie" for t in view.kind(part).terminals(values) if t.name in sides)


def _open(view: View, part: str, side: str) -> Hit:
    words = {"where": view.name(part), "side": side}
    found = (Evidence(N_("sides joined"), 1.0, "count"),)
    return Hit(Level.WARNING, (part,), OPEN, words, found, mend=_mend(view, part, side))


def _mend(view: View, part: str, side: str) -> Mend | None:
    """The only ground wire that leads from the other side to a board or to metal of the boat, put
    on this one."""
    leading = []
    for run in (
        r
        for s in view.kind(part).keeps_apart(view.values(part))
        for r in view.design.runs_at(part, s)
    ):
        ends = (run.a, run.b) if run.a.part == part else (run.b, run.a)
        kind = view.kind(ends[1].part)
        if kind.board or kind.body:
            leading.append((run, ends[1]))
    if len(leading) != 1:
        return None
    run, far = leading[0]
    title = say(
        "Put {run} on the other side of {where}", run=view.name(run.id), where=view.name(part)
    )
    return reattach(title, run, far, End(part, side))


def _joined(view: View, look: Look, part: str) -> Iterator[Hit]:
    situation = look.studies.situation
    apart = view.parts_that(lambda kind: True)
    every = [p for p in apart if p == part or (_sides(view, p) and _tied(view, p))]
    found = _past(situation, part, _sides(view, part), every)
    between = {owner for owner in found if view.run(owner) is not None}
    if not between:
        return
    at_it = {run.id for run in view.design.runs_at(part)}
    runs = sorted(between - at_it or between)
    yield look.hit(
        Level.WARNING,
        (part, *runs),
        PAST if _tied(view, part) else WOUND,
        {"where": view.name(part), "runs": ", ".join(view.name(run) for run in runs)},
        (Evidence(N_("sides joined"), 2.0, "count"),),
    )


def _sides(view: View, part: str) -> tuple[str, ...]:
    return view.kind(part).keeps_apart(view.values(part))


def _past(situation: Situation, part: str, sides: tuple[str, ...], apart: list[str]) -> list[str]:
    """The owners of what joins the sides past the part and all others that keep apart, in order;
    none where nothing does. A way through the isolator of a second cord is none."""
    circuit, wires = situation.circuit, situation.wires(bonds=True)
    own = {i for each in apart for i in circuit.branches_of.get(each, ())}
    ends = [circuit.terminals[part, side].values() for side in sides]

    def steps(node: int) -> Iterator[tuple[int, int]]:
        return (s for s in wires.get(node, ()) if s[0] not in own)

    reached = walk(ends[0], steps)
    ways = (way_to(node, reached) for node in ends[1])
    way = next((found for found in ways if found), [])
    return [circuit.branches[i].owner for i in way]


def _small(view: View, look: Look, part: str) -> Iterator[Hit]:
    situation, rated = look.studies.situation, view.values(part).num("rating")
    for branch in situation.circuit.branches_of.get(part, ()):
        for wire in relied_on(situation, branch):
            device = situation.circuit.devices[wire.device]
            if exceeds(device.data.rating_a, rated):
                yield look.hit(
                    Level.WARNING,
                    (part,),
                    SMALL,
                    {
                        "where": view.name(part),
                        "device": view.name(device.owner),
                        "rated": f"{rated:g}",
                        "amps": f"{device.data.rating_a:g}",
                    },
                    (
                        Evidence(N_("device"), device.data.rating_a, "current"),
                        Evidence(N_("rated"), rated, "current"),
                    ),
                )


RULE = Rule(
    "isolator-bypassed",
    N_("Isolation without effect"),
    check,
    {"NA": "ABYC A-28", "INT": "practice"},
    causes=("bond-doubled",),
)
