"""Conductors that a fault to metal heats beyond their limit, gathered once for two rules."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from linework.findings.grounding._shocks import Shock, shocks
from linework.findings.view import Look, View
from linework.study.heat import Burnt, burnt, withstands
from linework.wiring import Pole, is_protective


@dataclass(frozen=True)
class Scorched:
    """A conductor of a run, and the fault that heats it most."""

    run: str
    protective: bool
    shock: Shock
    burnt: Burnt


def scorched(view: View, look: Look) -> list[Scorched]:
    """Of each run the ground wire and the live conductor that are worst off in a state."""
    return view.once(("scorched", id(look)), lambda: list(_scorched(view, look)))


def _scorched(view: View, look: Look) -> Iterator[Scorched]:
    if look.meeting:
        return
    situation = look.studies.situation
    survive = withstands(view.design, situation)
    worst: dict[tuple[str, bool], Scorched] = {}
    for shock in shocks(view, look):
        for outcome, end in ((shock.fault.weak, shock.weak), (shock.fault.strong, shock.strong)):
            for item in burnt(situation, survive, outcome, end):
                branch = situation.circuit.branches[item.branch]
                key = branch.owner, is_protective(Pole(branch.pole))
                if key not in worst or item.least_mm2 > worst[key].burnt.least_mm2:
                    worst[key] = Scorched(*key, shock, item)
    yield from worst.values()
