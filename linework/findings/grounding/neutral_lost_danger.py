"""A neutral of both legs whose loss would put too much voltage on loads.

What is checked
    In every state: each neutral conductor by which alone loads and outlets of
    both legs return, opened. The voltage then at every drawn load, and between
    touchable metal and earth or bodies where these are drawn. And whether it is
    joined at the terminals of an outlet, so that taking out or losing
    this outlet opens it for all beyond.
Why it matters
    The loads of the two legs then lie in series on twice the voltage and share
    it as they please: the smaller ones burn, and no device opens.
How to cure it
    Splice a neutral of both legs in a box and bring only a tail of it to each
    outlet; make its joints well, and look at them when lamps turn bright.
Limits
    Any feeder of two legs would do so, and is none the worse for it: its loss
    is a note, with the joint that matters most. Only the neutral spliced
    through an outlet is a warning. Loads are taken as impedances; what is
    plugged in later counts as nothing.
Sources
    NFPA 70 (2023) 300.13(B); 110 % of the rated voltage and 50 V on metal:
    common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

from linework.circuit.network import NotSolved
from linework.design import Run, pole_map
from linework.design.names import natural
from linework.findings.model import Evidence, Hit, Level, Outcome
from linework.findings.rule import Rule
from linework.findings.view import Look, View
from linework.study.answers.trust import loaded_or_none
from linework.study.neutral.lost import Lost, lost_neutrals
from linework.study.wires.ratings import rules_of
from linework.wiring import Pole
from linework.words import N_

SPLICED = N_(
    "The {neutral} of both legs is spliced at {at}: without it {beyond} lie in series on"
    " {volts} V. Splice it in the box and bring a tail to the {outlet}."
)
LOSS = N_(
    "If the {neutral} of {run} opened, {load} would get {volts} V; it is made for {rated} V."
    " Make its joints well."
)

METAL = N_(
    "If the {neutral} of {run} opened, {metal} would stand at {volts} V to earth or other metal."
    " Make its joints well."
)

MOST = 1.10
"""Voltage over the rated one that a load stands (common practice, no source)."""


def check(view: View) -> Iterator[Outcome]:
    """One warning for each outlet; one note for each source, at the conductor that matters most."""
    for look in view.settled_looks:
        if loaded_or_none(look.studies) is None:
            continue
        try:
            lost = lost_neutrals(look.studies.situation)
        except NotSolved:  # told by "not-analysed"
            continue
        spliced = list(_spliced(view, look, lost))
        yield from spliced
        yield from _losses(view, look, lost)
        yield from _on_metal(view, look, lost)


def _spliced(view: View, look: Look, lost: list[Lost]) -> Iterator[Hit]:
    """Outlets at which the neutral of both legs goes on to others."""
    circuit = look.studies.circuit
    seen: set[str] = set()
    for each in lost:
        run = view.run(circuit.branches[each.branch].owner)
        outlet = None if run is None else _passed_on(view, run, each)
        if outlet is None or outlet in seen:
            continue
        seen.add(outlet)
        beyond = sorted({view.name(t.owner) for t in each.takers}, key=natural)
        volts = 2.0 * circuit.sources[each.takers[0].system.source].data.volts
        yield look.hit(
            Level.WARNING,
            (outlet,),
            SPLICED,
            {
                "at": view.name(outlet),
                "beyond": ", ".join(beyond),
                "volts": f"{volts:.0f}",
            },
            (
                Evidence(N_("voltage between the legs"), volts, "voltage"),
                Evidence(N_("parts that return there"), float(len(beyond)), "count"),
            ),
            touches=frozenset({circuit.branches[each.branch].owner}),
            clause=view.clause({"NA": "300.13(B)"}),
        )


def _passed_on(view: View, run: Run, lost: Lost) -> str | None:
    """The outlet among the takers at which a run ends and from which another takes the neutral on;
    what brings nothing but the other leg does not."""
    takers = {t.owner for t in lost.takers}
    for end in (run.a, run.b):
        if end.part in takers and view.kind(end.part).receptacle:
            others = [r for r in view.design.runs_at(end.part) if r.id != run.id]
            if any(_has_neutral(view, other) for other in others):
                return end.part
    return None


def _has_neutral(view: View, run: Run) -> bool:
    return any(Pole.N in pair for pair in pole_map(view.design, run))


def _losses(view: View, look: Look, lost: list[Lost]) -> Iterator[Hit]:
    """Of each source the neutral whose loss puts most on a load, beyond what that stands."""
    circuit = look.studies.circuit
    worst: dict[str, tuple[float, Lost, int]] = {}
    for each in lost:
        for index, volts in each.load_v.items():
            load = circuit.loads[index]
            share = volts / load.data.volts
            owner = each.takers[0].system.owner
            if load.data.own and share > max(MOST, worst.get(owner, (0.0,))[0] + 1e-3):
                worst[owner] = (share, each, index)
    for owner, (_, each, index) in worst.items():
        load, run = circuit.loads[index], circuit.branches[each.branch].owner
        volts = each.load_v[index]
        yield look.hit(
            Level.NOTE,
            (run,),
            LOSS,
            {
                "run": view.name(run),
                "load": view.name(load.owner),
                "volts": f"{volts:.0f}",
                "rated": f"{load.data.volts:g}",
            },
            (
                Evidence(N_("voltage at it then"), volts, "voltage"),
                Evidence(N_("made for"), load.data.volts, "voltage"),
            ),
            touches=frozenset({owner, load.owner}),
        )


def _on_metal(view: View, look: Look, lost: list[Lost]) -> Iterator[Hit]:
    """Of each source the neutral whose loss puts most on metal, beyond what may be touched."""
    circuit = look.studies.circuit
    limit_v = rules_of(view.design).touch_limit_v(False, view.design.settings.wet).value
    worst: dict[str, tuple[float, Lost, int]] = {}
    for each in lost:
        owner = each.takers[0].system.owner
        for index, volts in each.metal_v.items():
            if volts > max(limit_v, worst.get(owner, (0.0,))[0] + 1e-3):
                worst[owner] = (volts, each, index)
    for owner, (volts, each, index) in worst.items():
        run, metal = circuit.branches[each.branch].owner, circuit.metals[index].owner
        yield look.hit(
            Level.NOTE,
            (run,),
            METAL,
            {"run": view.name(run), "metal": view.name(metal), "volts": f"{volts:.0f}"},
            (
                Evidence(N_("voltage on metal then"), volts, "voltage"),
                Evidence(N_("limit"), limit_v, "voltage"),
            ),
            touches=frozenset({owner, metal}),
        )


RULE = Rule(
    "neutral-lost-danger",
    N_("Loss of a {neutral} of both legs"),
    check,
    {"NA": "practice", "INT": "524"},
)
