"""What links and ground wires are called by the code of the family, and in which state they close.

Who stands where decides: NFPA 70 article 100 and 250.28, 250.30, 250.102 (from memory).
"""

from __future__ import annotations

from linework.design import Design, PlaceKind, Run, pole_map
from linework.design.names import natural
from linework.handover.conductors import pole_size_text
from linework.handover.content import Content
from linework.handover.grounding.bars import Strap
from linework.wiring import Pole, is_protective
from linework.words import N_

SITE_LINK = N_("{neutral_ground_link} of the site")


def strap_name(content: Content, strap: Strap) -> str:
    """By what it is in and whom it serves: a supply, a source, the first board of a building, what
    stands first behind a source of its own, anything else."""
    kind = content.design.kind(content.design.part(strap.part))
    if kind.source.off_site:
        return content.say(SITE_LINK)
    if kind.source:
        return content.say("{system_bonding_jumper}")
    if kind.board and _first(content, strap.part):
        return content.say("{main_bonding_jumper}")
    if (kind.board or kind.transfers) and _serves_own(content, strap.part):
        return content.say("{system_bonding_jumper}")
    return content.say("{neutral_ground_link}")


def _first(content: Content, board: str) -> bool:
    """Whether it is the first board behind a supply in a building: one run between them."""
    design = content.design
    if design.settings.kind_of_place is not PlaceKind.BUILDING:
        return False
    others = (end.part for run in design.runs_at(board, "feed") for end in (run.a, run.b))
    return any(design.kind(design.part(part)).source.off_site for part in others)


def _serves_own(content: Content, part: str) -> bool:
    """Whether the link in a part is that of sources of the install alone, in every state."""
    served = {
        source
        for report in content.reports
        for bond in report.bonds
        if bond.is_ac and part in bond.places
        for source in bond.sources
    }
    kinds = [content.design.kind(content.design.part(source)).source for source in served]
    return bool(kinds) and not any(kind.off_site for kind in kinds)


def strap_state(content: Content, strap: Strap) -> str:
    """ "fitted", or when a relay closes it; perhaps, where it is not known."""
    if not strap.certain:
        return content.say("perhaps: not known")
    if not strap.when:
        return content.say("fitted")
    told = (" / ".join(sorted(positions)) for _, positions in strap.when)
    return content.say("a relay closes it: {when}", when=", ".join(told))


def run_name(content: Content, run: Run) -> str:
    """What a run of ground is, by what it joins; empty where it carries none."""
    design = content.design
    pairs = pole_map(design, run)
    if any(is_protective(p) != is_protective(q) for p, q in pairs):
        direct = any({p, q} & {Pole.POS, Pole.NEG} for p, q in pairs)
        return content.say("bond of the minus") if direct else content.say("{neutral_ground_link}")
    if not any(is_protective(p) for p, _ in pairs):
        return ""
    parts = [design.part(end.part) for end in (run.a, run.b)]
    kinds = [design.kind(part) for part in parts]
    if any(kind.electrode for kind in kinds):
        return content.say("{electrode_conductor}")
    if any(kind.body for kind in kinds):
        body = next(part for part, kind in zip(parts, kinds, strict=True) if kind.body)
        name = design.values(body).text("name") if design.values(body).given("name") else ""
        if design.settings.kind_of_place.afloat and name not in ("", "hull"):
            return content.say("bonding conductor to the {body}", body=name)
        bond = _body_bond(design)
        return content.say(bond)
    if all(is_protective(p) for p, _ in pairs):
        split = any(k.keeps_apart(design.values(p)) for k, p in zip(kinds, parts, strict=True))
        return content.say("{equipment_ground}" if split else "{equipment_bonding_jumper}")
    ashore = content.design.settings.kind_of_place is PlaceKind.BUILDING
    if ashore and any(k.source.off_site for k in kinds) and any(k.board for k in kinds):
        return content.say("{supply_side_jumper}")
    return content.say("{equipment_ground}")


def _body_bond(design: Design) -> str:
    """What joins metal to the body of the install (NFPA 70 551.56(C), on wheels)."""
    place = design.settings.kind_of_place
    if place.on_wheels:
        return N_("{chassis_bond}")
    return N_("{hull_bond}") if place.afloat else N_("{equipment_bonding_jumper}")


def wire_letters(content: Content) -> dict[str, str]:
    """The names that runs of ground have, with the letter that stands for each in the drawing;
    without one the ground wire of a circuit, which is the usual."""
    runs = sorted(content.design.runs, key=lambda run: natural(content.name(run.id)))
    names = dict.fromkeys(filter(None, (run_name(content, run) for run in runs)))
    usual = content.say("{equipment_ground}")
    found = {usual: ""} if usual in names else {}
    names.pop(usual, None)
    return found | {name: chr(ord("a") + n) for n, name in enumerate(names)}


def ground_size(content: Content, run: Run) -> str:
    """The size of its ground wire, or of the bond."""
    values = content.design.run_values(run)
    for p, q in pole_map(content.design, run):
        if is_protective(p) or is_protective(q):
            return pole_size_text(values, p, q) or content.say("size not given")
    return ""
