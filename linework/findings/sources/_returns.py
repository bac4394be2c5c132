"""A bar of neutrals or of minus wires by which more can come back than it is made for."""

from __future__ import annotations

from collections.abc import Iterator

from linework.findings.model import Evidence, Hit, Level, NotChecked
from linework.findings.view import Look, View
from linework.study.situation import Situation
from linework.study.slack import within
from linework.study.ways.bounds import Bound, bounds
from linework.study.wires.rated import Rated
from linework.words import N_

MESSAGE = N_(
    "{where} is made for {rated} A, and {amps} A can come back by it before anything opens: so much"
    " {feeders} let through."
)
ASSUMED = N_(
    "the rating of {where} is not given; the usual {rated} A would be too small for the {amps} A"
    " that {feeders} let come back by it"
)


def by_return(view: View, look: Look, rated: Rated) -> Iterator[Hit | NotChecked]:
    """At most one, for the wire on it that can carry most; none for what is live or has contacts,
    and none where sources meet."""
    situation = look.studies.situation
    most = None if look.meeting or rated.plugs else _most(situation, rated)
    if most is None or within(most.inflow.amps, rated.device_a):
        return
    feeders = most.inflow.owners(situation)
    words = {
        "where": view.name(rated.part),
        "rated": f"{rated.amps:g}",
        "amps": f"{most.inflow.amps:.4g}",
        "feeders": view.names(feeders),
    }
    if not rated.given:
        yield NotChecked(ASSUMED, words, (rated.part,), look.state)
        return
    yield look.hit(
        Level.DANGER,
        (rated.part,),
        MESSAGE,
        words,
        (
            Evidence(N_("comes together"), most.inflow.amps, "current"),
            Evidence(N_("made for"), rated.amps, "current"),
        ),
        touches=frozenset(feeders),
        clause="110.3(B)",
    )


def _most(situation: Situation, rated: Rated) -> Bound | None:
    """What bounds the wire on a returning bar by which most can come."""
    if any(situation.feeds(node) for node in rated.nodes):
        return None
    returning = [node for node in rated.nodes if situation.returns(node)]
    wires = {i for node in returning for i, _ in situation.wires().get(node, ())}
    return max(bounds(situation, wires), key=lambda each: each.inflow.amps, default=None)
