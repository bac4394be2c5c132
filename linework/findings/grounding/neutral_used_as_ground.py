"""A ground contact or metal case that is fed from the neutral.

What is checked
    In every state: whether touchable metal of an AC part reaches the ground of
    its source only through a run that joins it to the neutral.
Why it matters
    Every instrument reads correct; the day the neutral opens, the metal stands
    at the full voltage, and in use it carries the drop of the neutral.
How to cure it
    Run a ground wire to the source's ground; two wires without one need a
    ground-fault device and the mark "no equipment ground".
Limits
    A link inside a panel or source is judged by the rules on bonds.
Sources
    NFPA 70 (2023) 250.142(B), 406.4(D)(2); IEC 60364-5-54 543.4.
"""

from __future__ import annotations

from collections.abc import Iterator

from linework.circuit.model import MetalAt
from linework.design import Design, Run, pole_map
from linework.findings.mending import change_poles
from linework.findings.model import Evidence, Hit, Level, Mend, Outcome
from linework.findings.rule import Rule
from linework.findings.view import Look, View
from linework.study.neutral.metal import crossed_with_ground, feeders, reaches
from linework.wiring import Pole, is_protective
from linework.words import N_, say

MESSAGE = N_(
    "{where} joins the {neutral} to the {ground} of {metal}, which has no {ground_wire} of its own."
    " Instruments read correct; when the {neutral} opens, this metal stands at {volts} V."
)

Groups = dict[tuple[int, tuple[str, ...]], list[MetalAt]]


def check(view: View) -> Iterator[Outcome]:
    """One hit for all metal that hangs on one neutral."""
    for look in view.settled_looks:
        yield from _look(view, look)


def _look(view: View, look: Look) -> Iterator[Hit]:
    situation = look.studies.situation
    joints = crossed_with_ground(view.design, situation, neutral=True)
    if not joints:
        return
    apart = situation.metallic_without(frozenset(joints))
    groups: Groups = {}
    for metal in situation.circuit.metals:
        owners = feeders(situation, metal)
        if owners and not reaches(situation, apart, metal.node, owners):
            groups.setdefault((apart[metal.node], owners), []).append(metal)
    for (label, owners), metals in groups.items():
        ends = {b.owner for b in joints.values() if label in (apart[b.a], apart[b.b])}
        if ends:
            yield _hit(view, look, tuple(sorted(ends)), owners, metals)


def _hit(
    view: View, look: Look, runs: tuple[str, ...], owners: tuple[str, ...], metals: list[MetalAt]
) -> Hit:
    parts = sorted({m.owner for m in metals})
    volts = max(s.data.volts for s in look.studies.circuit.sources if s.owner in owners)
    return look.hit(
        Level.DANGER,
        runs,
        MESSAGE,
        {
            "where": ", ".join(view.name(run) for run in runs),
            "metal": ", ".join(view.name(part) for part in parts),
            "volts": f"{volts:g}",
        },
        (
            Evidence(N_("voltage that metal can take"), volts, "voltage"),
            Evidence(N_("metal parts concerned"), float(len(metals)), "count"),
        ),
        touches=frozenset(parts),
        explains=frozenset(parts),
        mend=_mend(view, runs),
    )


def _mend(view: View, runs: tuple[str, ...]) -> Mend | None:
    """Neutral to neutral and ground to ground in a single run."""
    run = view.run(runs[0]) if len(runs) == 1 else None
    if run is None:
        return None

    said = N_("Put {neutral} on {neutral} and {ground_wire} on {ground} in {what}")
    title = say(said, what=view.name(run.id), family=view.family)
    return change_poles(title, run.id, _straight(view.design, run))


def _straight(design: Design, run: Run) -> tuple[tuple[Pole, Pole], ...]:
    """The same conductors with the crossed ones straight."""
    pairs = [
        (Pole.PE, Pole.PE) if is_protective(p) != is_protective(q) and p is Pole.N else (p, q)
        for p, q in pole_map(design, run)
    ]
    pairs = [(Pole.N, Pole.N) if (p, q) == (Pole.PE, Pole.N) else (p, q) for p, q in pairs]
    return tuple(dict.fromkeys(pairs))


RULE = Rule(
    "neutral-used-as-ground",
    N_("{Neutral} used as {ground}"),
    check,
    {"NA": "250.142(B)", "INT": "543.4"},
    causes=("neutral-missing",),
)
