"""Line and neutral, or plus and minus, exchanged.

What is checked
    In every state: at each outlet and load, whether the contact marked line is
    fed from the line, and plus from plus.
Why it matters
    Single-pole breakers and switches then open the wrong side and leave a
    switched-off load live; reversed plus and minus destroys equipment.
How to cure it
    Exchange the two wires where they cross.
Limits
    Exchanged neutral and ground wire is another finding.
Sources
    NFPA 70 (2023) 200.11; IEC 60364-5-51 514.3.
"""

from __future__ import annotations

from collections.abc import Collection, Iterator
from dataclasses import dataclass

from linework.circuit.series import ways_back
from linework.design import Run
from linework.design.poles import terminal_at
from linework.findings.mending import change_poles, together
from linework.findings.model import Evidence, Hit, Level, Mend, Outcome
from linework.findings.rule import Rule
from linework.findings.view import Look, View
from linework.study.answers.downstream import downstream, on_conductors, parts_links
from linework.study.situation import Situation, System
from linework.study.ways.paths import way
from linework.wiring import Pole
from linework.words import N_, say

AC = N_(
    "{where}: {hot} and {neutral} are exchanged. Single-pole breakers and switches open the wrong"
    " side; what is switched off stays live."
)
AC_BOTH = N_(
    "{where}: {hot} and {neutral} are exchanged. No breaker or switch of one pole is drawn behind;"
    " one inside an appliance, or fitted later, opens the wrong side."
)
DC = N_("{where}: plus and minus are exchanged. Equipment is destroyed, and fuses open the minus.")

_PAIRS = (
    (Pole.L, Pole.N),
    (Pole.L1, Pole.N),
    (Pole.L2, Pole.N),
    (Pole.L3, Pole.N),
    (Pole.POS, Pole.NEG),
)
_CROSSED = {*_PAIRS, *((back, hot) for hot, back in _PAIRS)}


@dataclass(frozen=True)
class _Place:
    """A part whose return contact, ``node``, hangs on a hot conductor."""

    part: str
    is_ac: bool
    system: System
    node: int


def check(view: View) -> Iterator[Outcome]:
    """One hit for each crossing, or for each place that shows one without a run to blame."""
    for look in view.settled_looks:
        for place in _places(look.studies.situation):
            yield _hit(view, look, place)


def _places(situation: Situation) -> list[_Place]:
    """Parts whose line contact hangs on a return, their return on a hot conductor; of sources in
    series that of the whole string."""
    label, found = situation.clusters, dict[str, _Place]()
    for (part, _), nodes in situation.circuit.terminals.items():
        for hot, back in _PAIRS:
            if hot not in nodes or back not in nodes:
                continue
            for system in situation.feeds(nodes[back]):
                if label[nodes[hot]] in ways_back(situation, system.source, label):
                    place = _Place(part, back is Pole.N, system, nodes[back])
                    found.setdefault(part, place)
    return list(found.values())


def _hit(view: View, look: Look, place: _Place) -> Hit:
    crossing = _crossing(view, look.studies.situation, place)
    subjects = crossing or (place.part,)
    situation, owner = look.studies.situation, place.system.owner
    behind = downstream(situation, subjects)
    alternating = AC if _opens_wrong(situation, place.system, behind) else AC_BOTH
    if parts_links(situation, subjects):
        behind |= {owner}
    for cell in _turned(view, situation, subjects):
        behind |= on_conductors(situation, cell)
    volts = look.studies.circuit.sources[place.system.source].data.volts
    return look.hit(
        Level.WARNING if place.is_ac else Level.DANGER,
        subjects,
        alternating if place.is_ac else DC,
        {"where": ", ".join(view.name(s) for s in subjects)},
        (Evidence(N_("voltage on the wrong side"), volts, "voltage"),),
        touches=frozenset({place.part}),
        explains=behind,
        mend=_mend(view, crossing),
    )


def _opens_wrong(situation: Situation, system: System, owners: Collection[str]) -> bool:
    """Whether some part among these opens the return of a source and not its hot conductor."""
    circuit, label = situation.circuit, situation.clusters
    opened: dict[str, set[int]] = {}
    for i, branch in enumerate(circuit.branches):
        if branch.owner in owners and (i in circuit.device_of or branch.when):
            opened.setdefault(branch.owner, set()).update((label[branch.a], label[branch.b]))
    return any(system.back in each and system.hot not in each for each in opened.values())


def _crossing(view: View, situation: Situation, place: _Place) -> tuple[str, ...]:
    """Runs on the way from the source to the place in which unlike poles meet."""
    circuit = situation.circuit
    steps = way(situation, circuit.sources[place.system.source].plus, place.node) or []
    owners = {circuit.branches[i].owner for i in steps}
    crossed = {
        run.id for run in view.design.runs if any(pair in _CROSSED for pair in run.poles or ())
    }
    found = owners & crossed
    for cell in _turned(view, situation, tuple(found)):
        found |= {run.id for run in view.design.runs_at(cell)} & crossed  # it is one mistake
    return tuple(sorted(found))


def _turned(view: View, situation: Situation, crossing: tuple[str, ...]) -> list[str]:
    """The batteries at whose posts crossed runs end."""
    cells = dict.fromkeys(s.owner for _, s in situation.active if s.data.group.stores)
    return [c for c in cells if any(run.id in crossing for run in view.design.runs_at(c))]


def _mend(view: View, crossing: tuple[str, ...]) -> Mend | None:
    runs = [run for run in map(view.run, crossing) if run is not None]
    if len(runs) == 1:
        title = say("Exchange the two wires of {what}", what=view.name(runs[0].id))
        return change_poles(title, runs[0].id, _straight(view, runs[0]))
    if not runs:
        return None
    title = say("Exchange the wires of {what}", what=", ".join(view.name(run.id) for run in runs))
    done = say("exchange wires")
    straight = [change_poles(title, run.id, _straight(view, run)) for run in runs]
    return together(title, done, straight)


def _straight(view: View, run: Run) -> tuple[tuple[Pole, Pole], ...]:
    """Its conductors without a crossing: at a battery, which is turned as a whole, those of the
    other end stay where they are, as do those of a bar, which has but one pole."""
    cells = [view.kind(end.part).source.stores for end in (run.a, run.b)]
    far = terminal_at(view.design, run.b)
    by_far = cells[0] or (not cells[1] and far is not None and len(far.poles) == 1)

    def kept(pair: tuple[Pole, Pole]) -> tuple[Pole, Pole]:
        return pair if pair not in _CROSSED else (pair[by_far],) * 2

    return tuple(kept(pair) for pair in run.poles or ())


RULE = Rule(
    "polarity-reversed",
    N_("Polarity reversed"),
    check,
    {"NA": "200.11", "INT": "514.3"},
    causes=("battery-turned",),
)
