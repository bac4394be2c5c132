"""Which placards a design needs, and what they say: nothing that it does not say itself."""

from __future__ import annotations

from collections.abc import Iterator

from linework.design.names import natural
from linework.handover.content import Content
from linework.handover.locking import actions, order_of, sheet_of_order
from linework.handover.placards.asked import asked_at
from linework.handover.placards.boards import (
    backfed,
    floating,
    links,
    one_supply,
    parts,
    sources,
)
from linework.handover.placards.engines import fumes, gaps, plates
from linework.handover.placards.inlets import inlets
from linework.handover.placards.sign import Placard
from linework.handover.placards.stores import fuses, raceways, rapid, stores, suns
from linework.study.lockout import Sort

_MAKERS = (
    inlets,
    sources,
    plates,
    gaps,
    links,
    floating,
    one_supply,
    backfed,
    suns,
    raceways,
    rapid,
    stores,
    fuses,
    fumes,
)


def placards(content: Content) -> list[Placard]:
    """All of them, in the order of the way in; the last alone names a page."""
    found = content.once("placards", lambda: [each for made in _MAKERS for each in made(content)])
    return [*found, *_dead(content)]


def _dead(content: Content) -> Iterator[Placard]:
    say, steps = content.say, order_of(content).steps
    if not steps:
        return
    told: dict[Sort, list[str]] = {}
    for step in steps:
        told.setdefault(step.means.sort, []).append(content.name(step.means.part))
    names = "; ".join(
        ", ".join(sorted(dict.fromkeys(parts), key=natural)) for parts in told.values()
    )
    big = say(
        "{count} steps, sheet {sheet}",
        count=len(actions(content)),
        sheet=sheet_of_order(content),
    )
    lines = (say("In this order: {names}.", names=names), say("Lock. Wait. Prove it dead."))
    boards = [p for p in parts(content) if content.design.kind(p).board]
    where = boards[0].designation if boards else say("at the way in")
    clause = asked_at(content, (boards or parts(content))[0], {})
    yield Placard(say("To make dead"), big, lines, where, True, clause)
