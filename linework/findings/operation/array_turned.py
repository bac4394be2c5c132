"""A solar array that is turned round in its string.

What is checked
    By day: arrays that are drawn one by one and wired in series, with nothing
    else on what joins two of them. Where plus meets plus, or minus meets minus,
    one of them lies the wrong way round: the one that lies against what the
    string feeds, else against most of the others.
Why it matters
    Its voltage is taken off that of the others, so that two are missing: the
    battery is charged badly or not at all. The current of the others goes
    through its cells the way it does through any load, and heats it; its bypass
    diodes lie the other way and do not help.
How to cure it
    Exchange plus and minus of that one, covered or by night; then measure the
    open voltage of the string before it is joined to the controller.
Limits
    One symbol of several modules counts as one: how they are joined inside it is
    not drawn. A whole string that is turned round is polarity-reversed.
Sources
    Sums of the voltages; IEC 62446-1, the test of polarity and open voltage of
    each string, from memory.
"""

from __future__ import annotations

from collections.abc import Iterator

from linework.design import PoleMap, Run, pole_map
from linework.findings.mending import change_poles, together
from linework.findings.model import Evidence, Hit, Level, Mend, Outcome
from linework.findings.rule import Rule
from linework.findings.view import Look, View
from linework.kinds.solar_array import STANDARD_C, at_c
from linework.study.ways.modules import Opposed, opposed
from linework.wiring import Pole
from linework.words import N_, say

ROUND = N_(
    "{array} is turned round in its string: its voltage is taken off that of the others. {string}"
    " in series give {volts} V open at 25 °C instead of {rated} V. The current of the others heats"
    " what is turned; its bypass diodes do not help."
)
ONE_OF = N_(
    "{array} lie against one another, so that their voltages cancel: some are turned round. In"
    " series they give {volts} V open at 25 °C instead of {rated} V."
)


def check(view: View) -> Iterator[Outcome]:
    """One hit for each string."""
    for look in view.settled_looks:
        for each in opposed(look.studies.situation):
            yield _hit(view, look, each)


def _owners(look: Look, arrays: tuple[int, ...]) -> tuple[str, ...]:
    return tuple(look.studies.circuit.sources[i].owner for i in arrays)


def _hit(view: View, look: Look, each: Opposed) -> Hit:
    string, turned = _owners(look, each.arrays), _owners(look, each.turned)
    volts = {owner: at_c(view.values(owner), STANDARD_C) for owner in string}
    rated = sum(volts.values())
    given = rated - 2.0 * sum(volts[owner] for owner in turned)
    named = tuple(sorted(turned if each.sure else string, key=view.order))
    words = {"array": view.names(named), "string": view.names(string)}
    return look.hit(
        Level.WARNING,
        named,
        ROUND if each.sure else ONE_OF,
        words | {"volts": f"{given:.3g}", "rated": f"{rated:.3g}"},
        (
            Evidence(N_("open voltage of the string"), given, "voltage"),
            Evidence(N_("with all the right way round"), rated, "voltage"),
        ),
        explains=_behind(look, each),
        mend=_mend(view, named) if each.sure else None,
    )


def _behind(look: Look, each: Opposed) -> frozenset[str]:
    """What hangs on the string: the converter between its ends, and what that feeds."""
    situation, circuit = look.studies.situation, look.studies.circuit
    label, sources = situation.conductive, circuit.sources
    ends = {label[n] for i in each.arrays for n in (sources[i].plus, sources[i].minus)}
    found = set(_owners(look, each.arrays))
    for conversion in circuit.conversions:
        load, output = circuit.loads[conversion.load], sources[conversion.source]
        if {label[load.a], label[load.b]} <= ends:
            found |= {
                conversion.owner,
                *situation.parts_on.get(situation.clusters[output.plus], ()),
            }
    return frozenset(found)


def _mend(view: View, turned: tuple[str, ...]) -> Mend | None:
    """Plus and minus of each exchanged where its runs end."""
    title = say("Exchange plus and minus of {what}", what=view.names(turned))
    runs = {run.id: run for array in turned for run in view.design.runs_at(array, "dc")}
    mends = [change_poles(title, run.id, _exchanged(view, run, turned)) for run in runs.values()]
    return together(title, say("turn {what} round", what=view.names(turned)), mends)


def _exchanged(view: View, run: Run, turned: tuple[str, ...]) -> PoleMap:
    return tuple(
        (_other(p) if run.a.part in turned else p, _other(q) if run.b.part in turned else q)
        for p, q in pole_map(view.design, run)
    )


def _other(pole: Pole) -> Pole:
    return {Pole.POS: Pole.NEG, Pole.NEG: Pole.POS}.get(pole, pole)


RULE = Rule(
    "array-turned",
    N_("Solar array turned round in its string"),
    check,
    {"NA": "practice", "INT": "practice"},
)
