"""Mistakes at breakers, fuses and ground-fault devices."""

from __future__ import annotations

from collections.abc import Iterator

from linework.design import Design, Part, Run
from linework.design.elements import End
from tests.trial.mistakes.change import (
    Made,
    added,
    ends,
    gone,
    joined,
    moved_end,
    parts,
    poles_of,
    rated,
    rated_run,
    seated,
    standard,
    told,
    tried,
)


def _around(design: Design, part: Part) -> tuple[str, ...]:
    """A part with its runs and what sits in it."""
    wires = [item for run in design.runs_at(part.id) for item in ends(run)]
    return tuple(dict.fromkeys((part.id, *wires, *(s.part for s in design.seated_in(part.id)))))


def breaker_two_up(design: Design) -> Iterator[Made]:
    """A breaker two sizes larger."""
    for item in parts(design, "breaker"):
        rating = standard(told(item).figure("rating"), 2)
        yield from tried(design, _around(design, item), rated(item.id, rating=rating))


def fuse_three_up(design: Design) -> Iterator[Made]:
    """A fuse three sizes larger."""
    for item in parts(design, "fuse"):
        rating = standard(told(item).figure("rating"), 3)
        yield from tried(design, _around(design, item), rated(item.id, rating=rating))


def device_three_down(design: Design) -> Iterator[Made]:
    """A breaker or fuse three sizes smaller."""
    for item in parts(design, "breaker", "fuse"):
        rating = standard(told(item).figure("rating"), -3)
        if rating:
            yield from tried(design, _around(design, item), rated(item.id, rating=rating))


def _between(design: Design, part: Part) -> tuple[Run, Run] | None:
    """The one run on each side of a part that lies in a line."""
    line, load = design.runs_at(part.id, "line"), design.runs_at(part.id, "load")
    if len(line) != 1 or len(load) != 1 or design.seats_of(part.id):
        return None
    return line[0], load[0]


def _far(run: Run, part: str) -> End:
    return run.b if run.a.part == part else run.a


def _left_out(design: Design, kinds: tuple[str, ...]) -> Iterator[Made]:
    for item in parts(design, *kinds):
        found = _between(design, item)
        if found is None:
            continue
        line, load = found
        to, side = _far(line, item.id), "a" if load.a.part == item.id else "b"
        place = tuple(dict.fromkeys((item.id, *ends(line), *ends(load))))
        yield from tried(design, place, moved_end(load, side, to), gone(item.id))


def fuse_left_out(design: Design) -> Iterator[Made]:
    """A fuse in a lead left out, its wires joined."""
    yield from _left_out(design, ("fuse",))


def switch_left_out(design: Design) -> Iterator[Made]:
    """A battery disconnect or isolator left out, its wires joined."""
    yield from _left_out(design, ("battery_disconnect", "isolator"))


def inlet_breaker_left_out(design: Design) -> Iterator[Made]:
    """A breaker in a line left out, its wires joined."""
    yield from _left_out(design, ("breaker",))


def fuse_behind_its_wire(design: Design) -> Iterator[Made]:
    """A fuse put at the far end of the wire that it should guard."""
    for item in parts(design, "fuse", "battery_disconnect"):
        found = _between(design, item)
        if found is None:
            continue
        line, load = found
        short, far = told(line).word("length"), told(load).word("length")
        if told(load).figure("length") > told(line).figure("length"):
            place = tuple(dict.fromkeys((item.id, *ends(line), *ends(load))))
            swap = (rated_run(line.id, length=far), rated_run(load.id, length=short))
            yield from tried(design, place, *swap)


def fuse_of_low_voltage(design: Design) -> Iterator[Made]:
    """A fuse made for 32 V in the place of one for the bank; such fuses break 2 kA (makers' data:
    one of 32 V and 20 kA does not exist)."""
    for item in parts(design, "fuse"):
        if told(item).figure("voltage", 0.0) > 32.0:
            wrong = rated(item.id, type="mega", voltage="32 V", interrupting="2 kA")
            yield from tried(design, _around(design, item), wrong)


def fuse_that_breaks_little(design: Design) -> Iterator[Made]:
    """A blade or bolt fuse that breaks 1 kA in the place of a class T."""
    for item in parts(design, "fuse"):
        if told(item).word("type") in ("class_t", "mrbf"):
            wrong = rated(item.id, type="midi", voltage="58 V", interrupting="1 kA")
            yield from tried(design, _around(design, item), wrong)


def breaker_in_neutral(design: Design) -> Iterator[Made]:
    """A breaker that opens only the neutral or minus."""
    for item in parts(design, "breaker"):
        if told(item).word("circuit", "ac") in ("ac", "dc"):
            yield from tried(design, _around(design, item), rated(item.id, poles="neutral"))


def breaker_not_for_direct_current(design: Design) -> Iterator[Made]:
    """A breaker marked for alternating current alone, on direct current."""
    for item in parts(design, "breaker", "isolator"):
        if told(item).word("circuit", "ac") == "dc":
            yield from tried(design, _around(design, item), rated(item.id, direct="no"))


def main_left_out(design: Design) -> Iterator[Made]:
    """A board without its main breaker."""
    for item in parts(design, "panel"):
        if told(item).has("main"):
            yield from tried(design, _around(design, item), rated(item.id, main=None))


def ground_fault_left_out(design: Design) -> Iterator[Made]:
    """A plain breaker or outlet in the place of one with ground-fault protection."""
    for item in parts(design, "breaker", "outlet"):
        if told(item).word("ground_fault", "none") != "none":
            yield from tried(design, _around(design, item), rated(item.id, ground_fault="none"))


def two_singles_on_one_leg(design: Design) -> Iterator[Made]:
    """Two single breakers of one leg for two hots that share a neutral."""
    yield from _singles(design, 1)


def two_singles_untied(design: Design) -> Iterator[Made]:
    """Two single breakers of two legs, untied, for two hots that share a neutral."""
    yield from _singles(design, 2)


def _singles(design: Design, step: int) -> Iterator[Made]:
    for item in parts(design, "breaker"):
        if told(item).word("circuit") != "split" or not design.seats_of(item.id):
            continue
        (seat,) = design.seats_of(item.id)
        for run in design.runs_at(item.id, "load"):
            if design.part(_far(run, item.id).part).kind != "junction_box":
                continue
            rating, far = told(item).word("rating"), _far(run, item.id)
            size = {"size": told(run).word("size"), "length": told(run).word("length")}
            other = str(int(seat.place) + step)
            end = (far.part, far.terminal)
            yield from tried(
                design,
                (*_around(design, item), "QF98", "QF99", "W998"),
                gone(item.id),
                added("breaker", "QF98", rating=rating, interrupting="10 kA"),
                added("breaker", "QF99", rating=rating, interrupting="10 kA"),
                seated("QF98", seat.host, seat.place),
                seated("QF99", seat.host, other),
                joined(("QF98", "load"), end, run.designation, "L>L1 N PE", **size),
                joined(("QF99", "load"), end, "W998", "L>L2", **size),
            )


def load_wired_before_its_device(design: Design) -> Iterator[Made]:
    """A circuit's hot landed at the board's feed, past its breaker."""
    for item in parts(design, "breaker", "fuse"):
        boards = [s.host for s in design.seats_of(item.id) if design.part(s.host).kind == "panel"]
        for run in design.runs_at(item.id, "load"):
            side = "a" if run.a.part == item.id else "b"
            for board in boards:
                if {a for a, _ in poles_of(design, run)} <= _feeds(design, board):
                    to = End(board, "feed")
                    place = (*_around(design, item), board)
                    yield from tried(design, place, moved_end(run, side, to))


def _feeds(design: Design, board: str) -> set[str]:
    circuit = told(design.part(board)).word("circuit", "ac")
    return {"dc": {"+", "-"}, "ac": {"L", "N", "PE"}}.get(circuit, set())
