"""Transfer switches of every choice of poles, moved by hand or by themselves."""

from __future__ import annotations

from itertools import product

import pytest

from linework.circuit import expand
from linework.design import Draft
from linework.kinds import kinds
from linework.study.energised import energised
from linework.study.neutral.bonds import neutral_systems
from linework.study.situation import Situation
from linework.study.ways.paths import volts_between
from linework.wiring import Contact, Join
from tests.designs import situation_of
from tests.enumeration import all_states
from tests.kinds.cases import rated

BOTH = ("transfer_switch", "transfer_automatic")
CIRCUITS = {
    "ac": ("L", "N", "PE"),
    "split": ("L1", "L2", "N", "PE"),
    "ac240": ("L1", "L2", "PE"),
    "dc": ("+", "-"),
}
RUN = {"size": "10 AWG", "length": "10 ft"}


@pytest.mark.parametrize(
    ("key", "circuit", "poles"), list(product(BOTH, CIRCUITS, ("lines", "all", "first")))
)
def test_which_conductors_a_switch_opens(key: str, circuit: str, poles: str) -> None:
    kind = kinds()[key]
    inside = kind.inside(rated(kind, circuit=circuit, poles=poles))
    lines = [p for p in CIRCUITS[circuit] if p not in ("N", "-", "PE")]
    opened = {"first": lines[:1], "lines": lines}.get(
        poles, [p for p in CIRCUITS[circuit] if p != "PE"]
    )
    for terminal in ("in1", "in2"):
        ways = [
            e
            for e in inside.elements
            if isinstance(e, Contact | Join) and e.a[0] == terminal and e.b[0] == "load"
        ]
        assert [e.b[1] for e in ways] == list(CIRCUITS[circuit])
        assert all(e.a[1] == e.b[1] for e in ways)
        assert [e.b[1] for e in ways if isinstance(e, Contact)] == opened


def two_sources(kind: str, split: bool = False, **switch: str) -> Draft:
    """A supply that may fail and a set on one switch, a load behind it."""
    d = Draft(place="building")
    circuit = {"circuit": "split"} if split else {}
    d.part("supply", "GS1", outage="yes", **circuit)
    small = circuit if switch.get("second_circuit", "same") == "same" else {}
    d.part("generator", "G1", power="5 kVA", neutral="bonded", **small)
    d.part(kind, "QT1", **circuit, **switch)
    d.part("load", "EA1", power="100 W", voltage="240 V" if split else "120 V", **circuit)
    d.run("GS1.out", "QT1.in1", **RUN)
    d.run("G1.out", "QT1.in2", **RUN)
    d.run("QT1.load", "EA1.in", **RUN)
    return d


@pytest.mark.parametrize(
    ("prefers", "rests", "supply", "set_", "stands"),
    [
        ("1", "1", "live", "running", "1"),
        ("2", "1", "live", "running", "2"),
        ("1", "1", "dead", "running", "2"),
        ("2", "1", "live", "stopped", "1"),
        ("1", "1", "dead", "stopped", "1"),
        ("1", "off", "dead", "stopped", "off"),
        ("1", "2", "dead", "stopped", "2"),
    ],
)
@pytest.mark.parametrize("split", [False, True])
def test_where_an_automatic_switch_goes(
    split: bool, prefers: str, rests: str, supply: str, set_: str, stands: str
) -> None:
    d = two_sources("transfer_automatic", split, prefers=prefers, rests=rests)
    situation = situation_of(d, GS1=supply, G1=set_)
    assert situation.state.positions["QT1", "switch"] == stands
    live = {"1": "GS1", "2": "G1"}.get(stands) if "running" in set_ or supply == "live" else None
    assert energised(situation).fed == ({} if live is None else {0: (live,)})


@pytest.mark.parametrize(("change", "meets"), [("open", False), ("closed", True)])
def test_the_kind_that_closes_before_it_opens_lets_two_sources_meet(
    change: str, meets: bool
) -> None:
    circuit = expand(two_sources("transfer_automatic", change=change).design)
    states = [s for s in all_states(circuit).states if s.passing is not None]
    found = [energised(Situation(circuit, s)) for s in states]
    assert {bool(f.meetings) for f in found} == {meets}
    # Both must be live for it: a dead supply is never fed from behind.
    assert not any(
        f.backfed
        for f, s in zip(found, states, strict=True)
        if s.positions["GS1", "supply"] == "dead"
    )


@pytest.mark.parametrize("kind", BOTH)
def test_nothing_meets_in_a_state_of_rest(kind: str) -> None:
    for poles in ("lines", "all"):
        circuit = expand(two_sources(kind, split=True, poles=poles).design)
        for state in all_states(circuit).states:
            found = energised(Situation(circuit, state))
            assert (found.meetings, found.backfed) == ((), ())


@pytest.mark.parametrize("kind", BOTH)
def test_a_switch_of_one_pole_on_two_legs_lets_them_meet(kind: str) -> None:
    """The second hot conductor is joined through: the mistake of a switch with too few poles."""
    circuit = expand(two_sources(kind, split=True, poles="first").design)
    assert any(energised(Situation(circuit, s)).meetings for s in all_states(circuit).states)


@pytest.mark.parametrize("kind", BOTH)
@pytest.mark.parametrize(("poles", "links"), [("lines", 2), ("all", 1)])
def test_the_neutral_and_its_links(kind: str, poles: str, links: int) -> None:
    d = two_sources(kind, poles=poles)
    lever = {"QT1": "2"}
    (system,) = neutral_systems(situation_of(d, GS1="dead", G1="running", **lever))
    assert len(system.bonds) == links


@pytest.mark.parametrize("kind", BOTH)
def test_one_hot_conductor_on_both_legs(kind: str) -> None:
    """By hand: 120 V from each leg to neutral, none between them; on the supply 240 V."""
    d = two_sources(kind, split=True, second_circuit="one_hot")
    for supply, set_, position, between in (
        ("dead", "running", "2", 0.0),
        ("live", "stopped", "1", 240.0),
    ):
        situation = situation_of(d, GS1=supply, G1=set_, QT1=position)
        load = situation.circuit.terminals["QT1", "load"]
        assert volts_between(situation, load["L1"], load["N"]) == pytest.approx(120.0)
        assert volts_between(situation, load["L2"], load["N"]) == pytest.approx(120.0)
        assert volts_between(situation, load["L1"], load["L2"]) == pytest.approx(between)
