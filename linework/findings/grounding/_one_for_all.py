"""Sources that share a neutral: one link serves them all, and one at each would be two."""

from __future__ import annotations

from dataclasses import dataclass

from linework.findings.grounding._levels import missing_bond_level
from linework.findings.model import Level
from linework.findings.view import Look, View
from linework.study.neutral.bonds import NeutralSystem
from linework.study.situation import Situation
from linework.wiring import Pole


@dataclass(frozen=True)
class Shared:
    """What else lies on the neutral of a source, in whatever state.

    ``owners``: sources without a link there, itself the first. ``board``: where one link serves
    all of them, "" where no board is on the neutral of each. ``linked``: sources that have a
    link there, at ``places``.
    """

    owners: tuple[str, ...]
    board: str
    linked: tuple[str, ...]
    places: tuple[str, ...]


def shared_neutral(view: View, owner: str) -> Shared:
    """Where the neutral of a source comes to lie while it feeds and while others do."""
    bare, linked, places = {owner}, set[str](), set[str]()
    found: list[tuple[Look, NeutralSystem]] = []
    for look in view.settled_looks:
        situation = look.studies.situation
        here = _neutrals(view, situation, owner)
        for system in look.studies.neutrals:
            if system.is_ac and system.neutral in here:
                if not system.bonds:
                    if missing_bond_level(view, look, system.owners) > Level.NOTE:
                        bare.update(system.owners)
                        found.append((look, system))
                elif owner not in system.owners:
                    linked.update(system.owners)
                    places.update(bond.owner for bond in system.bonds)
    boards = [_boards(view, look, system) for look, system in found]
    common = set[str].intersection(*map(set, boards)) if boards else set[str]()
    first = next((board for board in boards[0] if board in common), "") if boards else ""
    others = sorted(bare - {owner}, key=view.order)
    in_order = (tuple(sorted(each, key=view.order)) for each in (linked - bare, places))
    return Shared((owner, *others), first, *in_order)


def _neutrals(view: View, situation: Situation, owner: str) -> set[int]:
    """What a link at a source would join to ground, by its label, whether it is live or not."""
    terminals = view.kind(owner).terminals(view.values(owner))
    nodes = (
        situation.circuit.terminals.get((owner, terminal.name), {}).get(Pole.N)
        for terminal in terminals
        if terminal.role != "in"
    )
    return {situation.clusters[node] for node in nodes if node is not None}


def _boards(view: View, look: Look, system: NeutralSystem) -> list[str]:
    """The boards without a link on a neutral, the one nearest to the sources first."""
    situation = look.studies.situation
    found: dict[str, int] = {}
    for part in situation.parts_on.get(system.neutral, ()):
        if view.part(part) is not None and view.kind(part).board:
            values = view.values(part)
            if "bond" in values.declared and values.pick("bond") == "absent":
                mine = situation.circuit.branches_of.get(part, ())
                found[part] = situation.away(i for i in mine if i in situation.closed)
    return sorted(found, key=lambda part: (found[part], view.order(part)))
