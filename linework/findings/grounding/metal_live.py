"""Touchable metal that stands at a voltage although nothing has failed.

What is checked
    In every state, with the drawn loads on: the current through a person of
    1,000 ohm between each piece of touchable metal on AC circuits and earth or
    a body, or the frame of its source where neither is drawn; capacitance and
    leakage drive it too.
Why it matters
    Who touches this metal and the ground closes the circuit; no breaker sees it.
    From 5 mA on some cannot let go, from 10 mA on it is a danger. What leaks
    from filters into metal whose ground wire is open is felt as a tingle: the
    same metal takes the full voltage at the first fault.
How to cure it
    Find where a live conductor is joined to the ground wire or exchanged with
    it, or where the ground wire is open.
Limits
    What one broken conductor more would do is not judged here. Currents of less
    than 5 mA are told only of metal that floats above the touch limit.
Sources
    NFPA 70 (2023) 250.4(A)(5); IEC 60364-4-41 411; IEC 60479-1 (its currents
    from memory); the 1,000 ohm are common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from linework.circuit.model import MetalAt
from linework.circuit.network import IN_USE
from linework.codes import person_ohm, stated
from linework.design.names import natural
from linework.findings.model import Evidence, Hit, Level, Outcome
from linework.findings.rule import Rule
from linework.findings.view import Look, View
from linework.study.answers.downstream import downstream, ungrounded, watching
from linework.study.answers.trust import loaded_or_none
from linework.study.neutral.metal import crossed_with_ground, ground_nodes
from linework.study.situation import Situation, System
from linework.study.tester import across
from linework.study.ways.paths import fed_parts
from linework.study.wires.ratings import rules_of
from linework.words import N_

CROSSED = N_(
    "Metal at {metal} stands at {volts} V in normal use: {where} joins a live conductor to it."
    " Touching it can kill."
)
LIVE = N_("{metal} stands at {volts} V in normal use. Touching it can kill.")


HOLDS = N_(
    "Metal at {metal} stands at {volts} V in normal use: {amps} mA flow through who touches it and"
    " the {ground}. With that a hand may not be able to let go."
)
FLOATS = N_(
    "Metal at {metal} floats at {volts} V, for what leaks into it has no other way: {amps} mA flow"
    " through who touches it and the {ground}. That is felt, and a fault would put the full voltage"
    " there. Look for the {ground_wire} that is open."
)
TINGLES = N_(
    "Metal at {metal} stands at {volts} V in normal use: {amps} mA flow through who touches it and"
    " the {ground}. That is felt."
)


@dataclass(frozen=True)
class _Touch:
    """What a person who touches metal and ground gets: volt before and while touched, ampere."""

    open_v: float
    volts: float
    amps: float


_NOTHING = _Touch(0.0, 0.0, 0.0)


SHORT = N_(
    "{where} joins the {hot} of {source} to its {ground_wire}: a short. The device before it opens"
    " at once; until it does, metal is live."
)


def check(view: View) -> Iterator[Outcome]:
    """One hit for all live metal that hangs together."""
    limit_v = rules_of(view.design).touch_limit_v(False, view.design.settings.wet).value
    for look in view.settled_looks:
        if loaded_or_none(look.studies) is not None:
            yield from _look(view, look, limit_v)


def _look(view: View, look: Look, limit_v: float) -> Iterator[Hit]:
    situation = look.studies.situation
    together: dict[int, list[MetalAt]] = {}
    for metal in situation.circuit.metals:
        together.setdefault(situation.metallic[metal.node], []).append(metal)
    grounds = _touched_too(situation, limit_v)
    for label, metals in together.items():
        cluster = situation.clusters
        apart = [(m.node, n) for m in metals for n in grounds if cluster[n] != cluster[m.node]]
        touches = [_touch(situation, *pair) for pair in apart]
        worst = max(touches, key=lambda touch: (touch.amps, touch.open_v), default=_NOTHING)
        level = _level(worst, limit_v)
        if level is not None:
            yield _hit(view, look, label, metals, worst, level, limit_v)
    yield from _shorts(view, look)


def _shorts(view: View, look: Look) -> Iterator[Hit]:
    """Live conductors that end on metal which other wires ground: a short, as long as no device
    opens, and all else that is told of this circuit follows from it."""
    situation = look.studies.situation
    shorted: dict[str, set[System]] = {}
    for branch in crossed_with_ground(view.design, situation, neutral=False).values():
        for system in (*situation.feeds(branch.a), *situation.feeds(branch.b)):
            if system.is_ac and _in_a_short(situation, system):
                shorted.setdefault(branch.owner, set()).add(system)
    for run, systems in sorted(shorted.items()):
        owners = {system.owner for system in systems}
        volts = max(situation.circuit.sources[s.source].data.volts for s in systems)
        yield look.hit(
            Level.DANGER,
            (run,),
            SHORT,
            {
                "where": view.name(run),
                "source": ", ".join(sorted(map(view.name, owners), key=natural)),
            },
            (Evidence(N_("voltage of the source"), volts, "voltage"),),
            touches=frozenset().union(*(fed_parts(situation, owner) for owner in owners)),
            explains=frozenset({run, *owners, *_ends(view, run)}).union(
                *(fed_parts(situation, owner) for owner in owners)
            ),
        )


def _ends(view: View, run_id: str) -> tuple[str, ...]:
    run = view.run(run_id)
    return () if run is None else (run.a.part, run.b.part)


def _in_a_short(situation: Situation, system: System) -> bool:
    """Whether metal joins the hot conductor of a winding to its return."""
    source = situation.circuit.sources[system.source]
    return situation.metallic[source.plus] == situation.metallic[source.minus]


def _touched_too(situation: Situation, limit_v: float) -> list[int]:
    """Earth and bodies; where neither is drawn, the frames of the sources that are on.

    A body that is itself live to earth is what a finding is about, not what it is held against.
    """
    grounds = [n for owner in situation.owners for n in ground_nodes(situation.circuit, owner)]
    found = list(dict.fromkeys(situation.circuit.anchors or grounds))
    earth = situation.circuit.earth
    if earth is None:
        return found
    return [n for n in found if n == earth or _level(_touch(situation, n, earth), limit_v) is None]


def _touch(situation: Situation, metal: int, ground: int) -> _Touch:
    """Between two nodes; nothing where less stands open than could drive what holds a hand."""
    person = person_ohm().value
    for hertz in situation.hertz:
        if hertz > 0.0:
            net = situation.network(hertz, IN_USE)
            joined = net.islands.label[metal] == net.islands.label[ground]
            open_v = abs(complex(net.open_volts[metal] - net.open_volts[ground]))
            if joined and net.islands.live(metal) and open_v > _amps("person_holds_some") * person:
                volts = across(situation, [(metal, ground)], person)[0]
                return _Touch(open_v, volts, volts / person)
    return _NOTHING


def _amps(key: str) -> float:
    return stated("common", key).value / 1000.0


def _level(touch: _Touch, limit_v: float) -> Level | None:
    """By what flows; what is only felt counts where the metal floats above the touch limit."""
    if touch.amps >= _amps("person_holds"):
        return Level.DANGER
    if touch.amps >= _amps("person_holds_some"):
        return Level.WARNING if touch.open_v > limit_v else Level.NOTE
    if touch.open_v > limit_v and touch.amps >= _amps("person_feels"):
        return Level.NOTE
    return None


def _hit(
    view: View,
    look: Look,
    label: int,
    metals: list[MetalAt],
    touch: _Touch,
    level: Level,
    limit_v: float,
) -> Hit:
    situation = look.studies.situation
    parts = tuple(sorted({m.owner for m in metals}))
    joints = crossed_with_ground(view.design, situation, neutral=False).values()
    runs = tuple(sorted({b.owner for b in joints if situation.metallic[b.a] == label}))
    bodies = tuple(sorted({m.owner for m in metals if m.data.body}))
    return look.hit(
        level,
        (*runs, *bodies) if runs else parts,
        _message(touch, level, bool(runs), limit_v),
        {
            "metal": ", ".join(view.name(part) for part in parts),
            "where": ", ".join(view.name(run) for run in runs),
            "volts": f"{(touch.volts if touch.volts > limit_v else touch.open_v):.0f}",
            "amps": f"{1000.0 * touch.amps:.2g}",
        },
        (
            Evidence(N_("voltage with a person in between"), touch.volts, "voltage"),
            Evidence(N_("voltage before it is touched"), touch.open_v, "voltage"),
            Evidence(N_("current through a person"), touch.amps, "current"),
        ),
        touches=frozenset({*parts, *situation.owners}),
        explains=_hanging(situation, runs, parts),
    )


def _message(touch: _Touch, level: Level, crossed: bool, limit_v: float) -> str:
    if touch.volts > limit_v:
        return CROSSED if crossed else LIVE
    if level is Level.DANGER:
        return HOLDS
    return FLOATS if touch.open_v > limit_v else TINGLES


def _hanging(situation: Situation, runs: tuple[str, ...], parts: tuple[str, ...]) -> frozenset[str]:
    """What gets its power or its ground through runs in which they are exchanged."""
    if not runs:
        return frozenset()
    lost = downstream(situation, runs) | ungrounded(situation, runs)
    return lost | watching(situation, runs) | {*parts}


RULE = Rule(
    "metal-live",
    N_("Touchable metal is live"),
    check,
    {"NA": "250.4(A)(5)", "INT": "411"},
    causes=("sources-meet", "ground-open", "chassis-unbonded"),
    hangs_on=("polarity-reversed", "neutral-missing", "conductors-shorted"),
)
