"""What current a part that power passes through is made for, and where that is asked."""

from __future__ import annotations

from dataclasses import dataclass

from linework.circuit.model import Circuit, Spot
from linework.codes import CodesError, configuration, mates, stated
from linework.design import Design
from linework.design.names import natural
from linework.kinds import Carries, Kind, Values
from linework.kinds.common import poles_of
from linework.study.once import once
from linework.study.wires.ratings import rules_of
from linework.wiring import Pole, is_protective, is_ungrounded


def circuit_of_plug_a(amps: float) -> float:
    """The largest circuit in ampere to which a plug or outlet belongs by its rating: those of 15 A
    belong on circuits of 20 A too (NFPA 70 table 210.21(B)(3))."""
    small = amps == stated("common", "small_plug").value
    return stated("common", "small_plug_circuit").value if small else amps


_CORD_C, _CORD_AIR_C = 60.0, 30.0


@dataclass(frozen=True)
class Rated:
    """One part: ampere it is made for, the largest device before it, and its live nodes.

    ``given`` False: the figure is a default, ``plugs``: it goes in and out by contacts.
    """

    part: str
    kind: Kind
    amps: float
    device_a: float
    nodes: tuple[int, ...]
    given: bool = True
    plugs: bool = True

    @property
    def bare_a(self) -> float:
        """What a source may drive into it with no device before it: as ``device_a``, but outlets of
        15 A are fit for a circuit of 20 A."""
        fit_a = circuit_of_plug_a(self.amps) if self.kind.receptacle else 0.0
        return max(fit_a, self.device_a)


def ends_of(design: Design, host: str) -> list[str]:
    """What is plugged into a face, through adapters and cord sets; an empty one of these is an end
    itself."""
    found: list[str] = []
    for seat in design.seated_in(host):
        loose = design.kind(design.part(seat.part)).loose
        found += (ends_of(design, seat.part) or [seat.part]) if loose else [seat.part]
    return found


@once
def rated_parts(circuit: Circuit, design: Design) -> list[Rated]:
    """Every part that is asked, at the ends that count; left out is what no table knows, and what
    does not enter the outlet it is drawn in (plug-does-not-mate says both)."""
    found: list[Rated] = []
    for part in sorted(design.parts, key=lambda p: natural(p.designation)):
        try:
            if _misfits(design, part.id):
                continue
            found += _of(design, circuit, part.id)
        except CodesError:
            continue
    return found


def _misfits(design: Design, part: str) -> bool:
    """Whether something that plugs in does not enter a face it is drawn in."""
    if "configuration" not in design.kind(design.part(part)).declared:
        return False
    own = design.values(design.part(part)).text("configuration")
    for seat in design.seats_of(part):
        places = design.kind(design.part(seat.host)).places(design.values(design.part(seat.host)))
        offered = next((p.configuration for p in places if p.name == seat.place), "")
        if offered and not mates(own, offered).fits:
            return True
    return False


def _of(design: Design, circuit: Circuit, part: str) -> list[Rated]:
    kind, values = design.kind(design.part(part)), design.values(design.part(part))
    if kind.cord:
        return _cord_set(design, circuit, part, values)
    return [
        _one(circuit, part, kind, values, each) for each in kind.carries if values.has(each.rating)
    ]


def _one(circuit: Circuit, part: str, kind: Kind, values: Values, limit: Carries) -> Rated:
    nodes, key = _nodes(circuit, part, limit.terminal), limit.rating
    if kind.declared[key].quantity != "configuration":
        amps = values.num(key)
        return Rated(part, kind, amps, amps, nodes, values.given(key), plugs=False)
    amps = configuration(values.text(key)).amps
    device_a = amps if kind.receptacle else circuit_of_plug_a(amps)
    return Rated(part, kind, amps, device_a, nodes)


def _cord_set(design: Design, circuit: Circuit, part: str, values: Values) -> list[Rated]:
    """A cord set by its mark, else by the table for cords; its ends count too."""
    ends = [configuration(values.text(key)).amps for key in ("configuration", "connector")]
    amps = min(ends)
    device_a = circuit_of_plug_a(amps)
    if values.has("marked"):
        amps = min(amps, values.num("marked"))
    elif values.has("size"):
        amps = min(amps, cord_ampacity(design, values))
    device_a = min(device_a, _before_cord_a(design, values, amps))
    return [
        Rated(part, design.kind(design.part(part)), amps, device_a, _nodes(circuit, part, "face"))
    ]


def _before_cord_a(design: Design, values: Values, amps: float) -> float:
    """The device in ampere that a cord of so much ampacity may have before it."""
    try:
        more = rules_of(design).cord_device(values.text("size"), amps)
    except CodesError:  # no size, or a family that grants no more
        return amps
    return amps if more is None else more.value


def cord_ampacity(design: Design, values: Values) -> float:
    """Ampacity of the cord of a cord set in ampere. CodesError where no table has its size."""
    rules = rules_of(design)
    counted = rules.counted_conductors(poles_of(values)).value
    return rules.ampacity(
        values.text("size"),
        "copper",
        _CORD_C,
        laid="cord",
        ambient_c=_CORD_AIR_C,
        grouped=counted,
        terminal_c=None,
    ).value


def _nodes(circuit: Circuit, part: str, terminal: str) -> tuple[int, ...]:
    """The live nodes of a terminal or an inner bar; of every terminal where none is named, of what
    has none the returns."""
    if terminal:
        spots = [Spot(part, terminal, pole) for pole in Pole if is_ungrounded(pole)]
        return tuple(circuit.node_of[spot] for spot in spots if spot in circuit.node_of)
    ends = [item for nodes in circuit.terminals_of.get(part, ()) for item in nodes.items()]
    live = tuple(node for pole, node in ends if is_ungrounded(Pole(pole)))
    return live or tuple(dict.fromkeys(n for pole, n in ends if not is_protective(Pole(pole))))
