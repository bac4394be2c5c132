"""Two neutral-ground links on one ring.

What is checked
    In every state: whether two links, the neutral and a ground wire or bonded
    metal close a ring. Soil and water do not close one; what is joined off
    site counts as one with the supply.
Why it matters
    Part of the load's return current runs in the ground wire and on metal that
    people touch. A ground-fault device before the ring trips at once.
How to cure it
    Keep one link, at the source or its first disconnect; take the other out,
    or switch the neutral over together with the line.
Limits
    The current that is shown is the one of the drawn loads.
Sources
    NFPA 70 (2023) 250.6, 250.30(A), 250.142(B); IEC 60364-5-54.
"""

from __future__ import annotations

import math
from collections.abc import Iterator

from linework.findings.grounding._sound import one_link
from linework.findings.mending import change_part
from linework.findings.model import Evidence, Hit, Level, Mend, Outcome
from linework.findings.rule import Rule
from linework.findings.view import Look, View
from linework.study.answers.trust import loaded_or_none
from linework.study.neutral.bonds import NeutralSystem
from linework.study.ways.paths import fed_parts
from linework.words import N_, say

MESSAGE = N_(
    "The {neutral} of {source} meets {ground} at {count} places at once: {places}. Part of the"
    " return current runs in the {ground_wire} and in metal."
)


def check(view: View) -> Iterator[Outcome]:
    """One hit for each live AC neutral with a ring; what has one link in every state is sound."""
    for look in view.looks:
        for system in look.studies.neutrals:
            if system.is_ac and len(system.ring) > 1:
                yield _hit(view, look, system)
    yield from one_link(view)


def _hit(view: View, look: Look, system: NeutralSystem) -> Hit:
    owners = tuple(sorted({bond.owner for bond in system.ring}))
    # what is too much is a link in a panel or a run, else any on the premises, whatever is live
    here = tuple(sorted({bond.owner for bond in system.ring if not bond.off_site})) or owners
    extra = tuple(o for o in here if _is_panel(view, o) or view.run(o) is not None) or here
    loaded = loaded_or_none(look.studies)
    worst = math.nan if loaded is None else max(loaded.amps(b.branch) for b in system.ring)
    fed = {
        p for owner in system.owners for p in fed_parts(look.studies.situation, owner, only_ac=True)
    }
    return look.hit(
        Level.DANGER,
        extra,
        MESSAGE,
        {
            "source": ", ".join(view.name(o) for o in system.owners),
            "count": len(system.ring),
            "places": ", ".join(view.name(o) for o in owners),
        },
        (
            Evidence(N_("{neutral_ground_link}s on the ring"), float(len(system.ring)), "count"),
            Evidence(N_("current in a link, drawn loads on"), worst, "current"),
        ),
        touches=frozenset(fed | set(system.owners) | set(owners)),
        mend=_mend(view, look, owners),
    )


def _is_panel(view: View, owner: str) -> bool:
    return view.part(owner) is not None and view.kind(owner).board


def _mend(view: View, look: Look, owners: tuple[str, ...]) -> Mend | None:
    """Take the link out of a panel, where another one stays."""
    for owner in owners:
        known = (owner, "bond") not in look.settled
        if _is_panel(view, owner) and known and view.place_of(owner).aboard:
            return _lift(owner, view)
    return None


def _lift(owner: str, view: View) -> Mend:
    title = say("Take the link out of {what}", what=view.name(owner), family=view.family)
    return change_part(title, owner, {"bond": "absent"})


RULE = Rule(
    "bond-doubled",
    N_("More than one {neutral_ground_link}"),
    check,
    {"NA": "250.6, 250.30(A), 250.142(B)", "INT": "5-54"},
)
