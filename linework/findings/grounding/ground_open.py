"""Touchable metal without a ground wire to its source.

What is checked
    In every state: each metal case, enclosure and ground contact of an outlet
    that a source feeds must be joined by metal to the ground terminal of that
    source, the frames of a solar array to the case of what it feeds. Whether
    the source itself is bonded is another question.
Why it matters
    A fault to this metal has no way back: it stands at the full voltage and
    nothing trips.
How to cure it
    Join the ground wire. Never from the neutral, never through a rod.
Limits
    Double-insulated loads need none; outlets marked "no equipment ground"
    behind a ground-fault device are a note. Frames of up to 60 V need none in
    vehicles and boats (practice). Arrays whose voltage can kill are "not
    checked" until it is given that something finds their first fault
    (690.41(B)).
Sources
    NFPA 70 (2023) 250.4(A)(5), 250.134, 406.4(D)(2), 690.43; IEC 60364-4-41
    411.3.
"""

from __future__ import annotations

from collections.abc import Iterator

from linework.circuit.model import MetalAt
from linework.design import Design, Run, pole_map, terminal_at
from linework.findings.grounding._frames import loose_frames
from linework.findings.grounding._soil import on_soil
from linework.findings.mending import change_poles, change_run
from linework.findings.model import Evidence, Hit, Level, Mend, Outcome
from linework.findings.rule import Rule
from linework.findings.view import Look, View
from linework.study.answers.sensors import guarded
from linework.study.answers.services import unlinked_services
from linework.study.neutral.metal import feeders, grounded_at, hanging_on, reaches
from linework.study.situation import Situation
from linework.wiring import Pole, is_ungrounded
from linework.words import N_, say

MESSAGE = N_(
    "{where}: the {ground_wire} does not reach {source}. {metal} would stand at the full voltage"
    " after a fault, and nothing would trip."
)
BY_BODY = N_(
    "{where}: {metal} reaches {source} only through the chassis or hull. A fault is cleared, but a"
    " body is no {ground_wire}: run one with the circuit."
)
MARKED = N_(
    "{where} has no {ground_wire}; it is marked so and lies behind a ground-fault device, which"
    " acts without one. Some equipment still needs a ground."
)

Groups = dict[tuple[int, tuple[str, ...]], list[MetalAt]]
"""Metal by what it hangs together with and by the sources that feed its parts."""


def check(view: View) -> Iterator[Outcome]:
    """One hit for each piece of metal that is cut off, all that hangs together as one."""
    for look in view.settled_looks:
        yield from _look(view, look)
        yield from loose_frames(view, look)


def _look(view: View, look: Look) -> Iterator[Hit]:
    situation = look.studies.situation
    cut: Groups = {}
    by_body: Groups = {}
    told = {
        found.metal for found in unlinked_services(look.studies, view.design)
    }  # by "bond-missing"
    told |= on_soil(view, look)  # by "rod-as-return"
    for metal in situation.circuit.metals:
        owners = feeders(situation, metal)
        if not owners:
            continue
        if situation.metallic[metal.node] in told:
            continue
        if not reaches(situation, situation.metallic, metal.node, owners):
            cut.setdefault((situation.metallic[metal.node], owners), []).append(metal)
        elif not reaches(situation, situation.wired, metal.node, owners):
            by_body.setdefault((situation.wired[metal.node], owners), []).append(metal)
    for (label, owners), metals in by_body.items():
        yield _hit(view, look, situation.wired, label, owners, metals)
    for (label, owners), metals in cut.items():
        excused = [m for m in metals if _excused(view, look, m)]
        if len(excused) == len(metals):
            yield _marked(view, look, metals)
        else:
            yield _hit(view, look, situation.metallic, label, owners, metals)


def _excused(view: View, look: Look, metal: MetalAt) -> bool:
    """Whether it is a marked outlet behind a ground-fault device, or plugged into nothing else."""
    outlets = [seat.host for seat in view.design.seats_of(metal.owner)] or [metal.owner]
    if view.kind(metal.owner).receptacle:
        outlets = [metal.owner]
    return all(_marked_and_guarded(view, look, outlet) for outlet in outlets)


def _marked_and_guarded(view: View, look: Look, outlet: str) -> bool:
    if not view.kind(outlet).receptacle or view.values(outlet).pick("marked") != "no_ground":
        return False
    faces = [f for f in look.studies.circuit.faces if f.owner == outlet]
    situation = look.studies.situation
    hot = [n for face in faces for pole, n in face.nodes.items() if is_ungrounded(Pole(pole))]
    return all(
        any(guarded(situation, sensor, node) for sensor in situation.circuit.sensors)
        for node in hot
    )


def _marked(view: View, look: Look, metals: list[MetalAt]) -> Hit:
    outlets = tuple(sorted({m.owner for m in metals if view.kind(m.owner).receptacle}))
    names = ", ".join(view.name(o) for o in outlets)
    count = (Evidence(N_("outlets concerned"), float(len(outlets)), "count"),)
    return look.hit(
        Level.NOTE,
        outlets,
        MARKED,
        {"where": names},
        count,
    )


def _hit(
    view: View,
    look: Look,
    labels: list[int],
    label: int,
    owners: tuple[str, ...],
    metals: list[MetalAt],
) -> Hit:
    by_body = labels is look.studies.situation.wired
    parts = tuple(sorted({m.owner for m in metals}))
    runs = tuple(sorted(_gaps(view, look.studies.situation, labels, label)))
    subjects = runs or parts
    volts = max(s.data.volts for s in look.studies.circuit.sources if s.owner in owners)
    return look.hit(
        Level.WARNING if by_body else Level.DANGER,
        subjects,
        BY_BODY if by_body else MESSAGE,
        {
            "where": ", ".join(view.name(s) for s in subjects),
            "source": ", ".join(view.name(o) for o in owners),
            "metal": ", ".join(view.name(p) for p in parts),
        },
        (
            Evidence(N_("voltage that metal can take"), volts, "voltage"),
            Evidence(N_("metal parts concerned"), float(len(metals)), "count"),
        ),
        touches=frozenset({*parts, *hanging_on(look.studies.circuit, labels, label)}),
        explains=frozenset({*parts, *hanging_on(look.studies.circuit, labels, label)})
        | _without_link(look, owners),
        mend=_mend(view, runs),
    )


def _without_link(look: Look, owners: tuple[str, ...]) -> frozenset[str]:
    """Floating sources that lose their only link with this ground wire, and the metal on their
    side."""
    situation = look.studies.situation
    circuit, label = situation.circuit, situation.metallic
    found: set[str] = set()
    for _, source in situation.active:
        grounds = grounded_at(circuit, label, source.owner) if source.owner in owners else set()
        if grounds and label[source.minus] not in grounds:
            found |= {m.owner for m in circuit.metals if label[m.node] in grounds}
            found.add(source.owner)
    return frozenset(found)


def _gaps(view: View, situation: Situation, labels: list[int], label: int) -> set[str]:
    """Runs that lead live conductors to this metal but no ground wire."""
    found = set()
    terminals = situation.circuit.terminals
    for run in view.design.runs:
        ends = [terminals.get((e.part, e.terminal), {}) for e in (run.a, run.b)]
        grounds = [labels[e[Pole.PE]] if Pole.PE in e else None for e in ends]
        carries = any(b.owner == run.id and b.pole != Pole.PE for b in situation.branches)
        wired = any(b.owner == run.id and b.pole == Pole.PE for b in situation.branches)
        if carries and not wired and label in grounds and grounds[0] != grounds[1]:
            found.add(run.id)
    return found


def _mend(view: View, runs: tuple[str, ...]) -> Mend | None:
    """Join the cut or missing ground wire of a single run."""
    run = view.run(runs[0]) if len(runs) == 1 else None
    if run is None:
        return None
    if view.run_values(run.id).pick("broken") == "PE":
        title = say("Join the {ground_wire} of {what}", family=view.family, what=view.name(run.id))
        return change_run(title, run.id, {"broken": None})
    whole = _with_ground(view.design, run)
    if whole is None:
        return None

    title = say("Add {a_ground_wire} to {what}", family=view.family, what=view.name(run.id))
    return change_poles(title, run.id, whole)


def _with_ground(design: Design, run: Run) -> tuple[tuple[Pole, Pole], ...] | None:
    ends = [terminal_at(design, e) for e in (run.a, run.b)]
    if any(e is None or Pole.PE not in e.poles for e in ends):
        return None
    return (*pole_map(design, run), (Pole.PE, Pole.PE))


RULE = Rule(
    "ground-open",
    N_("{Ground_wire} open"),
    check,
    {"NA": "250.4(A)(5), 250.134", "INT": "411.3"},
    causes=("neutral-used-as-ground",),
)
