"""Mistakes at links, ground wires, bodies and electrodes."""

from __future__ import annotations

from collections.abc import Iterator

from linework.design import Design
from tests.trial.mistakes.change import (
    Made,
    added,
    ends,
    gone,
    joined,
    mapped,
    parts,
    poles_of,
    rated,
    rated_run,
    runs,
    seated,
    sized,
    told,
    tried,
)


def link_left_in_board(design: Design) -> Iterator[Made]:
    """The screw that joins neutral and ground bar left in a board that must not have it."""
    for board in parts(design, "panel"):
        if told(board).word("bond") == "absent" and told(board).word("circuit") != "dc":
            yield from tried(design, (board.id,), rated(board.id, bond="fitted"))


def link_removed_from_board(design: Design) -> Iterator[Made]:
    """The link taken out of the board that must have it."""
    for board in parts(design, "panel"):
        if told(board).word("bond") == "fitted":
            yield from tried(design, (board.id,), rated(board.id, bond="absent"))


def set_bonded_not_floating(design: Design) -> Iterator[Made]:
    """A bonded set in the place of a floating one."""
    for item in parts(design, "generator"):
        if told(item).word("neutral") == "floating":
            yield from tried(design, (item.id,), rated(item.id, neutral="bonded"))


def set_floating_not_bonded(design: Design) -> Iterator[Made]:
    """A floating set in the place of a bonded one."""
    for item in parts(design, "generator"):
        if told(item).word("neutral") == "bonded":
            yield from tried(design, (item.id,), rated(item.id, neutral="floating"))


def inverter_floating(design: Design) -> Iterator[Made]:
    """An inverter that joins its neutral nowhere, where it should."""
    for item in parts(design, "inverter", "inverter_charger", "hybrid_inverter"):
        if told(item).word("neutral") != "floating":
            yield from tried(design, (item.id,), rated(item.id, neutral="floating"))


def bond_relay_stuck(design: Design) -> Iterator[Made]:
    """The relay of an inverter-charger that joins its neutral never opens."""
    for item in parts(design, "inverter_charger", "hybrid_inverter"):
        if told(item).word("neutral") == "relay":
            yield from tried(design, (item.id,), rated(item.id, neutral="bonded"))


def bonding_plug_in_outlet(design: Design) -> Iterator[Made]:
    """A bonding plug put into an outlet whose face is free."""
    taken = {seat.host for seat in design.seats}
    for item in parts(design, "outlet"):
        pattern = told(item).word("configuration")
        if item.id not in taken and told(item).word("circuit", "ac") == "ac":
            new = added("bond_plug", "XQ99", configuration=pattern)
            yield from tried(design, (item.id, "XQ99"), new, seated("XQ99", item.id, "face"))


def ground_left_out(design: Design) -> Iterator[Made]:
    """A cable run without its ground wire."""
    for run in runs(design):
        poles = poles_of(design, run)
        rest = tuple(pair for pair in poles if pair[0] != "PE")
        if rest and len(rest) < len(poles):
            yield from tried(design, ends(run), mapped(run, rest))


def ground_broken(design: Design) -> Iterator[Made]:
    """A ground wire that is broken."""
    for run in runs(design):
        if ("PE", "PE") in poles_of(design, run):
            yield from tried(design, ends(run), rated_run(run.id, broken="PE"))


def ground_two_thinner(design: Design) -> Iterator[Made]:
    """A ground wire two gauges thinner than its cable."""
    for run in runs(design):
        size = sized(told(run).word("size"), -2)
        if size and len(poles_of(design, run)) > 1 and ("PE", "PE") in poles_of(design, run):
            yield from tried(design, ends(run), rated_run(run.id, ground_size=size))


def ground_and_neutral_exchanged(design: Design) -> Iterator[Made]:
    """Neutral and ground wire exchanged at one end."""
    for run in runs(design):
        yield from _exchanged(design, run.id, "N", "PE")


def hot_and_ground_exchanged(design: Design) -> Iterator[Made]:
    """Hot and ground wire exchanged at one end."""
    for run in runs(design):
        yield from _exchanged(design, run.id, "L", "PE")


def _exchanged(design: Design, run_id: str, one: str, other: str) -> Iterator[Made]:
    run = next(r for r in design.runs if r.id == run_id)
    poles = poles_of(design, run)
    if {one, other} <= {a for a, _ in poles}:
        turned = {one: other, other: one}
        goal = dict(poles)
        yield from tried(
            design, ends(run), mapped(run, tuple((a, goal[turned.get(a, a)]) for a, _ in poles))
        )


def strap_removed(design: Design) -> Iterator[Made]:
    """A bonding jumper of ground wires, bodies or cases taken away."""
    for run in runs(design):
        poles = poles_of(design, run)
        if len(poles) == 1 and {p for pair in poles for p in pair} <= {"PE", "body"}:
            yield from tried(design, ends(run), gone(run.id))


def strap_two_thinner(design: Design) -> Iterator[Made]:
    """A bonding jumper two gauges thinner."""
    for run in runs(design):
        size = sized(told(run).word("size"), -2)
        if size and any("body" in pair for pair in poles_of(design, run)):
            yield from tried(design, ends(run), rated_run(run.id, size=size))


def minus_bond_removed(design: Design) -> Iterator[Made]:
    """The bond of minus to the body taken away."""
    for run in runs(design):
        if poles_of(design, run) == (("-", "body"),):
            yield from tried(design, ends(run), gone(run.id))


def minus_bond_added(design: Design) -> Iterator[Made]:
    """Minus of a board or load joined to the body a second time."""
    bodies = parts(design, "body")
    if not any(("-", "body") in poles_of(design, run) for run in design.runs):
        return
    for item in parts(design, "panel", "load", "motor", "lamp"):
        if told(item).word("circuit") == "dc":
            terminal = "ground" if item.kind == "panel" else "in"
            jumper = {"size": "6 AWG", "length": "3 ft", "installation": "jumper"}
            new = joined((item.id, terminal), (bodies[0].id, "tie"), "W999", "->body", **jumper)
            yield from tried(design, (item.id, bodies[0].id, "W999"), new)


def rod_instead_of_ground_wire(design: Design) -> Iterator[Made]:
    """A feeder without its ground wire, and a rod at the board behind it instead."""
    for run in runs(design):
        board = design.part(run.b.part)
        poles = poles_of(design, run)
        if board.kind != "panel" or ("PE", "PE") not in poles:
            continue
        rest = tuple(pair for pair in poles if pair[0] != "PE")
        wire = {"size": "6 AWG", "length": "8 ft", "installation": "jumper"}
        yield from tried(
            design,
            (*ends(run), "XE99"),
            mapped(run, rest),
            added("electrode", "XE99", resistance="25 ohm"),
            joined((board.id, "ground"), ("XE99", "ground"), "W998", "PE", **wire),
        )
