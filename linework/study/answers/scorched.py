"""Study: the conductors that a fault to metal heats beyond their limit."""

from __future__ import annotations

from dataclasses import dataclass

from linework.design import Design
from linework.study.answers.shocks import Shock, shocks
from linework.study.once import once
from linework.study.shorts.heat import Burnt, burnt, withstands
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
    if studies.energised.meetings:
        return []
    situation = studies.situation
    survive = withstands(design, situation)
    worst: dict[tuple[str, bool], Scorched] = {}
    for shock in shocks(studies, design):
        for outcome, end in ((shock.fault.weak, shock.weak), (shock.fault.strong, shock.strong)):
            for item in burnt(situation, survive, outcome, end):
                branch = situation.circuit.branches[item.branch]
                key = branch.owner, is_protective(Pole(branch.pole))
                if key not in worst or item.least_mm2 > worst[key].burnt.least_mm2:
                    worst[key] = Scorched(*key, shock, item)
    return list(worst.values())
