"""A link on a source whose maker forbids one.

What is checked
    In every state: whether a neutral-ground link anywhere reaches a source
    that is marked as not accepting one, one of its own included. Without any, a
    note says what may not be done behind it.
Why it matters
    Some small inverters and sets are destroyed by it, or stand at half their
    voltage against the frame.
How to cure it
    Take the link out, or use another source for fixed wiring.
Limits
    The mark on the part is believed; where its neutral is not known, a link of
    its own is not told of: the maker who forbids one built none in. One that
    the maker of an inverter built in is no link outside.
Sources
    NFPA 70 (2023) 110.3(B): listed equipment is used as its instructions say.
"""

from __future__ import annotations

from collections.abc import Iterator

from linework.findings.model import Evidence, Hit, Level, Outcome
from linework.findings.rule import Rule
from linework.findings.view import Look, View
from linework.study.neutral.bonds import NeutralSystem, forbids_link
from linework.words import N_

MESSAGE = N_("{where} joins {neutral} and {ground} on {source}, whose maker forbids it.")
ITS_OWN = N_(
    "{source} is drawn with its {neutral} joined to its case, but its maker forbids a link. Look"
    " into its manual: if a link was added, take it out; if it left the factory so, correct the"
    " card."
)
LEAVE_OUT = N_(
    "The maker of {source} forbids a link of {neutral} and {ground}: add none behind it, in a board"
    " or by a plug, to quiet {a_outlet} tester or a guard that reports an open {ground}. It can"
    " destroy {source}."
)


def check(view: View) -> Iterator[Outcome]:
    """One hit for each such source: a link outside, one of its own, or none."""
    for look in view.settled_looks:
        for system in look.studies.neutrals:
            for owner in system.owners if system.is_ac else ():
                if forbids_link(view.design, owner):
                    yield from _source(view, look, system, owner)


def _source(view: View, look: Look, system: NeutralSystem, owner: str) -> Iterator[Hit]:
    linked = {bond.owner for bond in system.bonds}
    places = sorted(linked - {owner})
    where = {"where": ", ".join(view.name(p) for p in places), "source": view.name(owner)}
    source = {"source": view.name(owner)}
    if places:
        yield _hit(look, Level.DANGER, system, owner, MESSAGE, where)
    elif linked and _added(view, owner) and (owner, "neutral") not in look.settled:
        yield _hit(look, Level.DANGER, system, owner, ITS_OWN, source)
    elif not linked:
        yield _hit(look, Level.NOTE, system, owner, LEAVE_OUT, source)


def _added(view: View, owner: str) -> bool:
    """Whether its own link is one that somebody added: its card says so, or cannot say whose."""
    choices = {choice.value for choice in view.kind(owner).declared["neutral"].choices}
    answer = "added" if "added" in choices else "bonded"
    return view.values(owner).pick("neutral") == answer


def _hit(
    look: Look,
    level: Level,
    system: NeutralSystem,
    owner: str,
    message: str,
    values: dict[str, str],
) -> Hit:
    links = float(len(system.bonds))
    return look.hit(
        level,
        (owner,),
        message,
        values,
        (Evidence(N_("{neutral_ground_link}s in circuit"), links, "count"),),
        touches=frozenset({bond.owner for bond in system.bonds} - {owner}),
    )


RULE = Rule(
    "bond-not-accepted",
    N_("Link on a source that forbids it"),
    check,
    {"NA": "110.3(B)", "INT": "maker"},
)
