"""How power flows between parts: what stands together, and what feeds what, from which side."""

from __future__ import annotations

from collections import Counter
from collections.abc import Collection
from dataclasses import replace

from linework.design import Design, End, Part, Run, changed
from linework.design.names import natural
from linework.kinds import STRIP, Kind
from linework.picture.geometry import MODULE, Box, joined_boxes
from linework.picture.symbolfile import Direction
from linework.sheet.arranging.feeding import GIVES, flows, role_of
from linework.sheet.arranging.scheme import Joint, Port, Scheme, Unit
from linework.sheet.parts import draw_parts, fork_key, is_bar, is_board, is_moved_by_hand, seat_of
from linework.sheet.routing import end_of
from linework.wiring import is_dc

_ORDER = (*STRIP, "")
_HEADER, _UNDER = 150, 50
"""Over a board, source or converter: its name and what is told of it; under it: what is free of
it, and the stubs of its ground."""
_LINE = 75
"""Over and under what lies in a line: its name, its rating."""
_LOAD = 50
"""Half of the height of a load, whose writing stands at its right."""
_BESIDE = 300
"""What the writing at the right of a load needs at least."""


class Flow:
    """The scheme of a design, all of whose parts lie at the origin.

    Runs to a body, an electrode or another ground terminal join nothing here: they are drawn as
    stubs. What takes its power at its right is mirrored.
    """

    def __init__(self, design: Design) -> None:
        self._read(_at_origin(design, ()))
        mirrored = [key for key in self.members if self._is_against(key)]
        if mirrored:
            self._read(_at_origin(design, mirrored))

    def _read(self, design: Design) -> None:
        self.design = design
        self.drawings = draw_parts(design)
        parts = sorted(design.parts, key=lambda part: (natural(part.designation), part.id))
        self.owner = {part.id: self._top(part).id for part in parts}
        self.members: dict[str, list[str]] = {}
        for part in parts:
            self.members.setdefault(self.owner[part.id], []).append(part.id)
        units = [self._unit(key) for key in self.members]
        self.scheme = Scheme(
            {unit.id: unit for unit in sorted(units, key=lambda unit: unit.order)},
            tuple(joint for joint in self._joints() if joint.source.unit != joint.target.unit),
        )

    def kind(self, key: str) -> Kind:
        """The kind of the part of that id."""
        return self.design.kind(self.design.part(key))

    def _is_against(self, key: str) -> bool:
        """Whether a unit would lie better mirrored: it takes at its right and gives at its left."""
        if len(self.members[key]) > 1 or self.kind(key).plugs:
            return False
        good = Counter[bool]()
        for joint in self.scheme.joints:
            if joint.target.unit == key and not joint.meets:
                good[joint.target.side != "right"] += 1
            elif key in (joint.source.unit, joint.target.unit):
                port = joint.source if joint.source.unit == key else joint.target
                good[port.side != "left"] += 1
        return good[False] > good[True]

    # units

    def _unit(self, key: str) -> Unit:
        part, members = self.design.part(key), self.members[key]
        box = joined_boxes(self.drawings[member].whole for member in members)
        assert box is not None, "it is a member of its own"
        strip = self.kind(key).strip
        direct = all(self._is_direct(self.design.part(member)) for member in members)
        rank = (_ORDER.index(strip), natural(part.designation))
        board, in_line = is_board(self.design, part), self._is_in_line(key)
        return Unit(key, box, self._roomy(key, box), direct, strip, board, rank, in_line)

    def _is_in_line(self, key: str) -> bool:
        kind = self.kind(key)
        return kind.strip in ("protection", "switching") and not kind.transfers

    def _roomy(self, key: str, box: Box) -> Box:
        """The box of a unit with what is to be written at it."""
        kind = self.kind(key)
        if kind.strip == "loads":
            middle = self.drawings[key].y
            top, bottom = min(box.top, middle - _LOAD), max(box.bottom, middle + _LOAD)
            return Box(box.left, top, box.right + _BESIDE, bottom)
        if self._is_in_line(key):
            return Box(box.left, box.top - _LINE, box.right, box.bottom + _LINE)
        return Box(box.left, box.top - _HEADER, box.right, box.bottom + _UNDER)

    def _is_direct(self, part: Part) -> bool:
        terminals = self.design.kind(part).terminals(self.design.values(part))
        return all(is_dc(pole) for t in terminals if t.role != "tie" for pole in t.poles)

    def _top(self, part: Part) -> Part:
        """The part in which all of this sits."""
        seat = seat_of(self.design, part)
        while seat is not None:
            part = self.design.part(seat.host)
            seat = seat_of(self.design, part)
        return part

    # joints

    def _joints(self) -> list[Joint]:
        runs = [run for run in self.design.runs if not self.is_grounding(run)]
        ways = flows(self.design, runs)
        runs.sort(key=lambda run: (natural(run.designation), run.id))
        return [*(self._joint(run, *ways[run.id]) for run in runs), *self._plugs()]

    def _plugs(self) -> list[Joint]:
        """From each outlet to the hand-moved plugs that may be put in."""
        found = []
        for part in self.design.parts:
            if not is_moved_by_hand(self.design, part):
                continue
            pins = self._port(End(part.id, self.design.kind(part).seat), "left")
            for seat in self.design.seats_of(part.id):
                at = self.drawings[seat.host].places.get(seat.place)
                if at:
                    place = Port(self.owner[seat.host], f"{seat.host}.{seat.place}", *at)
                    found.append(Joint(seat.id, place, pins, plug=True))
        return sorted(found, key=lambda joint: (joint.target.name, joint.source.name))

    def _joint(self, run: Run, a: str, b: str) -> Joint:
        one, other = run.a, run.b
        meets = a == b
        if a != GIVES or (meets and self._is_bar(one) and not self._is_bar(other)):
            one, other = other, one
        direct = all(self._is_direct(self.design.part(end.part)) for end in (one, other))
        meets = meets and not self._is_bar(other)
        ports = self._run_port(run, one, "right"), self._run_port(run, other, "left")
        return Joint(run.id, *ports, meets, direct)

    def _run_port(self, run: Run, end: End, side: Direction) -> Port:
        """Where a run ends, at its own arm where a terminal is forked."""
        arm = fork_key(self.design, run, end)
        if arm not in self.drawings[end.part].anchors:
            arm = end.terminal
        return self._port(End(end.part, arm), side)

    def _port(self, end: End, side: Direction) -> Port:
        """``side``: where the lead goes, if it may go to either."""
        name = f"{end.part}.{end.terminal}"
        x, y, drawn = end_of(self.drawings, end.part, end.terminal)
        if self._is_bar(end):
            x, drawn = MODULE if side == "right" else -MODULE, side
        return Port(self.owner[end.part], name, x, y, drawn)

    def _is_bar(self, end: End) -> bool:
        return is_bar(self.design, self.design.part(end.part))

    def is_grounding(self, run: Run) -> bool:
        """Whether a run is drawn as a stub with the sign of what it is joined to."""
        kinds = [self.kind(end.part) for end in (run.a, run.b)]
        if any(kind.body or kind.electrode for kind in kinds):
            return True
        return any(role_of(self.design, end) == "tie" for end in (run.a, run.b))


def _at_origin(design: Design, mirrored: Collection[str]) -> Design:
    copy = design.snapshot()
    straight = [
        (part, replace(part, x=0, y=0, turn=0, mirror=part.id in mirrored)) for part in design.parts
    ]
    copy.apply(changed("", straight))
    return copy
