"""Mistakes at switches, plugs, cords and inlets."""

from __future__ import annotations

from collections.abc import Iterator

from linework.design import Design
from linework.design.edits import drop_element
from linework.design.elements import End
from tests.trial.judge.reading import amount
from tests.trial.mistakes.change import (
    Edit,
    Made,
    added,
    ends,
    moved_end,
    parts,
    rated,
    seated,
    told,
    tried,
)

_WRONG = {
    "TT-30": "5-15",
    "L5-30": "5-15",
    "L5-20": "L5-30",
    "5-15": "TT-30",
    "5-20": "TT-30",
    "14-50": "L14-30",
    "L14-30": "14-50",
    "6-50": "14-50",
}


def interlock_left_out(design: Design) -> Iterator[Made]:
    """No interlock between the main and the breaker that a set feeds."""
    for lock in design.interlocks:
        place = tuple(part for part, _, _ in lock.excludes)
        yield from tried(design, place, _dropped(lock.id))


def _dropped(element_id: str) -> Edit:
    return lambda design: drop_element(design, element_id)


def neutral_left_unswitched(design: Design) -> Iterator[Made]:
    """A transfer switch that leaves the neutral joined where it must move it."""
    for item in parts(design, "transfer_switch", "transfer_automatic"):
        if told(item).word("poles") == "all":
            yield from tried(design, (item.id,), rated(item.id, poles="lines"))


def neutral_switched_needlessly(design: Design) -> Iterator[Made]:
    """A transfer switch that opens the neutral of a floating set's only link."""
    for item in parts(design, "transfer_switch", "transfer_automatic"):
        if told(item).word("poles") == "lines":
            yield from tried(design, (item.id,), rated(item.id, poles="all"))


def one_hot_left_unswitched(design: Design) -> Iterator[Made]:
    """A transfer switch that moves only the first hot."""
    for item in parts(design, "transfer_switch", "transfer_automatic"):
        if told(item).word("circuit") == "split":
            yield from tried(design, (item.id,), rated(item.id, poles="first"))


def lead_past_the_switch(design: Design) -> Iterator[Made]:
    """The lead of the second source landed at the board, past the transfer switch."""
    for item in parts(design, "transfer_switch", "transfer_automatic"):
        out = [run.b for run in design.runs_at(item.id, "load")]
        for terminal in ("in1", "in2"):
            for run in design.runs_at(item.id, terminal):
                side = "a" if run.a.part == item.id else "b"
                for end in out:
                    place = (item.id, *ends(run), end.part)
                    yield from tried(design, place, moved_end(run, side, end))


def pass_through_neutral_changed(design: Design) -> Iterator[Made]:
    """An inverter-charger of the other kind: neutral joined through for good, or opened."""
    for item in parts(design, "inverter_charger", "hybrid_inverter"):
        other = "switched" if told(item).word("neutral_through") == "common" else "common"
        yield from tried(design, (item.id,), rated(item.id, neutral_through=other))


def male_to_male_cord(design: Design) -> Iterator[Made]:
    """A cord from a set or pedestal that ends in a plug and goes into a wall outlet."""
    walls = [x for x in parts(design, "outlet") if design.runs_at(x.id, "feed")]
    for plug in parts(design, "plug"):
        for run in design.runs_at(plug.id, "cord"):
            for wall in walls:
                pattern = told(wall).word("configuration")
                circuit = told(wall).word("circuit", "ac")
                if circuit != told(plug).word("circuit", "ac"):
                    continue
                side = "b" if run.a.part == plug.id else "a"
                yield from tried(
                    design,
                    (plug.id, run.id, wall.id, "XP99"),
                    added("plug", "XP99", configuration=pattern, circuit=circuit),
                    seated("XP99", wall.id, "face"),
                    moved_end(run, side, End("XP99", "cord")),
                )


def plug_exchanged(design: Design) -> Iterator[Made]:
    """Another plug on a cord or load."""
    for item in parts(design, "plug", "plug_load", "cord_set"):
        wrong = _WRONG.get(told(item).word("configuration"))
        hosts = tuple(seat.host for seat in design.seats_of(item.id))
        if wrong:
            yield from tried(design, (item.id, *hosts), rated(item.id, configuration=wrong))


def inlet_exchanged(design: Design) -> Iterator[Made]:
    """Another inlet than the cord fits."""
    for item in parts(design, "inlet"):
        wrong = _WRONG.get(told(item).word("configuration"))
        place = tuple(x for run in design.runs_at(item.id, "outside") for x in ends(run))
        if wrong:
            yield from tried(design, (item.id, *place), rated(item.id, configuration=wrong))


def switch_underrated(design: Design) -> Iterator[Made]:
    """A transfer switch, disconnect, selector or isolator of a quarter of the rating."""
    kinds = (
        *("transfer_switch", "transfer_automatic", "battery_disconnect", "isolator"),
        *("battery_selector", "charge_relay"),
    )
    for item in parts(design, *kinds):
        rating = f"{amount(told(item).word('rating', '30 A')) / 4:g} A"
        place = (item.id, *(x for run in design.runs_at(item.id) for x in ends(run)))
        yield from tried(design, place, rated(item.id, rating=rating))


def board_underrated(design: Design) -> Iterator[Made]:
    """A board or bar of a quarter of the rating."""
    for item in parts(design, "panel", "busbar"):
        key = "bus" if item.kind == "panel" else "rating"
        smaller = f"{amount(told(item).word(key, '100 A')) / 4:g} A"
        yield from tried(design, (item.id,), rated(item.id, **{key: smaller}))


def disconnect_only_in_minus(design: Design) -> Iterator[Made]:
    """A battery disconnect that opens only minus."""
    for item in parts(design, "battery_disconnect"):
        if told(item).word("poles") != "minus":
            yield from tried(design, (item.id,), rated(item.id, poles="minus"))
