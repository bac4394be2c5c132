"""Study: what instruments show at every outlet, themselves part of the circuit."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Literal

import numpy as np

from linework.circuit.model import FaceAt
from linework.circuit.network import IN_USE, Network, NotSolved
from linework.codes import lamp_of_tester
from linework.study.neutral.metal import reaches
from linework.study.situation import Situation
from linework.wiring import Pole

METER_OHM = 1e7
"""Input resistance of the usual digital meter."""

Lamp = Literal["dark", "dim", "lit"]
Picture = Literal[
    "dead",
    "correct",
    "open_ground",
    "open_neutral",
    "open_line",
    "reversed",
    "ground_reversed",
    "too_high",
    "unclear",
]


@dataclass(frozen=True)
class Reading:
    """One outlet in one state.

    ``volts``: between line-neutral, line-ground, neutral-ground with three lamps
    connected; ``lamps`` what they show; ``meter_v`` what a 10 Mohm meter reads
    between the same contacts, one pair at a time. ``ground_whole``: whether the
    ground contact is joined by wire to the ground terminal of the source that
    feeds it (None: nothing feeds it). ``picture``: what the lamps together say.
    """

    face: int
    owner: str
    volts: tuple[float, float, float]
    lamps: tuple[Lamp, Lamp, Lamp]
    meter_v: tuple[float, float, float]
    ground_whole: bool | None
    bonded: bool | None
    picture: Picture


_PAIRS = ((Pole.L, Pole.N), (Pole.L, Pole.PE), (Pole.N, Pole.PE))


def readings(situation: Situation) -> list[Reading]:
    """A reading at every AC outlet with one line; NotSolved where a network is singular."""
    found = []
    for index, face in enumerate(situation.circuit.faces):
        if Pole.L in face.nodes and Pole.N in face.nodes:
            found.append(_reading(situation, index, face))
    return found


def _reading(situation: Situation, index: int, face: FaceAt) -> Reading:
    nodes = face.nodes
    pairs = [(nodes[a], nodes[b]) if b in nodes else None for a, b in _PAIRS]
    present = [pair for pair in pairs if pair is not None]
    model = lamp_of_tester()
    lamps_on = iter(across(situation, present, model.ohm))
    volts = tuple(0.0 if pair is None else next(lamps_on) for pair in pairs)
    meter = tuple(
        math.nan if pair is None else across(situation, [pair], METER_OHM)[0] for pair in pairs
    )
    lamps: tuple[Lamp, ...] = tuple(model.seen(v) for v in volts)
    return Reading(
        index,
        face.owner,
        volts,  # type: ignore[arg-type]
        lamps,  # type: ignore[arg-type]
        meter,  # type: ignore[arg-type]
        ground_whole(situation, face),
        _bonded(situation, face),
        _picture(lamps, volts[0]),
    )


def _frequency(situation: Situation) -> float:
    return max((h for h in situation.hertz if h > 0.0), default=0.0)


def across(situation: Situation, ends: list[tuple[int, int]], ohm: float) -> list[float]:
    """Voltages across resistances put between nodes, all together, in volt rms.

    Where the circuit holds all these nodes together anyway, from its own network: with the
    nodes' open voltages V and their impedances Z, instruments of admittance Y leave
    (1 + Z Y)^-1 V. Otherwise the instruments are what joins them, and a network with them
    inside is solved.
    """
    hertz = _frequency(situation)
    if hertz == 0.0:
        return [0.0] * len(ends)
    net = situation.network(hertz, IN_USE)
    nodes = sorted({n for pair in ends for n in pair})
    label = net.islands.label
    if not any(net.islands.live(n) for n in nodes):
        return [0.0] * len(ends)
    if len({label[n] for n in nodes}) > 1:
        extra = tuple((a, b, complex(1.0 / ohm)) for a, b in ends)
        volts = Network(situation, hertz, IN_USE, extra).open_volts
        return [abs(complex(volts[a] - volts[b])) for a, b in ends]
    if len(ends) == 1:
        (a, b), open_v = ends[0], net.open_volts
        return [abs(complex((open_v[a] - open_v[b]) / (1.0 + net.seen_ohm(a, b) / ohm)))]
    place = {n: i for i, n in enumerate(nodes)}
    taken = np.zeros((len(nodes), len(nodes)), dtype=np.complex128)
    for a, b in ends:
        i, j = place[a], place[b]
        taken[[i, j], [i, j]] += 1.0 / ohm
        taken[[i, j], [j, i]] -= 1.0 / ohm
    z = net.impedances(nodes)
    seen = np.linalg.solve(np.eye(len(nodes)) + z @ taken, net.open_volts[nodes])
    return [abs(complex(seen[place[a]] - seen[place[b]])) for a, b in ends]


def ground_whole(situation: Situation, face: FaceAt) -> bool | None:
    """Whether wire joins the ground contact to the source that feeds line or neutral."""
    owners = {s.owner for pole in (Pole.L, Pole.N) for s in situation.feeds(face.nodes[pole])}
    if not owners:
        return None
    if Pole.PE not in face.nodes:
        return False
    return reaches(situation, situation.clusters, face.nodes[Pole.PE], tuple(owners))


def _bonded(situation: Situation, face: FaceAt) -> bool | None:
    """Whether the neutral of the source that feeds this outlet meets its ground contact."""
    fed = [s for pole in (Pole.L, Pole.N) for s in situation.feeds(face.nodes[pole])]
    if not fed or Pole.PE not in face.nodes:
        return None
    label = situation.conductive
    back = label[situation.circuit.sources[fed[0].source].minus]
    return label[face.nodes[Pole.PE]] == back


_PICTURES: dict[tuple[bool, ...], Picture] = {
    (False, False, False): "dead",
    (True, True, False): "correct",
    (True, False, False): "open_ground",
    (False, True, False): "open_neutral",
    (True, False, True): "reversed",
    (False, True, True): "ground_reversed",
}
"""Which lamps are lit (line-neutral, line-ground, neutral-ground), and what that says."""


def _picture(lamps: tuple[Lamp, ...], line_neutral_v: float) -> Picture:
    """What three lamps together say (handbook table of three-lamp testers)."""
    if line_neutral_v > 150.0:
        return "too_high"
    return _PICTURES.get(tuple(lamp == "lit" for lamp in lamps), "unclear")


__all__ = [
    "METER_OHM",
    "NotSolved",
    "Reading",
    "across",
    "ground_whole",
    "readings",
]
