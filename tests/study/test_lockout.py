"""The order to make a system dead, held against its network: every state, solved for volts."""

from __future__ import annotations

import itertools
from collections.abc import Iterator, Mapping
from pathlib import Path
from random import Random

import pytest

from linework.circuit import Circuit, SelectorKey, expand
from linework.circuit.network import IN_USE, Network, NotSolved
from linework.design import Design, Draft
from linework.kinds import OneOf
from linework.storage import load
from linework.study.answers.touched import Place
from linework.study.lockout import Lockout, Sort, held, lockout, openable
from linework.study.situation import Situation
from tests.chance import draft
from tests.enumeration import all_states
from tests.findings.camps import camp
from tests.trial.rigs import RIGS

SAMPLES = sorted((Path(__file__).parents[2] / "samples").glob("*.linework"))
CHANCE = range(24)

LEAST_V = 1.5
TESTER_OHM = 10e3
"""A tester of low impedance: what a leak holds up falls away under it (the usual figure of such
instruments is 3 to 10 kilohm; common practice, no source)."""


def designs() -> Iterator[object]:
    for path in SAMPLES:
        yield pytest.param(lambda path=path: load(path), id=path.stem)
    for name, draw in RIGS.items():
        yield pytest.param(lambda draw=draw: draw().design, id=name)
    for number in CHANCE:
        yield pytest.param(lambda number=number: draft(number).design, id=f"chance {number}")


def met(situation: Situation) -> set[Place]:
    """The terminals at which a tester shows a voltage, by the solved network."""
    found: set[Place] = set()
    circuit = situation.circuit
    metal = {*circuit.anchors, *(each.node for each in circuit.metals)}
    for hertz in situation.hertz:
        net = situation.network(hertz, IN_USE)
        volts, label = net.open_volts, net.islands.label
        for place, nodes in circuit.terminals.items():
            ends = {*nodes.values()}
            for a, b in itertools.product(ends, ends | metal):
                if place in found or a == b or label[a] != label[b] or not net.islands.live(a):
                    continue
                if abs(volts[a] - volts[b]) > LEAST_V and _stands(situation, hertz, a, b):
                    found.add(place)
    return found


def _stands(situation: Situation, hertz: float, a: int, b: int) -> bool:
    volts = Network(situation, hertz, IN_USE, ((a, b, complex(1 / TESTER_OHM)),)).open_volts
    return bool(abs(volts[a] - volts[b]) > LEAST_V)


def everywhere(circuit: Circuit, positions: Mapping[SelectorKey, str]) -> set[Place]:
    """The same over every state of a circuit whose steps are done."""
    found: set[Place] = set()
    for state in all_states(held(circuit, positions)).states:
        found |= met(Situation(circuit, state))
    return found


def _done(order: Lockout, but: object = None) -> dict[SelectorKey, str]:
    return {s.means.key: s.means.position for s in order.steps if s is not but}


@pytest.mark.parametrize("make", [*designs()])
def test_after_all_steps_only_what_is_named_is_live(make: object) -> None:
    design: Design = make()  # type: ignore[operator]
    circuit = openable(design, expand(design))
    order = lockout(design, [expand(design)])
    assert order.proven
    try:
        live = everywhere(circuit, _done(order))
        for step in order.steps:
            if step.needed:
                without = everywhere(circuit, _done(order, but=step))
                assert not without <= order.live.keys(), design.part(step.means.part).designation
    except NotSolved:
        pytest.skip("a network of this design has no solution")
    assert live <= order.live.keys()
    # and what is named is no empty warning
    assert live == set(order.live)


@pytest.mark.parametrize("make", [*designs()])
def test_other_breakers_that_somebody_opens_wake_nothing(make: object) -> None:
    design: Design = make()  # type: ignore[operator]
    circuit = openable(design, expand(design))
    order = lockout(design, [expand(design)])
    done = _done(order)
    others = [
        key for key, s in circuit.selectors.items() if s.moves == "protection" and key not in done
    ]
    random = Random(1)
    for _ in range(3 if others else 0):
        opened = {
            key: circuit.selectors[key].positions[-1] for key in others if random.random() < 0.3
        }
        try:
            assert everywhere(circuit, {**done, **opened}) <= order.live.keys()
        except NotSolved:
            pytest.skip("a network of this design has no solution")


def sorts(design: Design, order: Lockout) -> list[tuple[str, str]]:
    return [(s.means.sort.name, design.part(s.means.part).designation) for s in order.steps]


def test_the_sun_is_parted_before_a_battery_that_no_bond_holds() -> None:
    """A controller that finds the greatest power wants its battery as long as the array drives it:
    common practice, no source. Both sides of its isolator are live from the battery too."""
    design = RIGS["orchard_pump"]().design
    assert sorts(design, lockout(design, [expand(design)])) == [("SUN", "QB9"), ("STORE", "QB1")]


def test_what_leaves_the_controller_lit_does_not_part_the_sun() -> None:
    drawn = RIGS["orchard_pump"]()
    drawn.remove("QB9")
    drawn.run("GP1.dc", "TC1.pv", "WR1", size="8 AWG", length="12 ft")
    design = drawn.design
    assert "SUN" not in dict(sorts(design, lockout(design, [expand(design)])))


def test_the_trailer_runs_down_from_what_runs_to_what_stores() -> None:
    design = load(next(p for p in SAMPLES if p.stem == "vaccination-trailer"))
    order = lockout(design, [expand(design)])
    assert sorts(design, order) == [
        ("STOP", "G1"),
        ("UNPLUG", "XP1"),
        ("UNPLUG", "XP2"),
        ("TRANSFER", "QT1"),
        ("ELECTRONIC", "TB1"),
        ("SUN", "QB2"),
        ("STORE", "QB1"),
    ]
    assert [design.part(s.means.part).designation for s in order.steps if not s.needed] == [
        "XP2",
        "QT1",
        "TB1",
    ]
    assert {design.part(part).designation for part, _ in order.live} == {
        *("GB1", "F1", "QB1"),
        *("GP1", "QB2"),
        *("GS1", "XD1"),
    }
    assert (design.by_designation("QB1").id, "load") not in order.live


def test_a_fuse_is_taken_out_where_no_switch_parts_the_loads() -> None:
    drawn = Draft()
    drawn.part("battery", "GB1", voltage="12 V", capacity="100 Ah")
    drawn.part("fuse", "F1", circuit="dc", rating="30 A", voltage="32 V")
    drawn.part("lamp", "EL1", circuit="dc", voltage="12 V", power="20 W")
    drawn.run("GB1.dc", "F1.line", "W1", size="10 AWG", length="1 ft")
    drawn.run("F1.load", "EL1.in", "W2", size="10 AWG", length="9 ft")
    order = lockout(drawn.design, [expand(drawn.design)])
    assert sorts(drawn.design, order) == [("STORE", "F1")]
    assert {part for part, _ in order.live} == {"GB1", "F1"}
    assert ("F1", "load") not in order.live


def test_where_nothing_can_be_opened_all_of_it_stays_named() -> None:
    drawn = Draft()
    drawn.part("battery", "GB1", voltage="12 V", capacity="100 Ah")
    drawn.part("lamp", "EL1", circuit="dc", voltage="12 V", power="20 W")
    drawn.run("GB1.dc", "EL1.in", "W1", size="10 AWG", length="9 ft")
    order = lockout(drawn.design, [expand(drawn.design)])
    assert not order.steps
    assert {part for part, _ in order.live} == {"GB1", "EL1"}


def test_a_camp_without_plugs_is_stopped_and_parted_from_its_set() -> None:
    design = camp().design
    order = lockout(design, [expand(design)])
    assert order.steps[0].means.sort is Sort.STOP
    assert order.steps[0].needed
    assert not order.live


def test_a_switch_in_the_minus_parts_nothing_that_is_bonded_before_it() -> None:
    drawn = Draft()
    drawn.part("battery", "GB1", voltage="12 V", capacity="100 Ah")
    drawn.part("battery_disconnect", "QB1", poles="minus", rating="100 A")
    drawn.part("lamp", "EL1", circuit="dc", voltage="12 V", power="20 W")
    drawn.run("GB1.dc", "QB1.line", "W1", size="10 AWG", length="1 ft")
    drawn.run("QB1.load", "EL1.in", "W2", size="10 AWG", length="9 ft")
    floating = lockout(drawn.design, [expand(drawn.design)])
    assert ("EL1", "in") not in floating.live
    # with its minus on metal before the switch, plus stays live against it
    drawn.part("body", "CH1", name="frame")
    drawn.run("GB1.dc", "CH1.tie", "W3", poles="->body", size="8 AWG", length="1 ft")
    bonded = lockout(drawn.design, [expand(drawn.design)])
    assert ("EL1", "in") in bonded.live


def test_unknowns_are_taken_each_way() -> None:
    drawn = Draft()
    drawn.part("generator", "G1", power="3 kVA", neutral=OneOf(("bonded", "floating")))
    drawn.part("electrode", "XE1")
    drawn.run("G1.frame", "XE1.ground", "W1", size="8 AWG", length="9 ft")
    key = (drawn.design.by_designation("G1").id, "neutral")
    cases = [expand(drawn.design, {key: at}) for at in ("bonded", "floating")]
    order = lockout(drawn.design, cases)
    assert sorts(drawn.design, order) == [("STOP", "G1")]
    alone = [lockout(drawn.design, [case]).before for case in cases]
    assert order.before.keys() == alone[0].keys() | alone[1].keys()


def test_a_state_is_not_changed_by_what_is_held() -> None:
    design = camp().design
    circuit = expand(design)
    before = dict(circuit.selectors)
    held(circuit, {key: s.positions[-1] for key, s in circuit.selectors.items()})
    assert dict(circuit.selectors) == before
