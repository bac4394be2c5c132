"""Service conductors that are too thin by ampacity and right for a dwelling."""

from __future__ import annotations

from linework.circuit.model import Device
from linework.codes import Worked
from linework.design import PlaceKind
from linework.findings.model import NotChecked
from linework.findings.view import Look, View
from linework.study.protection import Feed, reached
from linework.study.slack import within
from linework.words import N_

ASK = N_(
    "{run} carries all that {source} feeds. If that is one dwelling, {device} of {rating} A may"
    " protect conductors of {ampacity} A there; in any other building {device} is too large"
)
SHARE = 0.83
"""Least ampacity of a dwelling's service conductors over its rating (310.12, from memory)."""
SMALLEST_A, LARGEST_A = 100.0, 400.0


def dwelling_verdict(
    view: View, look: Look, feed: Feed, device: Device, ampacity: Worked[float]
) -> NotChecked | None:
    """What decides, for 120/240 V conductors that carry the whole load of a building (NFPA 70
    310.12); None where they are too thin even for a dwelling, or carry only a part."""
    rating = device.data.rating_a
    source = look.studies.circuit.sources[feed.system.source]
    values = view.values(source.owner)
    legs = source.data.group.off_site and values.pick("circuit") == "split"
    sized = SMALLEST_A <= rating <= LARGEST_A and within(SHARE * rating, ampacity.value)
    fixed = view.run_values(feed.run).pick("installation") != "cord"
    dwelling = view.family == "NA" and view.place is PlaceKind.BUILDING
    if not (dwelling and legs and sized and fixed and _whole(look, feed)):
        return None
    words = {
        "run": view.name(feed.run),
        "source": view.name(source.owner),
        "device": view.name(device.owner),
        "rating": f"{rating:g}",
        "ampacity": f"{ampacity.value:.3g}",
    }
    return NotChecked(ASK, words, (feed.run, device.owner))


def _whole(look: Look, feed: Feed) -> bool:
    """Whether nothing that takes current hangs on this leg but through the conductor."""
    situation, circuit = look.studies.situation, look.studies.circuit
    start = circuit.sources[feed.system.source].plus
    before = reached(situation.wires(), start, {feed.branch})
    taken = {node for _, load in situation.loads for node in (load.a, load.b)}
    taken |= {node for face in circuit.faces for node in face.nodes.values()}
    return not before & taken
