"""Mistakes at cables and cords: exchanged, broken, thin, long."""

from __future__ import annotations

from collections.abc import Iterator

from linework.design import Design, Run
from tests.trial.judge.tables import ALUMINIUM
from tests.trial.mistakes.change import (
    Made,
    alternating,
    ends,
    mapped,
    parts,
    poles_of,
    rated,
    rated_run,
    runs,
    sized,
    told,
    tried,
)


def _turned(design: Design, run: Run, one: str, other: str) -> Iterator[Made]:
    poles = poles_of(design, run)
    if not {one, other} <= {a for a, _ in poles}:
        return
    goal, partner = dict(poles), {one: other, other: one}
    yield from tried(
        design, ends(run), mapped(run, tuple((a, goal[partner.get(a, a)]) for a, _ in poles))
    )


def hot_and_neutral_exchanged(design: Design) -> Iterator[Made]:
    """Hot and neutral exchanged at one end."""
    for run in runs(design):
        yield from _turned(design, run, "L", "N")


def leg_and_neutral_exchanged(design: Design) -> Iterator[Made]:
    """One of two hots exchanged with the neutral."""
    for run in runs(design):
        yield from _turned(design, run, "L2", "N")


def plus_and_minus_exchanged(design: Design) -> Iterator[Made]:
    """Plus and minus exchanged at one end."""
    for run in runs(design):
        yield from _turned(design, run, "+", "-")


def legs_exchanged(design: Design) -> Iterator[Made]:
    """The two hots exchanged at one end."""
    for run in runs(design):
        yield from _turned(design, run, "L1", "L2")


def neutral_broken(design: Design) -> Iterator[Made]:
    """A neutral that is broken or was never landed."""
    for run in runs(design):
        if any(p == "N" for p, _ in poles_of(design, run)):
            yield from tried(design, ends(run), rated_run(run.id, broken="N"))


def hot_broken(design: Design) -> Iterator[Made]:
    """A hot conductor that was never landed."""
    for run in runs(design):
        if alternating(design, run):
            yield from tried(design, ends(run), rated_run(run.id, broken="L"))


def both_hots_on_one_leg(design: Design) -> Iterator[Made]:
    """A cable of two hots with both landed on one leg."""
    for run in runs(design):
        poles = poles_of(design, run)
        if {"L1", "L2"} <= {a for a, _ in poles}:
            one = tuple(pair for pair in poles if pair[0] not in ("L1", "L2"))
            both = (("L1", "L1"), ("L1", "L2"), *one)
            yield from tried(design, ends(run), mapped(run, both))


def wire_two_thinner(design: Design) -> Iterator[Made]:
    """A wire two gauges thinner than planned."""
    for run in runs(design):
        size = sized(told(run).word("size"), -2)
        if size and told(run).word("installation") not in ("cord", "jumper"):
            yield from tried(design, ends(run), rated_run(run.id, size=size))


def cord_two_thinner(design: Design) -> Iterator[Made]:
    """A cord two gauges thinner."""
    for run in runs(design):
        size = sized(told(run).word("size"), -2)
        if size and told(run).word("installation") == "cord":
            yield from tried(design, ends(run), rated_run(run.id, size=size))
    for item in parts(design, "cord_set"):
        size = sized(told(item).word("size"), -2)
        yield from tried(design, (item.id,), rated(item.id, size=size))


def cord_eight_times_longer(design: Design) -> Iterator[Made]:
    """A cord that is much longer than planned."""
    for run in runs(design):
        if told(run).word("installation") == "cord":
            length = told(run).word("length").removesuffix(" ft")
            longer = f"{8 * float(length):g} ft"
            yield from tried(design, ends(run), rated_run(run.id, length=longer))
    for item in parts(design, "cord_set"):
        longer = f"{8 * float(told(item).word('length').removesuffix(' ft')):g} ft"
        yield from tried(design, (item.id,), rated(item.id, length=longer))


def cord_without_ground(design: Design) -> Iterator[Made]:
    """A two-wire cord or adapter in the place of a grounded one."""
    for item in parts(design, "cord_set", "adapter"):
        yield from tried(design, (item.id,), rated(item.id, ground="none"))


def wire_six_times_longer(design: Design) -> Iterator[Made]:
    """A wire that goes much farther than planned."""
    for run in runs(design):
        if told(run).word("installation") not in ("cord", "jumper"):
            length = told(run).word("length").removesuffix(" ft")
            longer = f"{6 * float(length):g} ft"
            yield from tried(design, ends(run), rated_run(run.id, length=longer))


def aluminium_for_copper(design: Design) -> Iterator[Made]:
    """Aluminium of the same gauge pulled in the place of copper."""
    for run in runs(design):
        size = told(run).word("size").removesuffix(" AWG")
        copper = told(run).word("material", "copper") == "copper"
        fixed = told(run).word("installation", "cable") in ("cable", "conduit_pvc")
        if copper and fixed and size in ALUMINIUM and alternating(design, run):
            yield from tried(design, ends(run), rated_run(run.id, material="aluminium"))
