"""Load current on a ground wire.

What is checked
    In every state, with the drawn loads on: the current on every ground wire
    and bonding jumper of AC circuits.
Why it matters
    A ground wire that carries load current lifts touchable metal off ground,
    and is not there when it is needed. Where it is the only way back, opening
    it puts the full voltage on metal.
How to cure it
    Find where neutral and ground meet a second time or are exchanged.
Limits
    Leakage of filters and cables stays below 30 mA and is not counted (common
    practice, no source). Where a doubled link explains the current it is
    listed under that.
Sources
    NFPA 70 (2023) 250.6, 250.142(B); IEC 60364-5-54.
"""

from __future__ import annotations

import math
from collections.abc import Iterator

from linework.findings.model import Evidence, Hit, Level, Outcome
from linework.findings.rule import Rule
from linework.findings.view import Look, View
from linework.study.answers.trust import loaded_or_none
from linework.study.loads.loaded import Loaded
from linework.study.ways.paths import fed_parts
from linework.wiring import Pole, is_ungrounded
from linework.words import N_

SHARED = N_("{where}: {amps} A of load current run in the {ground_wire} on {source}.")
ALONE = N_(
    "{where}: the {ground_wire} is the way back of {source}, {amps} A. Opened, it puts the full"
    " voltage on metal."
)

_LEAKAGE_A = 0.03
_ALL = 0.9
"""A ground wire that carries this share of what the hot conductors beside it take is their way
back."""


def check(view: View) -> Iterator[Outcome]:
    """One hit for each set of ground wires that carry the current of a source."""
    for look in view.settled_looks:
        loaded = loaded_or_none(look.studies)
        if loaded is not None:
            yield from _look(view, look, loaded)


def _look(view: View, look: Look, loaded: Loaded) -> Iterator[Hit]:
    amps = _on_ground(view, look, loaded)
    if not amps:
        return
    sources = look.studies.circuit.sources
    given = {i: abs(a) for i, a in loaded.source_a.items() if sources[i].data.hertz > 0.0}
    owners = tuple(sorted({sources[i].owner for i, a in given.items() if a > _LEAKAGE_A}))
    worst = max(amps.values())
    carriers = tuple(sorted(run for run, a in amps.items() if a >= 0.5 * worst))
    alone = any(amps[run] >= _ALL * _to_come_back(look, loaded, run) for run in carriers)
    fed = {part for owner in owners for part in fed_parts(look.studies.situation, owner)}
    yield look.hit(
        Level.DANGER if alone else Level.WARNING,
        carriers,
        ALONE if alone else SHARED,
        {
            "where": ", ".join(view.name(run) for run in carriers),
            "amps": f"{worst:.3g}",
            "source": ", ".join(view.name(o) for o in owners),
        },
        (
            Evidence(N_("current on the {ground_wire}"), worst, "current"),
            Evidence(N_("current of the source"), max(given.values(), default=0.0), "current"),
        ),
        touches=frozenset({*owners, *fed}),
    )


def _to_come_back(look: Look, loaded: Loaded, run: str) -> float:
    """What the hot conductors of a run take away together and something has to bring back, in
    ampere; infinite for a run without one, such as a jumper."""
    found = math.inf
    for hertz, flows in loaded.branch_a.items():
        hot = [
            amps
            for i, amps in flows.items()
            for branch in (look.studies.circuit.branches[i],)
            if hertz > 0.0 and branch.owner == run and is_ungrounded(Pole(branch.pole))
        ]
        if hot and abs(sum(hot)) > _LEAKAGE_A:
            found = abs(sum(hot))
    return found


def _on_ground(view: View, look: Look, loaded: Loaded) -> dict[str, float]:
    """Run id -> alternating current on its ground wire, above leakage."""
    found: dict[str, float] = {}
    branches = look.studies.circuit.branches
    for hertz, flows in loaded.branch_a.items():
        for i, amps in flows.items() if hertz > 0.0 else ():
            branch = branches[i]
            on_ground = branch.pole == "PE" and view.run(branch.owner) is not None
            if on_ground and abs(amps) > _LEAKAGE_A:
                found[branch.owner] = max(found.get(branch.owner, 0.0), abs(amps))
    return found


RULE = Rule(
    "ground-carries-load",
    N_("Load current on a {ground_wire}"),
    check,
    {"NA": "250.6, 250.142(B)", "INT": "5-54"},
    causes=(
        "neutral-missing",
        "neutral-used-as-ground",
        "bond-doubled",
        "bond-at-wrong-place",
        "sources-meet",
        "transfer-poles-wrong",
    ),
)
