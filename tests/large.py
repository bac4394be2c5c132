"""Large designs that branch out as wiring does, for tests of speed and memory."""

from __future__ import annotations

from linework.design import Design, Draft

CIRCUITS = 10
"""Circuits of a last board."""
BOARDS = 12
"""Boards that one board feeds."""
CORDS = 2
"""So many outlets have a cord in them: each plug doubles the states."""


def estate(parts: int) -> Design:
    """A supply, a main board, sub-boards of it and of those, and last boards with circuits: through
    junction boxes to fixed loads, and through outlets and cords to what is plugged in."""
    pen = _Pen(parts)
    pen.draft.part(
        "supply", "GS1", outage="no", prospective="10 kA", breaker="400 A", circuit="split"
    )
    pen.board("GS1.out", "4/0 AWG", "400 A")
    pen.fill()
    return pen.draft.design


class _Pen:
    """Draws board by board until there are parts enough."""

    def __init__(self, parts: int) -> None:
        self.draft, self._parts, self._next = Draft(place="building"), parts, 0
        self._boards: list[str] = []
        self._cords = 0

    @property
    def full(self) -> bool:
        return len(self.draft.design.parts) >= self._parts

    def name(self, letters: str) -> str:
        self._next += 1
        return f"{letters}{self._next}"

    def part(self, kind: str, letters: str, **ratings: str) -> str:
        name = self.name(letters)
        self.draft.part(kind, name, **ratings)
        return name

    def board(self, start: str, size: str, bus: str) -> None:
        board = self.part("panel", "QP", bond="absent", places="42", bus=bus, circuit="split")
        self.draft.run(start, f"{board}.feed", size=size, length="40 ft")
        self._boards.append(board)

    def fill(self) -> None:
        """Boards that feed boards while many parts are to come, else circuits."""
        while self._boards and not self.full:
            board = self._boards.pop(0)
            left = self._parts - len(self.draft.design.parts)
            here = len(self._boards) + 1
            if left > here * CIRCUITS * 4:
                self.feeders(board)
            else:
                self.circuits(board)

    def breaker(self, board: str, place: int, **ratings: str) -> str:
        breaker = self.part("breaker", "QF", interrupting="22 kA", **ratings)
        self.draft.seat(breaker, board, str(place))
        return f"{breaker}.load"

    def feeders(self, board: str) -> None:
        for place in (1, 2, *range(5, 2 * BOARDS, 4), *range(6, 2 * BOARDS, 4)):
            if not self.full:
                start = self.breaker(board, place, rating="100 A", circuit="split")
                self.board(start, "1 AWG", "125 A")

    def circuits(self, board: str) -> None:
        for place in range(1, CIRCUITS + 1):
            if not self.full:
                start = self.breaker(board, place, rating="20 A")
                (self.fixed if place % 2 else self.plugged)(start)

    def fixed(self, start: str) -> None:
        """A junction box and two loads behind it."""
        box = self.part("junction_box", "XJ")
        self.draft.run(start, f"{box}.a", size="12 AWG", length="30 ft")
        for side in "bc":
            load = self.part("load", "EA", power="300 W")
            self.draft.run(f"{box}.{side}", f"{load}.in", size="12 AWG", length="15 ft")

    def plugged(self, start: str) -> None:
        """Two outlets one behind the other; a cord in the first, and a load at its end."""
        outlet = self.part("outlet", "XD", ground_fault="class_a")
        self.draft.run(start, f"{outlet}.feed", size="12 AWG", length="40 ft")
        onward = self.part("outlet", "XD")
        self.draft.run(f"{outlet}.onward", f"{onward}.feed", size="12 AWG", length="10 ft")
        self._cords += 1
        if self._cords > CORDS:
            return
        cord = self.part("cord_set", "WX", size="14 AWG", length="15 ft")
        self.draft.seat(cord, outlet, "face")
        load = self.part("plug_load", "EP", power="200 W")
        self.draft.seat(load, cord, "face")
