"""Cords with only loads behind them: few combinations tell what all of them tell."""

from __future__ import annotations

import itertools
from random import Random

import pytest

from linework.analysis import Analysis, analyse
from linework.circuit import expand
from linework.circuit import pockets as pockets_module
from linework.circuit.search import Search
from linework.design import Draft
from linework.findings.model import Finding
from tests.chance import ALL

RUN = {"size": "12 AWG", "length": "20 ft"}


def cords(count: int, random: Random) -> Draft:
    """A board whose cords go to heaters, lamps and motors, some of them wrongly joined."""
    d = Draft(place="building")
    legs = random.choice(("ac", "split"))
    d.part("supply", "GS1", outage="no", circuit=legs)
    bond = random.choice(("fitted", "absent"))
    d.part("panel", "QP1", circuit=legs, places="40", bond=bond)
    d.run("GS1.out", "QP1.feed", "W0", size="6 AWG", length="20 ft")
    for n in range(1, count + 1):
        d.part("breaker", f"QF{n}", rating=random.choice(("15 A", "20 A", "50 A")))
        d.seat(f"QF{n}", "QP1", str(n))
        d.part("outlet", f"XD{n}")
        d.run(f"QF{n}.load", f"XD{n}.feed", f"W{n}", **RUN)
        d.part("plug", f"XP{n}")
        d.seat(f"XP{n}", f"XD{n}", "face")
        d.part("heater", f"EH{n}", power=random.choice(("400 W", "1200 W", "2500 W")))
        poles = random.choice(("", "", "", "L>N N>L PE>PE", "L>L N>PE PE>N", "L>PE N>N PE>L"))
        wires = {"poles": poles} if poles else {}
        size = random.choice(("18 AWG", "12 AWG"))
        d.run(f"XP{n}.cord", f"EH{n}.in", f"V{n}", size=size, length="30 ft", **wires)
    return d


Told = dict[tuple[str, str, tuple[str, ...]], Finding]


def told(analysis: Analysis) -> Told:
    """Rule, level and subjects of every finding, consequences included."""
    return {(f.rule, f.level.word, f.subjects): f for f in _flat(analysis.findings)}


def _flat(findings: tuple[Finding, ...]) -> list[Finding]:
    return [each for f in findings for each in (f, *_flat(f.consequences))]


def in_all_combinations(d: Draft, monkeypatch: pytest.MonkeyPatch) -> Analysis:
    with monkeypatch.context() as patched:
        patched.setattr(pockets_module, "FEW", 99)
        return analyse(d.design)


def assert_as_in_all_combinations(d: Draft, monkeypatch: pytest.MonkeyPatch) -> None:
    """The same findings, but what is lost beside one as grave of the same place; each in the same
    of the combinations that were looked at, and in no other but where it is in truth."""
    few, every = analyse(d.design), in_all_combinations(d, monkeypatch)
    one, other = told(few), told(every)
    assert one.keys() <= other.keys()
    for lost in other.keys() - one.keys():
        beside = (f for f in one.values() if f.touches & other[lost].touches)
        assert any(f.level >= other[lost].level for f in beside), lost
    assert few.silent == every.silent
    assert few.gaps == every.gaps
    search = Search(expand(d.design))
    keys = list(search.choices.free)
    for state in itertools.product(*(search.choices.free[key].positions for key in keys)):
        positions = dict(zip(keys, state, strict=True))
        looked_at = search.choices.pockets.allows(positions)
        for key in one:
            here, there = (holds(found[key], positions) for found in (one, other))
            assert here == there if looked_at else here <= there, (key, positions)


def holds(finding: Finding, positions: dict[tuple[str, str], str]) -> bool:
    return finding.standing is None or finding.standing.holds(positions)


@pytest.mark.parametrize(("count", "number"), [(3, 1), (4, 2), (4, 3), (5, 4), (5, 5)])
def test_few_combinations_of_cords_find_what_all_do(
    count: int, number: int, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(pockets_module, "FEW", 0)
    assert_as_in_all_combinations(cords(count, Random(number)), monkeypatch)


CORDS = 8 if ALL else 6


def test_many_cords_are_found_as_in_all_their_combinations(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    d = board(CORDS)
    few, every = analyse(d.design), in_all_combinations(d, monkeypatch)
    assert told(few).keys() == told(every).keys()
    assert len({circuit for report in every.reports for circuit in report.circuits}) == 2**CORDS
    assert len({circuit for report in few.reports for circuit in report.circuits}) == 2 * CORDS + 2


def board(count: int) -> Draft:
    """A board with cords to lamps."""
    d = Draft(place="building")
    d.part("supply", "GS1", outage="no")
    d.part("panel", "QP1", bond="fitted")
    d.run("GS1.out", "QP1.feed", "W0", size="6 AWG", length="20 ft")
    for n in range(1, count + 1):
        d.part("outlet", f"XD{n}")
        d.run("QP1.feed", f"XD{n}.feed", f"W{n}", **RUN)
        d.part("plug", f"XP{n}")
        d.seat(f"XP{n}", f"XD{n}", "face")
        d.part("lamp", f"EL{n}", power=f"{10 * n} W")
        d.run(f"XP{n}.cord", f"EL{n}.in", f"V{n}", **RUN)
    return d


def test_it_is_said_of_which_cords_not_all_combinations_were_taken() -> None:
    few, many = analyse(board(4).design), analyse(board(5).design)
    told_of = [p.where for a in (few, many) for p in a.praise if p.rule == "not-analysed"]
    assert told_of == [tuple(f"XP{n}" for n in range(1, 6))]
    assert many.complete


def test_thirty_cords_are_searched_completely() -> None:
    found = Search(expand(board(30).design)).circuits()
    assert not found.cut
    assert found.choices.number == 2**30
    assert len(found.at_rest) == 62
    assert len(found.pocketed) == 30


def test_a_cord_behind_which_more_than_loads_lies_is_taken_in_all_combinations() -> None:
    d = board(5)
    assert len(Search(expand(d.design)).choices.pockets.sides) == 5
    d.part("electrode", "EB1")
    d.run("EL1.in", "EB1.ground", "W99", **RUN)
    assert not Search(expand(d.design)).choices.pockets.sides, "four are left"
