"""Draws a run from a terminal to a terminal: those that can take it light up, others say why."""

from __future__ import annotations

from linework.bench.paper import edits
from linework.bench.paper.elbow import elbow, elbow_to
from linework.bench.paper.hits import terminals
from linework.bench.paper.overlay import Lit
from linework.bench.paper.pole_choice import PoleChoice, plain_choice, pole_choices, why_not_joined
from linework.bench.paper.surface import Surface, snapped, snapped_point
from linework.bench.paper.targets import Target, onto_target, place_target
from linework.bench.paper.tools.tool import Spot, Tool
from linework.design import Change, End, Run, terminal_at
from linework.design.edits.seats import places_of
from linework.picture.geometry import Point
from linework.sheet.parts import End as Drawn
from linework.sheet.routing import end_of
from linework.words import say


class JoinTool(Tool):
    """A run on its way from one terminal."""

    def __init__(self, surface: Surface, start: End) -> None:
        self._surface = surface
        self._start = start
        self._from: Drawn = end_of(surface.layout.drawings, start.part, start.terminal)
        surface.light(self._lit())

    def _lit(self) -> list[Lit]:
        """The terminals in view that can take the run."""
        surface, found = self._surface, []
        view = surface.visible
        seen = [
            drawing
            for drawing in surface.layout.drawings.values()
            if any(view.holds(x, y) for x, y, _ in drawing.anchors.values())
        ]
        for end, at in terminals(surface.design, seen):
            if end.part != self._start.part:
                choices = pole_choices(surface.design, self._start, end)
                if choices:
                    found.append(Lit(*at, asks=plain_choice(choices) is None))
        return found

    # following

    def move(self, spot: Spot) -> None:
        """The run follows; at a terminal or part that cannot take it, the reason is said."""
        end, seat = self._where(spot)
        if seat is not None:
            host = self._surface.design.part(seat.element)
            into = say("into {host}, place {place}", host=host.designation, place=seat.place)
            if seat.sort == "onto":
                into = say("its free end into {host}", host=host.designation)
            self._surface.hint(seat.refusal or into)
            self._surface.show_lines([elbow_to(self._from, (seat.x, seat.y))])
            return
        if end is None:
            self._surface.hint("")
            self._surface.show_lines([elbow_to(self._from, snapped_point(spot.at))])
            return
        self._surface.hint(why_not_joined(self._surface.design, self._start, end))
        drawn = end_of(self._surface.layout.drawings, end.part, end.terminal)
        self._surface.show_lines([elbow(self._from, drawn)])

    def _where(self, spot: Spot) -> tuple[End | None, Target | None]:
        """The terminal, or the place for the start's own part, at the pointer."""
        found = self._surface.hit(spot.at)
        onto = self._onto(found.at) if found.sort in ("part", "terminal") else None
        if onto is not None:
            return None, onto
        seat = self._seat(found.at) if found.sort == "terminal" else None
        if seat is not None and (seat.element, seat.place) == (found.element, found.terminal):
            return None, seat
        if found.sort == "terminal" and found.element != self._start.part:
            return End(found.element, found.terminal), None
        if found.sort not in ("part", "terminal") or found.element == self._start.part:
            return None, None
        seat = self._seat(found.at)
        if seat is not None:
            return None, seat
        return best_terminal(self._surface, self._start, found.element, found.at), None

    def _onto(self, at: Point) -> Target | None:
        """What goes on the face of a cord from which the run was begun, as an inlet does."""
        design, part = self._surface.design, self._start.part
        places = {place.name for place in places_of(design, design.part(part))}
        if self._start.terminal not in places:
            return None
        layout = self._surface.layout
        return onto_target(self._surface.design, layout, part, at, self._start.terminal)

    def _seat(self, at: Point) -> Target | None:
        """A place, where the run was begun at the terminal by which its part sits in places."""
        surface, design = self._surface, self._surface.design
        part = design.part(self._start.part)
        kind = design.kind(part)
        if not kind.seat or kind.seat != self._start.terminal:
            return None
        if design.runs_at(part.id, kind.seat):
            return None

        def refuses(host: str, place: str) -> str:
            return edits.why_no_place(design, part.id, host, place)

        return place_target(design, surface.layout, at, kind.roles, refuses, part.id)

    # letting go

    def release(self, spot: Spot) -> None:
        """One run, or one seat; where it must be known which conductor goes where, it is asked."""
        surface = self._surface
        surface.clear()
        end, seat = self._where(spot)
        if seat is not None:
            self._sit(seat)
        elif end is not None:
            self._join(end, spot.asks)
        elif surface.hit(spot.at).sort == "run":
            surface.refuse(say("a run ends at a terminal; put a junction box into this run first"))

    def _sit(self, target: Target) -> None:
        if target.refusal:
            self._surface.refuse(target.refusal)
            return
        part = self._start.part
        if target.sort == "onto":
            x, y, _ = self._from
            by = snapped(target.x - x), snapped(target.y - y)
            self._surface.make(
                lambda: edits.put_onto(self._surface.design, part, target.element, target.place, by)
            )
            return
        self._surface.make(
            lambda: edits.move_to_place(self._surface.design, part, target.element, target.place)
        )

    def _join(self, end: End, ask: bool) -> None:
        design = self._surface.design
        choices = pole_choices(design, self._start, end)
        if not choices:
            self._surface.refuse(why_not_joined(design, self._start, end))
            return
        plain = plain_choice(choices)
        if plain is not None and not ask:
            self._take(end, plain)
        else:
            labels = [choice.label for choice in choices]
            self._surface.ask(labels, lambda number: self._take(end, choices[number]))

    def _take(self, end: End, choice: PoleChoice) -> None:
        surface = self._surface
        change = surface.make(lambda: self._edit(end, choice))
        if change is not None:
            surface.select(new.id for _, new in change.pairs.values() if isinstance(new, Run))

    def _edit(self, end: End, choice: PoleChoice) -> Change:
        return edits.join(self._surface.design, self._start, end, choice.poles, choice.circuit)

    def cancel(self) -> None:
        """The run goes."""
        self._surface.clear()


def best_terminal(surface: Surface, start: End, part_id: str, at: Point) -> End | None:
    """The terminal of a part that fits a run best, None where the part has none.

    First those that can take it without asking, then those to which nothing runs yet, then those
    that carry more conductors, then the nearest to the point.
    """
    design = surface.design
    found: list[tuple[tuple[int, int, int, int], str]] = []
    for end, (x, y) in terminals(design, [surface.layout.drawings[part_id]]):
        choices = pole_choices(design, start, end)
        terminal = terminal_at(design, end)
        poles = 0 if terminal is None else len(terminal.poles)
        fits = 0 if plain_choice(choices) else (1 if choices else 2)
        used = len(design.runs_at(part_id, end.terminal))
        off = abs(x - at[0]) + abs(y - at[1])
        found.append(((fits, used, -poles, off), end.terminal))
    return End(part_id, min(found)[1]) if found else None
