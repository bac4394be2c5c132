"""How power flows between parts: what stands together, and what feeds what."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, field

from linework.design import Design, End, Part
from linework.kinds import STRIP
from linework.picture.geometry import MODULE, Box, joined_boxes
from linework.sheet.lettering import block_height
from linework.sheet.parts import PartDrawing, draw_parts, is_moved_by_hand, seat_of, wanted_for_part
from linework.sheet.routing import end_of
from linework.wiring import is_dc

_ORDER = (*STRIP, "")


@dataclass
class Unit:
    """A part with all that sits in it, about its origin. ``roomy``: the box with its writing."""

    part: Part
    box: Box
    roomy: Box
    members: list[str] = field(default_factory=list)
    column: int = 0
    x: int = 0
    y: int = 0

    @property
    def id(self) -> str:
        """That of the part in which all the others sit."""
        return self.part.id


@dataclass(frozen=True)
class Joint:
    """Power flows from one unit to another; heights of the two ends about the units' origins."""

    source: str
    target: str
    out_y: int
    in_y: int


class Flow:
    """Units and joints of a design whose parts all lie at the origin."""

    def __init__(self, design: Design) -> None:
        self.design = design
        self.drawings = draw_parts(design)
        self.owner: dict[str, str] = {}
        self.units = self._units()
        self.joints = self._joints()

    def strip(self, unit: Unit) -> str:
        """Where its kind lies in the order of the flow."""
        return self.design.kind(unit.part).strip

    def first(self, unit: Unit) -> tuple[int, bool, str]:
        """The order of what wants to lie at one height: along the flow, direct current below."""
        terminals = self.design.kind(unit.part).terminals(self.design.values(unit.part))
        direct = any(is_dc(pole) for terminal in terminals for pole in terminal.poles)
        return _ORDER.index(self.strip(unit)), direct, unit.part.designation

    def counts(self, joint: Joint) -> bool:
        """A converter stands beside its battery, not behind the board that charges it."""
        source, target = self.units[joint.source], self.units[joint.target]
        return self.strip(target) != "conversion" or self.strip(source) == "sources"

    def ahead(self, keys: Iterable[str]) -> dict[str, list[str]]:
        """What each of some units feeds among them."""
        among = set(keys)
        found: dict[str, list[str]] = {key: [] for key in sorted(among)}
        for joint in self.joints:
            if joint.source in among and joint.target in among and self.counts(joint):
                found[joint.source].append(joint.target)
        return found

    def order(self, keys: Iterable[str]) -> list[str]:
        """An order in which, rings aside, whatever feeds stands before what it feeds."""
        ahead = self.ahead(keys)
        done: list[str] = []
        seen: set[str] = set()
        for first in sorted(ahead, key=lambda key: self.first(self.units[key]), reverse=True):
            # Not recursive: a chain may be as long as the design.
            ways = [(first, iter([first]))]
            while ways:
                key, rest = ways[-1]
                target = next((target for target in rest if target not in seen), None)
                if target is not None:
                    seen.add(target)
                    ways.append((target, iter(ahead[target])))
                else:
                    done += [key] if len(ways) > 1 else []
                    ways.pop()
        return done[::-1]

    def _units(self) -> dict[str, Unit]:
        found: dict[str, Unit] = {}
        for part in sorted(self.design.parts, key=lambda part: (part.designation, part.id)):
            top = self._top(part)
            self.owner[part.id] = top.id
            drawing = self.drawings[part.id]
            roomy = with_writing(drawing)
            unit = found.setdefault(top.id, Unit(top, drawing.whole, roomy))
            unit.box = unit.box.joined(drawing.whole)
            unit.roomy = unit.roomy.joined(roomy)
            unit.members.append(part.id)
        return found

    def _top(self, part: Part) -> Part:
        """The part in which all of this sits."""
        seen = set()
        while part.id not in seen:
            seen.add(part.id)
            seat = seat_of(self.design, part)
            if seat is None:
                break
            part = self.design.part(seat.host)
        return part

    def _joints(self) -> list[Joint]:
        runs = sorted(self.design.runs, key=lambda run: run.id)
        ties = {run.id for run in runs if self._is_tie(run.a) or self._is_tie(run.b)}
        found = [self._joint(run.a, run.b) for run in runs if run.id not in ties]
        for part in self.design.parts:
            if is_moved_by_hand(self.design, part):
                pins = self.design.kind(part).seat
                for seat in self.design.seats_of(part.id):
                    at = self.drawings[seat.host].places.get(seat.place)
                    out_y = at[1] if at else 0
                    in_y = end_of(self.drawings, part.id, pins)[1]
                    found.append(Joint(self.owner[seat.host], part.id, out_y, in_y))
        return [joint for joint in found if joint.source != joint.target]

    def _joint(self, a: End, b: End) -> Joint:
        """From where power comes: an output before an input, else as the run was drawn."""
        if self._role(a) == "in" or self._role(b) == "out":
            a, b = b, a
        ay = end_of(self.drawings, a.part, a.terminal)[1]
        by = end_of(self.drawings, b.part, b.terminal)[1]
        return Joint(self.owner[a.part], self.owner[b.part], ay, by)

    def _role(self, end: End) -> str:
        part = self.design.part(end.part)
        terminals = self.design.kind(part).terminals(self.design.values(part))
        return next((t.role for t in terminals if t.name == end.terminal), "both")

    def _is_tie(self, end: End) -> bool:
        return self._role(end) == "tie"


def with_writing(drawing: PartDrawing) -> Box:
    """The symbol with its label beside it, or with room for all of it above and below."""
    options = wanted_for_part(drawing, 0).options
    first = [hung.box() for hung in options[0]] if options else []
    whole = drawing.whole
    if len(first) == 1 and (first[0].left >= whole.right or first[0].bottom <= whole.top):
        return whole.joined(first[0])
    up = block_height(drawing.labels) + 2 * MODULE
    wide = joined_boxes([whole, *first]) or whole
    return Box(wide.left, whole.top - up, wide.right, whole.bottom + up)
