"""A building without an earth electrode.

What is checked
    In buildings: whether the ground wires of each AC source reach an electrode
    by metal in some state in which it is live. A supply has the electrode of
    its site. Whether a board with circuits of its own that another building
    feeds has an electrode there.
Why it matters
    Lightning and a fault on a higher voltage lift the whole installation, and
    metal, soil and pipes stand at different voltages.
How to cure it
    An electrode joined to the ground bar where the source comes in. It is
    never in place of a ground wire.
Limits
    Vehicles, boats and places in the open are not judged, nor sets that feed
    only what is plugged into them. A board stands in a building of its own
    where its card says so, or where what feeds it stands elsewhere. One without
    breakers is taken for the disconnect of a single branch circuit, which needs
    none.
Sources
    NFPA 70 (2023) 250.30(A)(4), 250.32(A), 250.34, 250.50; IEC 60364-5-55
    551.4.
"""

from __future__ import annotations

from collections.abc import Iterator

from linework.design import Part, PlaceKind
from linework.findings.grounding._levels import missing_bond_level
from linework.findings.mending import only_board, plant
from linework.findings.model import Evidence, Hit, Level, Mend, Outcome
from linework.findings.rule import Rule
from linework.findings.view import Look, View
from linework.study.answers.buildings import boards_apart
from linework.study.answers.services import linked_feeders
from linework.study.neutral.earth import earthed
from linework.study.neutral.metal import ground_nodes
from linework.study.ways.paths import fed_parts
from linework.words import N_, say

MESSAGE = N_(
    "Fed by {source}, the {ground_wires} of this building reach no earth electrode. One is asked"
    " for at a building; it does not replace any {ground_wire}."
)
OWN = N_(
    "{board} stands in a building of its own and no earth electrode is joined to it there. One"
    " where {run} begins is too far off to hold this metal at the voltage of its soil."
)
BELOW = 750
"""How far under a board its electrode is put, in tenths of a millimetre of the sheet."""


def check(view: View) -> Iterator[Outcome]:
    """One hit for each source, or group of them on one neutral, that reaches none in any state."""
    without: list[tuple[Look, tuple[str, ...]]] = []
    reached: set[str] = set()
    for look in view.settled_looks:
        soil = earthed(look.studies.situation)
        for system in look.studies.neutrals:
            if system.is_ac and _reaches(look, system.owners, soil):
                reached.update(system.owners)
            elif system.is_ac and _serves_building(view, look, system.owners):
                without.append((look, system.owners))
    for look, owners in without:
        if reached.isdisjoint(owners):
            yield _hit(view, look, owners)
    yield from _buildings(view)


def _buildings(view: View) -> Iterator[Hit]:
    """Boards of detached buildings; those that join neutral and ground themselves are another
    rule's."""
    clause = view.clause({"NA": "250.32(A)"})
    looks = list(view.settled_looks)
    linked = {f.board for look in looks for f in linked_feeders(look.studies, view.design)}
    for fed in boards_apart(view.design, view.design.revision) if clause else ():
        if not fed.rod and fed.board not in linked:
            names = {"board": view.name(fed.board), "run": view.names(fed.runs)}
            rods = Evidence(N_("electrodes in reach"), 0.0, "count")
            touches = frozenset(fed.runs)
            mend = _mend_at(view, view.design.part(fed.board))
            yield Hit(
                Level.WARNING,
                (fed.board,),
                OWN,
                names,
                (rods,),
                touches=touches,
                mend=mend,
                clause=clause,
            )


def _serves_building(view: View, look: Look, owners: tuple[str, ...]) -> bool:
    """Whether they feed wiring there, and not only what is plugged into them."""
    fed = {part for owner in owners for part in fed_parts(look.studies.situation, owner)}
    here = (p for p in fed - set(owners) if view.part(p) is not None and not view.lies_loose(p))
    if not any(view.place_of(part) is PlaceKind.BUILDING for part in here):
        return False
    return missing_bond_level(view, look, owners) > Level.NOTE


def _reaches(look: Look, owners: tuple[str, ...], soil: dict[int, float]) -> bool:
    situation = look.studies.situation
    grounds = (node for owner in owners for node in ground_nodes(situation.circuit, owner))
    return any(situation.metallic[node] in soil for node in grounds)


def _hit(view: View, look: Look, owners: tuple[str, ...]) -> Hit:
    return look.hit(
        Level.WARNING,
        owners,
        MESSAGE,
        {"source": ", ".join(view.name(owner) for owner in owners)},
        (Evidence(N_("electrodes in reach"), 0.0, "count"),),
        touches=frozenset(view.parts_that(lambda kind: kind.electrode)),
        mend=_mend(view),
    )


def _mend(view: View) -> Mend | None:
    """An electrode at the only board."""
    board = only_board(view)
    if board is None or view.place_of(board.id) is not PlaceKind.BUILDING:
        return None
    return _mend_at(view, board)


def _mend_at(view: View, board: Part) -> Mend:
    title = say("Put an earth electrode at {panel}", panel=view.name(board.id))
    return plant(title, board, BELOW)


RULE = Rule(
    "electrode-missing",
    N_("No {electrode}"),
    check,
    {"NA": "250.30(A)(4), 250.32(A), 250.50", "INT": "551.4"},
    causes=("electrode-not-tied", "ground-open"),
    whole=True,
)
