"""An earth electrode that is joined to no ground wire.

What is checked
    Over all states: each electrode must be joined by metal, in one of them at
    least, to the ground terminal of an AC source that is live; where no alternating
    current is drawn, to anything.
Why it matters
    Between an electrode by itself and the ground wires stands whatever
    lightning or a fault puts across the soil, thousands of volts, and what is
    joined to it passes that on. A fault to its metal trips nothing.
How to cure it
    Join it to the ground bar by 6 AWG copper or thicker; all electrodes of a
    place are one.
Limits
    Where no alternating current is drawn, to what it is joined is not judged. The
    size of the conductor is not.
Sources
    NFPA 70 (2023) 250.50, 250.58, 690.47; IEC 60364-5-54 542.
"""

from __future__ import annotations

from collections.abc import Iterator

from linework.findings.grounding._soil import on_soil
from linework.findings.mending import TO_ROD, only_board, tie
from linework.findings.model import Evidence, Hit, Level, Mend, Outcome
from linework.findings.rule import Rule
from linework.findings.view import Look, View
from linework.study.neutral.metal import ground_nodes
from linework.words import N_, say

MESSAGE = N_(
    "{electrode} is joined to the {ground_wire} of no source. What stands on it is not grounded:"
    " a fault to it trips nothing, and lightning lifts it above all other metal."
)
LOOSE = N_(
    "{electrode} is joined to nothing: it grounds nothing, and what it was driven for stands at"
    " whatever lightning puts on it."
)


def check(view: View) -> Iterator[Outcome]:
    """One hit for each electrode, whatever the state."""
    looks = [look for look in view.settled_looks if _grounds(look)]
    for electrode in view.parts_that(lambda kind: kind.electrode):
        if looks and not any(_tied(view, look, electrode) for look in looks):
            yield _hit(view, electrode, Level.DANGER, MESSAGE)
        elif not looks and not view.design.runs_at(electrode):
            yield _hit(view, electrode, Level.WARNING, LOOSE)


def _grounds(look: Look) -> set[int]:
    """Labels of the ground wires of all live AC sources."""
    situation = look.studies.situation
    owners = {system.owner for system in situation.systems if system.is_ac}
    return {
        situation.metallic[n] for owner in owners for n in ground_nodes(situation.circuit, owner)
    }


def _tied(view: View, look: Look, electrode: str) -> bool:
    """Also to what stands on an electrode of its own by right."""
    situation = look.studies.situation
    nodes = ground_nodes(situation.circuit, electrode)
    grounds = _grounds(look) | on_soil(view, look)
    return any(situation.metallic[node] in grounds for node in nodes)


def _hit(view: View, electrode: str, level: Level, message: str) -> Hit:
    ohm = view.values(electrode).opt("resistance")
    return Hit(
        level,
        (electrode,),
        message,
        {"electrode": view.name(electrode)},
        () if ohm is None else (Evidence(N_("its resistance to earth"), ohm, "resistance"),),
        mend=_mend(view, electrode),
    )


def _mend(view: View, electrode: str) -> Mend | None:
    board = only_board(view)
    if board is None:
        return None
    words = {"what": view.name(electrode), "panel": view.name(board.id), "size": TO_ROD}
    title = say("Join {what} to {panel} by {size}", **words)
    return tie(title, board, electrode)


RULE = Rule(
    "electrode-not-tied",
    N_("{Electrode} not joined to the {ground_wires}"),
    check,
    {"NA": "250.50, 690.47", "INT": "542"},
    causes=("bond-missing", "ground-open"),
    hangs_on=("metal-live", "ground-open"),
    whole=True,
    timeless=True,
)
