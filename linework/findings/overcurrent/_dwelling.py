"""Service conductors that are too thin by ampacity and right for a dwelling."""

from __future__ import annotations

import math

from linework.circuit.model import Device
from linework.codes import CodesError, Worked
from linework.design import PlaceKind
from linework.findings.model import Clear, NotChecked
from linework.findings.view import Look, View
from linework.kinds.run import NOT_GIVEN
from linework.study.slack import within
from linework.study.ways.protection import Feed, reached
from linework.study.wires.ratings import rules_of
from linework.words import N_

ASK = N_(
    "{run} carries all that {source} feeds. If that is one dwelling, {device} of {rating} A may"
    " protect conductors of {ampacity} A there; in any other building {device} is too large. Say on"
    " the card of {source} what it feeds"
)
ONE = N_(
    "{device} of {rating} A on {run} is larger than its {ampacity} A, and right: {run} carries all"
    " that one dwelling takes, never all at once; {least} A are enough there."
)


def dwelling_verdict(
    view: View, look: Look, feed: Feed, device: Device, ampacity: Worked[float]
) -> Clear | NotChecked | None:
    """What decides, for 120/240 V conductors that carry the whole load of a building (NFPA 70
    310.12), where it is not said that this is a dwelling; None where they are too thin even for
    one, carry only a part, or feed something else."""
    rating = device.data.rating_a
    source = look.studies.circuit.sources[feed.system.source]
    values = view.values(source.owner)
    legs = source.data.group.off_site and values.pick("circuit") == "split"
    least = _least_a(view, rating)
    sized = within(least, ampacity.value)
    fixed = view.run_values(feed.run).pick("installation") != "cord"
    if view.place_of(source.owner) is not PlaceKind.BUILDING or not (legs and sized and fixed):
        return None
    serves = values.pick("serves") if "serves" in values.declared else NOT_GIVEN
    if serves == "other" or not _whole(look, feed):
        return None
    words = {
        "run": view.name(feed.run),
        "source": view.name(source.owner),
        "device": view.name(device.owner),
        "rating": f"{rating:g}",
        "ampacity": f"{ampacity.value:.3g}",
        "least": f"{least:.3g}",
    }
    if serves == "dwelling":
        return Clear((feed.run, device.owner), ONE, words, "310.12")
    return NotChecked(ASK, words, (feed.run, device.owner))


def _least_a(view: View, rating_a: float) -> float:
    """The least ampacity in ampere that a dwelling's service needs; infinite where the family has
    no such allowance."""
    try:
        least = rules_of(view.design).dwelling_service(rating_a)
    except CodesError:
        return math.inf
    return math.inf if least is None else least.value


def _whole(look: Look, feed: Feed) -> bool:
    """Whether nothing that takes current hangs on this leg but through the conductor."""
    situation, circuit = look.studies.situation, look.studies.circuit
    start = circuit.sources[feed.system.source].plus
    before = reached(situation.wires(), start, {feed.branch})
    taken = {node for _, load in situation.loads for node in (load.a, load.b)}
    taken |= {node for face in circuit.faces for node in face.nodes.values()}
    return not before & taken
