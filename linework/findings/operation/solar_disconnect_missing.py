"""A solar array that nothing cuts off from its controller.

What is checked
    By day: whether an array is joined to a charge controller, or to anything
    else that takes its current, past every switch and breaker; and whether a
    conductor of it that no metal is joined to stays joined there while the other
    is opened.
Why it matters
    It is live as long as light falls on it; under load a plug or fuse drawn
    from it leaves an arc standing.
How to cure it
    A switch marked for direct current and for the array's voltage on a cold
    day, between array and controller, in both poles where neither is grounded.
Limits
    A switch in one pole counts where the other is grounded; up to 60 V it is a
    note otherwise. A lead that is pulled out of a portable box counts in any case.
    Whether it stands the voltage is judged by
    "string voltage high"; whether it can be reached is not known.
Sources
    NFPA 70 (2023) 690.13, 690.15 (from memory; that all conductors that are not
    solidly grounded are opened at once, 690.13(E), as a summary of the 2020 edition
    says it, codebookcity.com); IEC 60364-7-712. The 60 V: of touch on direct current.
"""

from __future__ import annotations

from collections.abc import Iterator

from linework.circuit.model import Circuit, LiveSource, Load
from linework.circuit.series import ways_back
from linework.findings.mending import put_into
from linework.findings.model import Evidence, Hit, Level, Mend, Outcome
from linework.findings.rule import Rule
from linework.findings.view import Look, View
from linework.kinds import Answer, Remedy, remedy
from linework.kinds.solar_array import BRIGHT, open_v, short_a
from linework.quantity import write
from linework.study.slack import exceeds
from linework.study.ways.banks import rows
from linework.study.ways.openings import always_joined, opened_by_hand
from linework.words import N_, say

MESSAGE = N_(
    "No switch or breaker cuts {array} off from {where}: {volts} V stay on it as long as there is"
    " light."
)
ONE_POLE = N_(
    "What cuts {array} off from {where} opens one conductor only, and the other is not grounded: it"
    " stays joined, with up to {volts} V between it and what touches the opened one. Open both at"
    " once."
)
_MARKS_V = (60.0, 150.0, 300.0, 600.0, 1000.0, 1500.0)
TOUCHED_V = 60.0
"""Up to here nobody is hurt by direct current who touches it dry (IEC 60364-4-41 414, from memory:
120 V, half of that where it may be wet)."""
_MARKS_A = (16.0, 20.0, 32.0, 40.0, 63.0, 100.0, 125.0)
"""Usual markings of such switches (common practice, no source)."""


def check(view: View) -> Iterator[Outcome]:
    """One hit for each array."""
    told: set[str] = set()
    for look in view.settled_looks:
        barred = opened_by_hand(look.studies.situation)
        for _, source in look.studies.situation.active:
            if source.data.group.solar and source.owner not in told:
                found = _left(view, look, source, barred)
                told.update({source.owner} if found is not None else ())
                yield from () if found is None else (found,)


def _left(view: View, look: Look, source: LiveSource, barred: frozenset[int]) -> Hit | None:
    where = _joined(view, look, source, barred)
    if where:
        return _hit(view, look, source, where)
    half = _half_joined(view, look, source, barred)
    return _in_one_pole(view, look, source, half) if half else None


def _joined(view: View, look: Look, source: LiveSource, barred: frozenset[int]) -> tuple[str, ...]:
    """What is joined to an array for good, not by a lead that a hand pulls out of it."""
    plus, minus = always_joined(look.studies.situation, source, barred)
    circuit = look.studies.circuit
    joined = [x for x in circuit.loads if x.a in plus and x.b in minus]
    return tuple(sorted({x.owner for x in joined if not _pulled(view, circuit, x)}))


def _half_joined(
    view: View, look: Look, source: LiveSource, barred: frozenset[int]
) -> tuple[str, ...]:
    """Converters that an array feeds of which one conductor stays joined to it, without metal."""
    situation = look.studies.situation
    circuit, label, metal = situation.circuit, situation.conductive, set(situation.circuit.anchors)
    metal |= {each.node for each in circuit.metals}
    plus, minus = always_joined(situation, source, barred)
    grounded = {label[node] for node in metal}
    (own,) = (i for i, each in situation.active if each is source)
    ends = ways_back(situation, own, label)
    fed = [circuit.loads[c.load] for c in circuit.conversions]
    fed = [x for x in fed if label[x.a] == label[source.plus] and label[x.b] in ends]
    return tuple(
        sorted(
            x.owner
            for x in fed
            if (x.a in plus) != (x.b in minus)
            and label[x.a if x.a in plus else x.b] not in grounded
            and not _pulled(view, circuit, x)
        )
    )


def _in_one_pole(view: View, look: Look, source: LiveSource, where: tuple[str, ...]) -> Hit:
    volts = _row_v(view, look, source)
    return Hit(
        Level.WARNING if exceeds(volts, TOUCHED_V) else Level.NOTE,
        (source.owner,),
        ONE_POLE,
        {"array": view.name(source.owner), "where": view.names(where), "volts": f"{volts:.0f}"},
        (Evidence(N_("open-circuit voltage on the coldest day"), volts, "voltage"),),
        touches=frozenset(where),
    )


def _pulled(view: View, circuit: Circuit, load: Load) -> bool:
    own = {spot.terminal for spot in circuit.spots[load.a] if spot.part == load.owner}
    return bool(own & view.kind(load.owner).pulled)


def _row_v(view: View, look: Look, source: LiveSource) -> float:
    """The greatest open voltage in volt of an array and of those in series with it."""
    sources = look.studies.circuit.sources
    strings = ([sources[i].owner for i in s.cells] for s in rows(look.studies.situation))
    own = (each for each in strings if source.owner in each)
    return max(sum(open_v(view.values(array)).high for array in each) for each in own)


def _hit(view: View, look: Look, source: LiveSource, where: tuple[str, ...]) -> Hit:
    volts = _row_v(view, look, source)
    return Hit(
        Level.WARNING,
        (source.owner,),
        MESSAGE,
        {
            "array": view.name(source.owner),
            "where": ", ".join(view.name(o) for o in where),
            "volts": f"{volts:.0f}",
        },
        (Evidence(N_("open-circuit voltage on the coldest day"), volts, "voltage"),),
        touches=frozenset(where),
        mend=_mend(view, source, volts),
    )


def _mend(view: View, source: LiveSource, volts: float) -> Mend | None:
    """A two-pole switch in the array's only run, of the usual marking that stands it."""
    runs = view.design.runs_at(source.owner, "dc")
    amps = BRIGHT * BRIGHT * short_a(view.values(source.owner))
    mark_v = next((v for v in _MARKS_V if v >= volts), None)
    mark_a = next((a for a in _MARKS_A if a >= amps), None)
    if len(runs) != 1 or mark_v is None or mark_a is None:
        return None
    run, length = runs[0], view.run_values(runs[0].id).opt("length")
    if length is None:
        return None
    ratings: dict[str, Answer] = {
        "circuit": "dc",
        "rating": write(mark_a, "current"),
        "voltage": write(mark_v, "voltage"),
        "direct": "yes",
    }
    halves = (length / 2.0, length / 2.0)
    title = say(
        "Put a switch of {amps} A and {volts} V direct current into {run}",
        amps=f"{mark_a:g}",
        volts=f"{mark_v:g}",
        run=view.name(run.id),
    )
    return put_into(title, run, remedy(Remedy.ISOLATOR).key, ratings, halves)


RULE = Rule(
    "solar-disconnect-missing",
    N_("Nothing cuts the array off"),
    check,
    {"NA": "690.13", "INT": "712"},
)
