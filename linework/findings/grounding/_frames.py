"""Frames of solar modules that no ground wire joins to what the array feeds."""

from __future__ import annotations

from collections.abc import Iterator

from linework.codes import stated
from linework.design import End
from linework.findings.mending import join
from linework.findings.model import Evidence, Hit, Level, Mend, NotChecked
from linework.findings.view import Look, View
from linework.kinds.solar_array import open_v
from linework.study.neutral.metal import ground_nodes, grounded_at
from linework.study.situation import Situation
from linework.study.ways.banks import String, rows
from linework.study.wires.ratings import rules_of
from linework.wiring import Pole, is_protective
from linework.words import N_, say

FRAMES = N_(
    "No {ground_wire} joins the frames of {array} to {where}: a worn cable makes them live with"
    " {volts} V, and nothing trips. A rod of their own is no substitute."
)


UNFOUND = N_(
    "{where}: whether anything finds {a_ground_fault} of {array} is not known: a first one trips"
    " nothing, and a second leaves up to {volts} V on metal"
)
BLIND = N_(
    "{where} does not find {a_ground_fault} of {array}: a first one trips nothing and stays unseen,"
    " and a second leaves up to {volts} V on metal. Put a device between them that finds one and"
    " opens."
)


def loose_frames(view: View, look: Look) -> Iterator[Hit | NotChecked]:
    """One hit for each array by day whose frames do not reach the case of what it feeds; another
    where its voltage can kill and nothing finds its first fault, a gap where that is not known."""
    situation = look.studies.situation
    for string in rows(situation):
        arrays = [situation.circuit.sources[i].owner for i in string.cells]
        volts = sum(open_v(view.values(array)).high for array in arrays)
        fed = _fed(situation, string)
        for array in arrays if fed else ():
            if not _spared(view, array, volts):
                yield from _array(view, look, array, fed, volts)


def _array(
    view: View, look: Look, array: str, fed: tuple[str, ...], volts: float
) -> Iterator[Hit | NotChecked]:
    """``volts``: of it and of those in series with it."""
    situation = look.studies.situation
    if not _joined(situation, array, fed):
        yield _hit(view, look, array, fed, volts)
    elif cut := _cut_off(view, situation, array):
        yield _hit(view, look, array, cut, volts)
    if volts > rules_of(view.design).touch_limit_v(True, view.design.settings.wet).value:
        yield from _unfound(view, look, array, fed, volts)


def _unfound(
    view: View, look: Look, array: str, fed: tuple[str, ...], volts: float
) -> Iterator[Hit | NotChecked]:
    for owner in fed:
        declared = "finds_ground_fault" in view.kind(owner).declared
        answer = view.values(owner).pick("finds_ground_fault") if declared else ""
        words = {"where": view.name(owner), "array": view.name(array), "volts": f"{volts:.0f}"}
        if answer == "unknown":
            yield NotChecked(UNFOUND, words, (owner,))
        elif answer == "no":
            evidence = (Evidence(N_("voltage that metal can take"), volts, "voltage"),)
            clause = view.clause({"NA": "690.41", "INT": "712"})
            on = frozenset({array})
            yield look.hit(
                Level.WARNING, (owner,), BLIND, words, evidence, touches=on, clause=clause
            )


def _fed(situation: Situation, string: String) -> tuple[str, ...]:
    """The parts with a case that take the current of arrays."""
    label = situation.conductive
    ends = string.top, string.bottom
    loads = situation.circuit.loads
    found = {x.owner for x in loads if (label[x.a], label[x.b]) == ends}
    return tuple(sorted(owner for owner in found if ground_nodes(situation.circuit, owner)))


def _joined(situation: Situation, array: str, fed: tuple[str, ...]) -> bool:
    label = situation.metallic
    frames = grounded_at(situation.circuit, label, array)
    return all(frames & grounded_at(situation.circuit, label, owner) for owner in fed)


def _cut_off(view: View, situation: Situation, array: str) -> tuple[str, ...]:
    """The bodies, electrodes and AC sources of the design, where the frames reach none of them."""
    label = situation.metallic
    frames = grounded_at(situation.circuit, label, array)
    owners = {s.owner for _, s in situation.active if s.data.hertz > 0.0}
    owners |= set(view.parts_that(lambda kind: kind.body or kind.electrode))
    reached = {label[node] for owner in owners for node in _ground_of(situation, owner)}
    return () if frames & reached else tuple(sorted(owners))


def _ground_of(situation: Situation, owner: str) -> list[int]:
    terminals = situation.circuit.terminals_of.get(owner, ())
    return [
        node for nodes in terminals for pole, node in nodes.items() if is_protective(Pole(pole))
    ]


def _spared(view: View, array: str, volts: float) -> bool:
    return (
        view.place_of(array).aboard and volts <= stated("common", "direct_no_disconnection").value
    )


def _hit(view: View, look: Look, array: str, fed: tuple[str, ...], volts: float) -> Hit:
    limit = rules_of(view.design).touch_limit_v(True, view.design.settings.wet).value
    return look.hit(
        Level.DANGER if volts > limit else Level.WARNING,
        (array,),
        FRAMES,
        {
            "array": view.name(array),
            "where": ", ".join(view.name(owner) for owner in fed),
            "volts": f"{volts:.0f}",
        },
        (Evidence(N_("voltage that metal can take"), volts, "voltage"),),
        touches=frozenset(fed),
        mend=_mend(view, array, fed),
        clause=view.clause({"NA": "690.43", "INT": "712"}),
    )


def _mend(view: View, array: str, fed: tuple[str, ...]) -> Mend | None:
    """A ground wire of the array's cable from the frames to the only case."""
    runs = [view.run_values(run.id) for run in view.design.runs_at(array, "dc")]
    if len(fed) != 1 or len(runs) != 1 or not all(map(runs[0].has, ("size", "length"))):
        return None
    if "case" not in {t.name for t in view.kind(fed[0]).terminals(view.values(fed[0]))}:
        return None
    ratings = {"size": runs[0].text("size"), "length": runs[0].text("length")}
    names = {"array": view.name(array), "where": view.name(fed[0])}
    title = say(
        "Run {a_ground_wire} from the frames of {array} to {where}", family=view.family, **names
    )
    return join(title, End(array, "frame"), End(fed[0], "case"), ratings)
