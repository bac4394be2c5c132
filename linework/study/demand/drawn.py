"""What is drawn of a dwelling, and of the circuits of a vehicle, for their load calculations."""

from __future__ import annotations

from collections.abc import Collection

from linework.circuit import expand
from linework.codes import CodesError, configuration
from linework.design import Design, Part, PlaceKind
from linework.design.names import natural
from linework.study.demand.dwelling import Appliance, Dwelling, Use
from linework.study.stands import place_of

_M2_PER_FT2 = 0.3048**2
_OUTLET_A = 20.0
"""What is plugged into outlets of up to so many ampere counts with them (220.14(J)(1))."""


def is_dwelling(design: Design, supply: Part) -> bool:
    """Whether it is said that a supply feeds one dwelling and nothing else."""
    values = design.values(supply)
    return "serves" in values.declared and values.pick("serves") == "dwelling"


def drawn_dwelling(design: Design, supply: Part, fed: Collection[str]) -> Dwelling | None:
    """The dwelling that a supply feeds, of the loads ``fed`` (part ids); None where no floor area
    is given."""
    values = design.values(supply)
    area = values.opt("floor_area") if "floor_area" in values.declared else None
    if area is None:
        return None
    va: dict[str, float] = {}
    for load in expand(design).loads:
        if load.owner in fed and design.kind(design.part(load.owner)).consumes:
            plate = load.data.watts / load.data.power_factor
            va[load.owner] = va.get(load.owner, 0.0) + plate
    parts = sorted((design.part(owner) for owner in va), key=lambda p: natural(p.designation))
    appliances = (_appliance(design, part, va[part.id]) for part in parts)
    counted = tuple(a for a in appliances if a.use is not Use.OUTLETS)
    return Dwelling(area / _M2_PER_FT2, counted)


def _appliance(design: Design, part: Part, va: float) -> Appliance:
    kind, values = design.kind(part), design.values(part)
    between = values.pick("circuit") in ("ac240", "split")
    said = values.pick("dwelling_use") if "dwelling_use" in values.declared else Use.UNSAID
    use = Use(said)
    small = va <= _OUTLET_A * values.num("voltage") and not between
    if use is Use.UNSAID and (kind.lights or (not kind.fixed and small)):
        use = Use.OUTLETS
    return Appliance(part.designation, va, use, kind.turns, between)


# vehicles


def vehicle_circuits(design: Design) -> int:
    """The circuits on alternating current of recreational vehicles: breakers of their boards from
    which a wire leads on."""
    found = 0
    for board in design.parts:
        values = design.values(board)
        if not design.kind(board).board or values.pick("circuit") == "dc":
            continue
        if place_of(design, board.id) is PlaceKind.RECREATIONAL:
            found += sum(1 for seat in design.seated_in(board.id) if design.runs_at(seat.part))
    return found


def inlets_aboard(design: Design) -> dict[str, float | None]:
    """The inlets of recreational vehicles with what they are made for, in ampere; None where that
    is not said."""
    return {
        part.id: _contacts_a(design.values(part).text("configuration"))
        for part in design.parts
        if design.kind(part).lets_in
        and not design.kind(part).plugs
        and place_of(design, part.id) is PlaceKind.RECREATIONAL
    }


def _contacts_a(name: str) -> float | None:
    try:
        return configuration(name).amps
    except CodesError:
        return None
