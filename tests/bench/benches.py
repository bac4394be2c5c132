"""Designs for the tests of the bench, and the verdict on them, worked out once."""

from __future__ import annotations

from functools import cache

from linework.advice import with_proven_mends
from linework.analysis import Analysis, analyse
from linework.bench.process.levers import lever_board
from linework.bench.states.board import LeverBoard
from linework.design import Design, Draft, Part, Run


def small() -> Draft:
    """A generator whose neutral is not known, a breaker, an outlet, a lamp; nothing else."""
    draft = Draft(place="field", job="Pump house")
    draft.part("generator", "G1", title="field set", power="5 kVA")
    draft.part("breaker", "QF1", rating="20 A")
    draft.part("outlet", "XD1", title="bench", configuration="5-20")
    draft.part("lamp", "EL1", power="100 W")
    draft.run("G1.out", "QF1.line", "W1", size="10 AWG", length="6 ft")
    draft.run("QF1.load", "XD1.feed", "W2", size="12 AWG", length="20 ft")
    draft.run("XD1.onward", "EL1.in", "W3", size="14 AWG", length="10 ft")
    return draft


def two_sources() -> Draft:
    """Shore and a generator on a transfer switch, behind it a board with a fitted link."""
    draft = Draft(place="vehicle", job="Trailer")
    draft.part("supply", "GS1", title="shore", breaker="30 A", neutral="bonded")
    draft.part("generator", "G1", title="generator", power="5 kVA", neutral="bonded")
    draft.part("transfer_switch", "QT1", rating="30 A", poles="all", first="shore", second="set")
    draft.part("panel", "QP1", bond="fitted", places="2")
    draft.part("breaker", "QF1", rating="20 A")
    draft.part("lamp", "EL1", power="100 W")
    draft.run("GS1.out", "QT1.in1", "W1", size="10 AWG", length="25 ft")
    draft.run("G1.out", "QT1.in2", "W2", size="10 AWG", length="10 ft")
    draft.run("QT1.load", "QP1.feed", "W3", size="10 AWG", length="6 ft")
    draft.seat("QF1", "QP1", "1")
    draft.run("QF1.load", "EL1.in", "W4", size="18 AWG", length="6 ft")
    return draft


@cache
def verdict(name: str) -> tuple[Design, Analysis, LeverBoard]:
    """A design of this file with its whole analysis and its levers."""
    design = {"small": small, "two_sources": two_sources}[name]().design
    return design, with_proven_mends(design, analyse(design)), lever_board(design)


def part(design: Design, designation: str) -> Part:
    """The part of this designation."""
    return design.by_designation(designation)


def run(design: Design, designation: str) -> Run:
    """The run of this designation."""
    return next(run for run in design.runs if run.designation == designation)
