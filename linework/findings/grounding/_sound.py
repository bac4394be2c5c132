"""What is sound in grounding, and why: outlets at which a fault ends, sources with one link."""

from __future__ import annotations

import math
from collections.abc import Iterator

from linework.circuit.model import FaceAt
from linework.findings.model import Clear
from linework.findings.view import Look, View
from linework.quantity import show
from linework.study.answers.shocks import Shock, shocks
from linework.study.shorts.clearing import device_designator
from linework.wiring import Pole
from linework.words import N_, say

ENDS = N_(
    "{outlet}: a fault to its {ground} contact is ended by {device} within {time} in every state;"
    " at least {amps} flow."
)
LOW = N_(
    "{outlet}: a fault to its {ground} contact leaves {volts} on metal at the most, in every state:"
    " below the {limit} that count as harmless."
)
ONE_LINK = N_(
    "{source}: exactly one {neutral_ground_link} is in circuit in every state, {place}. A second"
    " one would put load current on the {ground_wire}."
)


def settled(view: View) -> bool:
    """Whether every state was looked at, so that "in every state" may be said."""
    return view.complete and not view.partial


def sound_outlets(view: View) -> Iterator[Clear]:
    """Each outlet at which every fault to ground is ended in time, or hurts nobody."""
    found: dict[str, list[tuple[Look, Shock]]] = {}
    lost: set[str] = set()
    for look in view.settled_looks if settled(view) else ():
        at = {
            (s.fault.point.node, s.fault.point.to_node): s
            for s in shocks(look.studies, view.design)
        }
        for face in look.studies.circuit.faces:
            for pair in _pairs(look, face):
                shock = at.get(pair) or at.get(pair[::-1])
                if shock is None or shock.dangerous or not shock.returns:
                    lost.add(face.owner)
                else:
                    found.setdefault(face.owner, []).append((look, shock))
    for owner in sorted(found.keys() - lost):
        told = _outlet(view, owner, found[owner])
        if told is not None:
            yield told


def _pairs(look: Look, face: FaceAt) -> Iterator[tuple[int, int]]:
    """The live contacts of an outlet, each with its ground contact."""
    ground = face.nodes.get(Pole.PE)
    for pole, node in face.nodes.items():
        live = pole not in (Pole.PE, Pole.N) and look.studies.situation.feeds(node)
        if ground is not None and live:
            yield node, ground


def _outlet(view: View, owner: str, seen: list[tuple[Look, Shock]]) -> Clear | None:
    """By the fault that a device takes longest to end; by the voltage where a device does operate,
    as 250.4(A)(5) wants, and the voltage never is above what counts as harmless."""
    words = {
        "outlet": view.name(owner),
        "amps": show(min(s.fault.weak.current_a for _, s in seen), "current"),
        "volts": f"{max(1.0, *(s.metal_v for _, s in seen)):.0f} V",
        "limit": show(seen[0][1].limit_v, "voltage"),
    }
    if not all(_ended(shock) for _, shock in seen):
        if not all(_operates(shock) and shock.metal_v <= shock.limit_v for _, shock in seen):
            return None
        return Clear((owner,), LOW, words, quiet=True)
    ends = [(end.latest_s, look, end) for look, s in seen for end in (s.weak, s.strong)]
    longest, look, end = max(ends, key=lambda item: item[0])
    words["device"] = view.name(device_designator(look.studies.circuit, end))
    words["time"] = show(longest, "time")
    return Clear((owner,), ENDS, words, quiet=True)


def _operates(shock: Shock) -> bool:
    """Whether a device ends it at all."""
    return all(
        end.by in ("device", "ground-fault") and math.isfinite(end.latest_s)
        for end in (shock.weak, shock.strong)
    )


def _ended(shock: Shock) -> bool:
    """Whether a device ends it within the time that is allowed."""
    return all(
        end.by in ("device", "ground-fault") and end.latest_s <= shock.limit_s
        for end in (shock.weak, shock.strong)
    )


def one_link(view: View) -> Iterator[Clear]:
    """Each source whose neutral has one link, wherever its system is live."""
    places: dict[tuple[str, ...], set[tuple[str, bool]]] = {}
    lost: set[tuple[str, ...]] = set()
    for look in view.settled_looks if settled(view) else ():
        for system in look.studies.neutrals:
            if not system.is_ac:
                continue
            if len(system.bonds) == 1 and not system.ring:
                bond = system.bonds[0]
                places.setdefault(system.owners, set()).add((bond.owner, bond.off_site))
            else:
                lost.add(system.owners)
    for owners in sorted(places.keys() - lost):
        where = {
            say("off site") if off_site else say("in {part}", part=view.name(owner))
            for owner, off_site in places[owners]
        }
        yield Clear(
            owners,
            ONE_LINK,
            {
                "source": ", ".join(view.name(owner) for owner in owners),
                "place": ", ".join(sorted(where)),
            },
            clause=view.clause({"NA": "250.30(A)(1), 250.142(B)", "INT": "5-54"}),
        )
