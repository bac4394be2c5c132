"""A live neutral that meets ground nowhere.

What is checked
    In every state and case: each live AC neutral must reach a ground wire or
    the metal of its source through one neutral-ground link. In a building a
    board that a supply feeds without a ground wire must carry that link.
Why it matters
    Without the link a first fault to metal drives no current: no breaker
    trips, no ground-fault device acts, and an outlet tester reads "open
    ground" although every ground wire is whole. A second fault can then kill.
How to cure it
    Fit the link at the source (or at its first disconnect), once, if its maker
    permits it; where sources share a neutral in a board that all of them feed,
    not one at each. An earth electrode is not a link and cures nothing here.
Limits
    A set that feeds nothing but cord-and-plug loads from its own outlets may
    float; that is a note. Supplies are taken to be linked off site unless
    their card says otherwise.
Sources
    NFPA 70 (2023) 250.20(B)(1), 250.24, 250.30(A)(1), 250.34; IEC 60364-4-41 411.
"""

from __future__ import annotations

from collections.abc import Iterator

from linework.findings.grounding._levels import missing_bond_level
from linework.findings.grounding._one_for_all import shared_neutral
from linework.findings.grounding._soil import on_soil
from linework.findings.mending import change_part
from linework.findings.model import Evidence, Hit, Level, Mend, Outcome
from linework.findings.rule import Rule
from linework.findings.view import Look, View
from linework.study.answers.services import Unlinked, unlinked_services
from linework.study.neutral.bonds import NeutralSystem
from linework.study.neutral.metal import hanging_on
from linework.study.ways.paths import fed_parts
from linework.words import N_, say

FIXED = N_(
    "Fed by {source}, the {neutral} is joined to {ground} nowhere. A first fault to metal trips"
    " nothing, a ground-fault device is blind to it, and {a_outlet} tester shows an open {ground}"
    " although the {ground_wire} may be whole. {cure}"
)
SERVICE = N_(
    "{source} brings no {ground_wire} to {board}, and {board} joins {neutral} and {ground} nowhere."
    " A fault to metal behind it trips nothing, and {a_outlet} tester shows an open {ground}"
    " although the {ground_wires} may be whole. Fit the link in {board}."
)
FLOATS = N_(
    "{source} feeds only what is plugged into it and its {neutral} floats. That is accepted for"
    " cord-and-plug loads; a first fault trips nothing. Use one appliance at a time."
)


def check(view: View) -> Iterator[Outcome]:
    """One hit for each live AC neutral without a link."""
    for look in view.settled_looks:
        for system in look.studies.neutrals:
            if system.is_ac and not system.bonds:
                yield from _unbonded(view, look, system)
            elif system.is_ac:
                for found in unlinked_services(look.studies, view.design):
                    if found.supply in system.owners and found.metal not in on_soil(view, look):
                        yield _service(view, look, found)


def _unbonded(view: View, look: Look, system: NeutralSystem) -> Iterator[Hit]:
    """Nothing is worth a note where nothing is plugged in."""
    level = missing_bond_level(view, look, system.owners)
    if level > Level.NOTE or look.studies.energised.fed:
        yield _hit(view, look, system, level)


def _hit(view: View, look: Look, system: NeutralSystem, level: Level) -> Hit:
    fed = {
        p for owner in system.owners for p in fed_parts(look.studies.situation, owner, only_ac=True)
    }
    names = ", ".join(view.name(owner) for owner in system.owners)
    values: dict[str, object] = {"source": names}
    if level > Level.NOTE:
        values["cure"] = _cure(view, look, system)
    return look.hit(
        level,
        system.owners,
        FLOATS if level is Level.NOTE else FIXED,
        values,
        (Evidence(N_("{neutral_ground_link}s in circuit"), 0.0, "count"),),
        touches=frozenset(fed),
        mend=_mend(view, look, system),
    )


def _service(view: View, look: Look, found: Unlinked) -> Hit:
    situation = look.studies.situation
    behind = hanging_on(situation.circuit, situation.metallic, found.metal)
    names = {"source": view.name(found.supply), "board": view.name(found.board)}
    title = say("Fit the link in {what}", what=names["board"])
    return look.hit(
        Level.DANGER,
        (found.board,),
        SERVICE,
        names,
        (Evidence(N_("{neutral_ground_link}s in circuit"), 0.0, "count"),),
        touches=frozenset({*behind, found.supply}),
        mend=change_part(title, found.board, {"bond": "fitted"}),
        clause=view.clause({"NA": "250.24(B)"}),
    )


def _cure(view: View, look: Look, system: NeutralSystem) -> str:
    owner = system.owners[0]
    if (owner, "neutral") in look.settled:
        return say(
            "This holds if its neutral floats, which is not known: stopped and unplugged, measure"
            " ohms from the {neutral} slot to the {ground} contact.",
            family=view.family,
        )
    if "bond_allowed" in view.kind(owner).declared:
        allowed = view.values(owner).pick("bond_allowed")
        if allowed == "unknown":
            return say(
                "Ask the maker whether the neutral may be joined to the frame: some small sources"
                " are destroyed by it.",
                family=view.family,
            )
        if allowed == "no":
            return say(
                "Its maker forbids a link: feed fixed wiring from another source, or through an"
                " isolation transformer.",
                family=view.family,
            )
    return _place(view, owner)


def _place(view: View, owner: str) -> str:
    """Where the link belongs: at the source, unless others share its neutral."""
    shared = shared_neutral(view, owner)
    if len(shared.owners) > 1:
        sources, where = view.names(shared.owners), shared.board and view.name(shared.board)
        if where:
            return say(
                "{sources} share this {neutral}: fit one link for all of them in {where}, not one"
                " at each. An earth rod is no substitute.",
                family=view.family,
                sources=sources,
                where=where,
            )
        return say(
            "{sources} share this {neutral}: fit one link at a place that stays joined to all of"
            " them, not one at each. An earth rod is no substitute.",
            family=view.family,
            sources=sources,
        )
    if shared.linked:
        return say(
            "Fed by {others}, this {neutral} has the link at {places} already, and one that stays"
            " closed at {source} would be a second: it must close only while {source} feeds. An"
            " earth rod is no substitute.",
            family=view.family,
            others=view.names(shared.linked),
            places=view.names(shared.places),
            source=view.name(owner),
        )
    return say("Fit one link at the source. An earth rod is no substitute.", family=view.family)


def _mend(view: View, look: Look, system: NeutralSystem) -> Mend | None:
    """Only at sources that float for certain and whose makers accept a link; in a board where
    several share the neutral."""
    owner = system.owners[0]
    shared = shared_neutral(view, owner)
    if not all(_accepts(view, look, each) for each in shared.owners):
        return None
    if len(shared.owners) > 1:
        title = say("Fit the link in {what}", what=shared.board and view.name(shared.board))
        fitted = change_part(title, shared.board, {"bond": "fitted"})
        return fitted if shared.board else None
    kind = view.kind(owner)
    choices = {choice.value for choice in kind.declared["neutral"].choices}
    answer = "added" if "added" in choices else "bonded"
    if "relay" in choices and (kind.changes_over or shared.linked):
        answer = "relay"  # another source brings its own link

    title = say("Join {neutral} and frame in {what}", what=view.name(owner), family=view.family)
    return change_part(title, owner, {"neutral": answer})


def _accepts(view: View, look: Look, owner: str) -> bool:
    """Whether a source floats for certain, and its maker accepts a link."""
    if (owner, "neutral") in look.settled or "bond_allowed" not in view.kind(owner).declared:
        return False
    return view.values(owner).pick("bond_allowed") == "yes"


RULE = Rule(
    "bond-missing",
    N_("No {neutral_ground_link}"),
    check,
    {"NA": "250.20(B)(1), 250.30(A)(1), 250.34", "INT": "411"},
    hangs_on=("polarity-reversed", "neutral-missing"),
)
