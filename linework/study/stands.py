"""Study: where each part stands: in the place of the design, or where somebody says that it does.

One answer is enough for all that is wired to it for good: a trailer beside a house is told on its
inlet or board. Cords, plugs and what lies loose between belong to no place and pass none on. A body
that is wired to nothing is that of what stands aboard, where that is one place only.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from linework.design import Design, PlaceKind, Run
from linework.study.once import once
from linework.study.walks import walk

HERE = "here"


def place_of(design: Design, part: str) -> PlaceKind:
    """The place in which a part stands."""
    return _told(design, design.revision).get(part, design.settings.kind_of_place)


def place_of_run(design: Design, run: Run) -> PlaceKind:
    """The place of a run; of one between two places, as a cord from shore, that which moves."""
    ends = [place_of(design, end.part) for end in (run.a, run.b)]
    return next((place for place in ends if place.aboard), ends[0])


def places(design: Design) -> frozenset[PlaceKind]:
    """Every place in which something of a design stands."""
    told = _told(design, design.revision)
    here = {design.settings.kind_of_place} if len(told) < len(list(design.parts)) else set()
    return frozenset(here | set(told.values()))


@once
def _told(design: Design, _: int) -> dict[str, PlaceKind]:
    """The parts of which it is said, or of what they are wired to, by the nearest that says it; of
    what is said to stand here, in the place of the design."""
    here = design.settings.kind_of_place
    own = {
        part.id: here if answer == HERE else PlaceKind(answer)
        for part in design.parts
        if isinstance(answer := part.ratings.get("stands"), str)
    }

    def beside(part: str) -> Iterator[tuple[str, str]]:
        return ((part, other) for other in _fixed(design, part) if other not in own)

    found: dict[str, PlaceKind] = {}
    reached = walk(own, beside)
    for part, step in reached.items():  # nearest first, so that what led here is known already
        found[part] = own[part] if step is None else found[step[1]]
    return found | _bodies(design, found)


def _bodies(design: Design, told: Mapping[str, PlaceKind]) -> dict[str, PlaceKind]:
    """The bodies wired to nothing, of a design that itself is not aboard."""
    aboard = {place for place in told.values() if place.aboard}
    if len(aboard) != 1 or design.settings.kind_of_place.aboard:
        return {}
    bare = (p.id for p in design.parts if design.kind(p).body and not design.runs_at(p.id))
    return dict.fromkeys(bare, *aboard)


def _fixed(design: Design, part: str) -> Iterator[str]:
    """What is wired or built in beside a part for good."""
    if is_loose(design, part):
        return
    for run in design.runs_at(part):
        if design.run_values(run).pick("installation") != "cord":
            yield from (end.part for end in (run.a, run.b) if end.part != part)
    beside = [seat.host for seat in design.seats_of(part)]
    beside += [seat.part for seat in design.seated_in(part)]
    yield from (other for other in beside if not is_loose(design, other))


def is_loose(design: Design, part: str) -> bool:
    """Whether a part belongs to no place: it lies between what stands somewhere."""
    kind = design.kind(design.part(part))
    return kind.loose or kind.plugs or kind.cord
