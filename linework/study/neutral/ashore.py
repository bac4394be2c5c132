"""What of a drawing stands on shore and what aboard, seen from a vehicle or boat."""

from __future__ import annotations

from collections.abc import Collection, Iterator

from linework.design import Design, Seat
from linework.study.once import once
from linework.study.walks import hanging_together


def ashore(design: Design, owner: str) -> frozenset[str]:
    """All that hangs together with a source from which a hand-moved plug leads on board.

    Empty where no plug parts them: then everything drawn with it counts as on board. The cord of a
    tool and one with nothing at its end part nothing.
    """
    found = wired_with(design, owner)
    on_body = any(design.kind(design.part(part)).body for part in found)
    plugs = {s.part for part in found for s in design.seated_in(part) if _by_plug(design, s)}
    parted = any(_leads_on_board(design, plug) for plug in plugs)
    return found if parted and not on_body else frozenset()


def wired_with(design: Design, part: str) -> frozenset[str]:
    """A part and all that runs and seats join to it; a hand-moved plug joins nothing."""

    def found() -> frozenset[str]:
        return frozenset(hanging_together([part], lambda each: _beside(design, each)))

    return design.worked_out(("wired with", part), found)


def _leads_on_board(design: Design, plug: str) -> bool:
    """Whether a cord leads to an installation, or to what stores or lets in power there; of a plug
    without a cord that is not drawn yet."""
    if not design.kind(design.part(plug)).loose and not design.runs_at(plug):
        return True
    kinds = [design.kind(design.part(part)) for part in _beyond(design, plug)]
    kinds = [kind for kind in kinds if not kind.plugs]
    return any(k.lets_in or k.board or k.transfers or k.body or k.source.stores for k in kinds)


def inlets_fed(design: Design, outlet: str) -> set[str]:
    """The inlets to which cords lead from an outlet."""
    plugs = [seat.part for seat in design.seated_in(outlet)]
    beyond = set[str]().union(*(_beyond(design, plug) for plug in plugs))
    kinds = {part: design.kind(design.part(part)) for part in beyond}
    return {part for part, kind in kinds.items() if kind.lets_in and not kind.plugs}


def _beyond(design: Design, plug: str) -> frozenset[str]:
    def found() -> frozenset[str]:
        return frozenset(hanging_together([plug], lambda part: _onward(design, part)))

    return design.worked_out(("beyond a plug", plug), found)


def _onward(design: Design, part: str) -> Iterator[str]:
    """As what lies beside it, and on through the cords that are put together."""
    yield from _beside(design, part)
    if design.kind(design.part(part)).loose:
        yield from (seat.part for seat in design.seated_in(part))


def loose_leads(design: Design) -> frozenset[str]:
    """The parts that hang together with plugs, outlets and cords alone: leads that lie between an
    outlet and what is plugged in, wherever that is."""
    return _leads(design, design.revision)


@once
def _leads(design: Design, _: int) -> frozenset[str]:
    loose: set[str] = set()
    seen: set[str] = set()
    for part in design.parts:
        if part.id not in seen:
            found = set(hanging_together([part.id], lambda each: _beside(design, each)))
            seen |= found
            loose |= found if _is_lead(design, found) else set()
    return frozenset(loose)


def _is_lead(design: Design, found: Collection[str]) -> bool:
    kinds = [design.kind(design.part(each)) for each in found]
    if not all(kind.plugs or kind.receptacle or kind.loose for kind in kinds):
        return False
    runs = {run.id: run for each in found for run in design.runs_at(each)}
    cords = (design.run_values(r).pick("installation") == "cord" for r in runs.values())
    return any(kind.plugs or kind.loose for kind in kinds) and all(cords)


def seated_with(design: Design, owner: str) -> set[str]:
    """A part and all that sits in it, however deep; a hand-moved plug is not part of it."""

    def inside(part: str) -> Iterator[str]:
        return (s.part for s in design.seated_in(part) if not _by_plug(design, s))

    return set(hanging_together([owner], inside))


def _beside(design: Design, part: str) -> Iterator[str]:
    """What runs and seats join to a part; a hand-moved plug joins nothing."""
    for run in design.runs_at(part):
        yield from (run.a.part, run.b.part)
    for seat in (*design.seated_in(part), *design.seats_of(part)):
        if not _by_plug(design, seat):
            yield from (seat.part, seat.host)


def _by_plug(design: Design, seat: Seat) -> bool:
    return design.kind(design.part(seat.part)).plugs
