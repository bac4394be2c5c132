"""Load current on a ground wire.

What is checked
    In every state, with the drawn loads on: the current on every ground wire,
    alternating and direct. What brings direct current to or from a chassis as
    its return is no ground wire.
Why it matters
    A ground wire that carries load current lifts touchable metal off ground,
    and is not there when it is needed. Where it is the only way back, opening
    it puts the full voltage on metal. Direct current is large enough to burn it.
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

from linework.circuit.conductors import pole_size
from linework.codes import CodesError
from linework.design.names import natural
from linework.findings.model import Evidence, Hit, Level, Outcome
from linework.findings.rule import Rule
from linework.findings.view import Look, View
from linework.study.answers.trust import loaded_or_none
from linework.study.loads.loaded import Loaded
from linework.study.slack import exceeds
from linework.study.ways.paths import fed_parts
from linework.wiring import Pole, is_ungrounded
from linework.words import N_

SHARED = N_("{where}: {amps} A of load current run in the {ground_wire} on {source}.")
ALONE = N_(
    "{where}: the {ground_wire} is the way back of {source}, {amps} A. Opened, it puts the full"
    " voltage on metal."
)

DIRECT = N_(
    "{where}: {amps} A of direct current run in the {ground_wire}, on {source}. It is no conductor"
    " of that circuit: find where its minus meets metal a second time, or is open."
)
BURNING = N_(
    "{where}: {amps} A of direct current run in the {ground_wire}, on {source}; it carries {most} A"
    " at the most. Find where the minus of that circuit meets metal a second time, or is open."
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
            yield from _direct(view, look, loaded)


def _look(view: View, look: Look, loaded: Loaded) -> Iterator[Hit]:
    amps = _on_ground(view, look, loaded, direct=False)
    if not amps:
        return
    sources = look.studies.circuit.sources
    given = {i: abs(a) for i, a in loaded.source_a.items() if sources[i].data.hertz > 0.0}
    owners = tuple(sorted({sources[i].owner for i, a in given.items() if a > _LEAKAGE_A}))
    worst = max(amps.values())
    carriers = tuple(sorted(run for run, a in amps.items() if a >= 0.5 * worst))
    alone = any(amps[run] >= _ALL * _to_come_back(look, loaded, run) for run in carriers)
    fed = {
        part for owner in owners for part in fed_parts(look.studies.situation, owner, only_ac=True)
    }
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


def _direct(view: View, look: Look, loaded: Loaded) -> Iterator[Hit]:
    """One hit for each ground wire with direct current; a danger where it is too much for it."""
    sources = look.studies.circuit.sources
    given = {sources[i].owner for i in loaded.source_a if sources[i].data.hertz == 0.0}
    for run, amps in sorted(_on_ground(view, look, loaded, direct=True).items()):
        most = _ampacity(view, run)
        over = exceeds(amps, most)
        names = {
            "where": view.name(run),
            "amps": f"{amps:.3g}",
            "source": ", ".join(sorted(map(view.name, given), key=natural)),
        }
        yield look.hit(
            Level.DANGER if over else Level.WARNING,
            (run,),
            BURNING if over else DIRECT,
            names | ({"most": f"{most:.3g}"} if over else {}),
            (Evidence(N_("current on the {ground_wire}"), amps, "current"),),
            touches=frozenset(given),
            clause=view.clause({"NA": "250.6"}),
        )


def _ampacity(view: View, run_id: str) -> float:
    """Of a ground wire in ampere; infinite where it is not known."""
    run = view.run(run_id)
    if run is None or not pole_size(view.run_values(run_id), Pole.PE):
        return math.inf
    try:
        return view.ampacities.of_pole(run, Pole.PE).value
    except CodesError:
        return math.inf


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


def _on_ground(view: View, look: Look, loaded: Loaded, *, direct: bool) -> dict[str, float]:
    """Run id -> direct or alternating current on its ground wire, above leakage."""
    found: dict[str, float] = {}
    branches = look.studies.circuit.branches
    for hertz, flows in loaded.branch_a.items():
        for i, amps in flows.items() if (hertz == 0.0) == direct else ():
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
        "negative-bond-wrong",
    ),
    hangs_on=("metal-live", "conductors-shorted"),
)
