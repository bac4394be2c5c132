"""Study: the conductors that a fault to metal heats beyond their limit."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from linework.design import Design
from linework.study.answers.shocks import Shock, shocks
from linework.study.once import once
from linework.study.shorts.clearing import Ending
from linework.study.shorts.faults import Outcome
from linework.study.shorts.heat import Burnt, Withstand, burnt, resting_on_release, withstands
from linework.study.studies import Studies
from linework.wiring import Pole, is_protective


@dataclass(frozen=True)
class Scorched:
    """A conductor of a run, and the fault that heats it most."""

    run: str
    protective: bool
    shock: Shock
    burnt: Burnt


@once
def scorched(studies: Studies, design: Design) -> list[Scorched]:
    """Of each run the ground wire and the live conductor that are worst off in a state; none where
    sources meet, because what flows then is anybody's guess."""
    worst: dict[tuple[str, bool], Scorched] = {}
    for shock, outcome, end, survive in _faults(studies, design):
        for item in burnt(studies.situation, survive, outcome, end):
            branch = studies.situation.circuit.branches[item.branch]
            key = branch.owner, is_protective(Pole(branch.pole))
            if key not in worst or item.least_mm2 > worst[key].burnt.least_mm2:
                worst[key] = Scorched(*key, shock, item)
    return list(worst.values())


@once
def releases(studies: Studies, design: Design) -> dict[str, set[str]]:
    """The breakers, by part, whose magnetic release decides whether runs survive a fault, with
    those runs: by the earliest that such a breaker may open they do, by the latest not."""
    situation = studies.situation
    found: dict[str, set[str]] = {}
    for _, outcome, end, survive in _faults(studies, design):
        resting = resting_on_release(situation, survive, outcome, end)
        if resting is not None:
            owner = situation.circuit.devices[resting[0]].owner
            runs = {situation.circuit.branches[item.branch].owner for item in resting[1]}
            found.setdefault(owner, set()).update(runs)
    return found


def _faults(
    studies: Studies, design: Design
) -> Iterator[tuple[Shock, Outcome, Ending, Mapping[int, Withstand]]]:
    """Every fault to metal at its weakest and strongest, with how it ends."""
    if studies.energised.meetings:
        return
    survive = withstands(design, studies.situation)
    for shock in shocks(studies, design):
        yield shock, shock.fault.weak, shock.weak, survive
        yield shock, shock.fault.strong, shock.strong, survive
