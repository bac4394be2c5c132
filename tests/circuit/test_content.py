"""The identity of a live circuit: by name and value, whatever else is drawn."""

from __future__ import annotations

from dataclasses import fields

import pytest

from linework.circuit import expand, settle
from linework.circuit.content import Contents, Mark, plain
from linework.circuit.model import Branch, Conversion, Device, LiveSource, Load, PinsAt, Sensor
from linework.circuit.search import Search
from linework.design import Draft
from linework.design.edits import rate, rate_run
from linework.kinds import Answer

RUN = {"size": "12 AWG", "length": "20 ft"}


def set_and_outlet() -> Draft:
    d = Draft(place="field")
    d.part("generator", "G1", power="3 kVA", neutral="bonded")
    d.part("breaker", "QF1", rating="20 A")
    d.part("outlet", "XD1")
    d.run("G1.out", "QF1.line", "W1", **RUN)
    d.run("QF1.load", "XD1.feed", "W2", **RUN)
    return d


def contents(d: Draft) -> set[Mark]:
    search = Search(expand(d.design))
    told = Contents(search.lasting)
    return {told.of(standing.grown) for standing in search.circuits().at_rest}


def test_what_is_drawn_elsewhere_changes_no_content() -> None:
    d = set_and_outlet()
    before = contents(d)
    d.part("battery", "GB1", voltage="12 V", capacity="100 Ah")
    d.part("generator", "A1", power="2 kVA")
    after = contents(d)
    assert before < after
    assert len(after) == 3


@pytest.mark.parametrize(
    ("what", "answers"),
    [
        ("G1", {"power": "2 kVA"}),
        ("G1", {"neutral": "floating"}),
        ("G1", {"stray_line": "100 nF"}),
        ("QF1", {"rating": "15 A"}),
        ("QF1", {"interrupting": "10 kA"}),
        ("XD1", {"configuration": "6-20"}),
    ],
)
def test_another_value_of_a_part_is_another_content(what: str, answers: dict[str, Answer]) -> None:
    d = set_and_outlet()
    before = contents(d)
    d.design.apply(rate(d.design, what, answers))
    assert before.isdisjoint(contents(d))


@pytest.mark.parametrize("answers", [{"length": "21 ft"}, {"size": "10 AWG"}, {"broken": "PE"}])
def test_another_run_is_another_content(answers: dict[str, Answer]) -> None:
    d = set_and_outlet()
    before = contents(d)
    d.design.apply(rate_run(d.design, "W2", answers))
    assert before.isdisjoint(contents(d))


@pytest.mark.parametrize(
    ("sort", "indices"),
    [
        (Branch, {"a": "NodeAt", "b": "NodeAt"}),
        (LiveSource, {"plus": "NodeAt", "minus": "NodeAt", "primary": "NodeAt"}),
        (Load, {"a": "NodeAt", "b": "NodeAt"}),
        (Device, {"branches": "BranchAt"}),
        (Sensor, {"senses": "BranchAt", "opens": "BranchAt", "guards": "NodeAt"}),
        (PinsAt, {"nodes": "NodeAt"}),
        (Conversion, {"source": "SourceAt", "load": "LoadAt"}),
    ],
)
def test_fields_that_hold_an_index_say_so_by_their_type(
    sort: type[Branch], indices: dict[str, str]
) -> None:
    words = ("NodeAt", "BranchAt", "SourceAt", "LoadAt")
    told = {f.name: w for f in fields(sort) for w in words if w in str(f.type)}
    assert told == indices


def test_sets_are_told_in_one_order_and_what_is_unknown_is_refused() -> None:
    assert plain(frozenset({"a", "b", "c"})) == plain(frozenset({"c", "b", "a"}))
    assert plain(1) != plain("1") != plain(1.0)
    with pytest.raises(TypeError):
        plain(object())


# what hangs on a circuit


def hanging(d: Draft) -> set[str]:
    """The runs that are looked at with the only circuit of a design without switches."""
    search = Search(expand(d.design))
    told = Contents(search.lasting)
    (standing,) = search.circuits().at_rest
    extent = told.extent(standing.grown, settle(search.circuit, {}))
    return {search.circuit.branches[i].owner for i in extent.branches}


def test_metal_on_a_ground_wire_that_leads_nowhere_belongs_to_the_circuit() -> None:
    d = set_and_outlet()
    d.part("body", "XB1")
    before = contents(d)
    d.run("G1.frame", "XB1.tie", "W3", **RUN)
    assert "W3" in hanging(d)
    assert contents(d) != before


def test_a_dead_neutral_behind_a_load_belongs_to_the_circuit_with_the_metal_on_it() -> None:
    d = set_and_outlet()
    d.design.apply(rate_run(d.design, "W2", {"broken": "N"}))
    d.part("load", "EA1", power="100 W")
    d.part("panel", "QP1", bond="fitted")
    d.part("body", "XB1")
    d.run("XD1.onward", "EA1.in", "W3", **RUN)
    d.run("EA1.in", "QP1.feed", "W4", poles="N>N", **RUN)
    d.run("QP1.ground", "XB1.tie", "W5", **RUN)
    assert {"W4", "QP1", "W5"} <= hanging(d)


def test_the_circuit_of_another_source_on_the_same_ground_is_left_out() -> None:
    d = set_and_outlet()
    d.part("generator", "G2", power="2 kVA", neutral="bonded")
    d.part("load", "EA2", power="100 W")
    d.run("G2.out", "EA2.in", "W6", **RUN)
    d.run("G1.frame", "G2.frame", "W7", **RUN)
    search = Search(expand(d.design))
    told = Contents(search.lasting)
    (grown,) = (s.grown for s in search.circuits().at_rest if s.grown.parts == {"G1"})
    extent = told.extent(grown, settle(search.circuit, {}))
    seen = {search.circuit.branches[i] for i in extent.branches}
    assert {b.pole for b in seen if b.owner == "W6"} == {"PE"}
    assert "W7" in {b.owner for b in seen}
