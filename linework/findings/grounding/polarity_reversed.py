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

from collections.abc import Iterator

from linework.design import Change, Design, Run
from linework.design.edits import set_poles
from linework.findings.model import Evidence, Hit, Level, Mend, Outcome, Rule
from linework.findings.view import Look, View
from linework.study.situation import Situation, System
from linework.wiring import Pole
from linework.words import N_, say

AC = N_(
    "{where}: {hot} and {neutral} are exchanged. Single-pole breakers and switches open the wrong"
    " side; what is switched off stays live."
)
DC = N_("{where}: plus and minus are exchanged. Equipment is destroyed, and fuses open the minus.")

_CROSSED = {(Pole.L, Pole.N), (Pole.N, Pole.L), (Pole.POS, Pole.NEG), (Pole.NEG, Pole.POS)}


def check(view: View) -> Iterator[Outcome]:
    """One hit for each crossing, or for each place that shows one without a run to blame."""
    for look in view.settled_looks:
        for owners, is_ac, system in _places(look.studies.situation):
            yield _hit(view, look, owners, is_ac, system)


def _places(situation: Situation) -> list[tuple[str, bool, System]]:
    """Parts whose line contact hangs on a return, their return on a hot conductor."""
    found: dict[str, tuple[str, bool, System]] = {}
    for (part, _), nodes in situation.circuit.terminals.items():
        for hot, back in ((Pole.L, Pole.N), (Pole.POS, Pole.NEG)):
            if hot not in nodes or back not in nodes:
                continue
            for system in situation.feeds(nodes[back]):
                if any(s.source == system.source for s in situation.returns(nodes[hot])):
                    found.setdefault(part, (part, hot is Pole.L, system))
    return list(found.values())


def _hit(view: View, look: Look, part: str, is_ac: bool, system: System) -> Hit:
    crossing = _crossing(view, look.studies.situation, system)
    subjects = crossing or (part,)
    volts = look.studies.circuit.sources[system.source].data.volts
    return Hit(
        Level.WARNING if is_ac else Level.DANGER,
        subjects,
        AC if is_ac else DC,
        {"where": ", ".join(view.name(s) for s in subjects)},
        (Evidence(N_("voltage on the wrong side"), volts, "voltage"),),
        look.state,
        look.case,
        frozenset({part, system.owner}),
        _mend(view, crossing),
    )


def _crossing(view: View, situation: Situation, system: System) -> tuple[str, ...]:
    """Runs of this system in which unlike poles meet."""
    found = []
    for run in view.design.runs:
        if any((p, q) in _CROSSED for p, q in run.poles or ()):
            live = any(
                b.owner == run.id and situation.clusters[b.a] in (system.hot, system.back)
                for b in situation.branches
            )
            if live:
                found.append(run.id)
    return tuple(sorted(found))


def _mend(view: View, crossing: tuple[str, ...]) -> Mend | None:
    run = view.run(crossing[0]) if len(crossing) == 1 else None
    if run is None:
        return None

    def edit(design: Design) -> Change:
        return set_poles(design, run.id, _straight(run))

    return Mend(say("Exchange the two wires of {what}", what=view.name(run.id)), edit)


def _straight(run: Run) -> tuple[tuple[Pole, Pole], ...]:
    return tuple((p, p) if (p, q) in _CROSSED else (p, q) for p, q in run.poles or ())


RULE = Rule(
    "polarity-reversed",
    N_("Polarity reversed"),
    check,
    {"NA": "200.11", "INT": "514.3"},
)
