from __future__ import annotations

import pytest

from linework.design import Design, Draft, End, Part, Run, pole_map
from linework.design.edits import insert_on_run, rate_run, reroute, set_poles
from linework.design.integrity import flaws_of
from linework.wiring import Pole
from tests.design.sketches import done, refused, untouched

L, N, PE = Pole.L, Pole.N, Pole.PE


def line(a: str = "generator", b: str = "load", **answers: str) -> Draft:
    """Two parts with one run: "out" or the like of the first to the first terminal of the other."""
    draft = Draft()
    draft.part(a, "A1", **answers)
    draft.part(b, "B1", **answers)
    ends = []
    for name in ("A1", "B1"):
        part = draft.design.part(name)
        ends.append(draft.design.kind(part).terminals(draft.design.values(part))[0].name)
    draft.run(f"A1.{ends[0]}", f"B1.{ends[1]}", "W1", size="12 AWG", length="25 ft")
    return draft


def inserted(design: Design, kind: str, **ratings: str) -> tuple[Design, Part, Run, Run]:
    """The design with a new part in W1, the part, and the two runs."""
    with untouched(design):
        change = insert_on_run(design, "W1", kind, at=(100, 50), ratings=ratings)
    after = done(design, change)
    assert flaws_of(after) == []
    first, second = after.get("W1"), after.runs[-1]
    assert isinstance(first, Run)
    return after, after.parts[-1], first, second


def test_a_run_becomes_two() -> None:
    design = line().design
    after, part, first, second = inserted(design, "breaker", rating="20 A")
    assert (part.kind, part.designation, part.x, part.y) == ("breaker", "QF1", 100, 50)
    assert dict(part.ratings) == {"rating": "20 A", "circuit": "ac"}
    assert (first.a, first.b) == (End("A1", "out"), End(part.id, "line"))
    assert (second.a, second.b) == (End(part.id, "load"), End("B1", "in"))
    assert (first.designation, second.designation) == ("W1", "W2")
    for run in (first, second):
        assert run.poles is None
        assert pole_map(after, run) == ((L, L), (N, N), (PE, PE))


def test_how_the_length_is_shared_is_asked() -> None:
    """Kept on both it would be doubled; halved it would be an invention."""
    _, _, first, second = inserted(line().design, "breaker")
    assert dict(first.ratings) == dict(second.ratings) == {"size": "12 AWG"}


def test_the_input_lies_to_the_power_whichever_way_the_run_was_drawn() -> None:
    draft = Draft()
    draft.part("load", "B1")
    draft.part("generator", "A1")
    draft.run("B1.in", "A1.out", "W1")
    after, part, first, second = inserted(draft.design, "gfci")
    assert (first.a, first.b) == (End("B1", "in"), End(part.id, "load"))
    assert (second.a, second.b) == (End(part.id, "line"), End("A1", "out"))
    assert len(pole_map(after, first)) == 3


@pytest.mark.parametrize("circuit", ["split", "ac240", "dc"])
def test_the_circuit_is_that_of_the_run(circuit: str) -> None:
    design = line("junction_box", "load", circuit=circuit).design
    before = pole_map(design, design.runs[0])
    after, part, first, second = inserted(design, "breaker")
    assert part.ratings["circuit"] == circuit
    assert set(pole_map(after, first)) == set(pole_map(after, second)) == set(before)


def test_conductors_that_the_run_has_not_are_not_added() -> None:
    """Two wires from a set to a two-legged load without neutral: no neutral appears."""
    draft = Draft()
    draft.part("generator", "A1", circuit="split")
    draft.part("load", "B1", circuit="ac240")
    draft.run("A1.out", "B1.in", "W1", poles="L1 L2")
    after, part, first, second = inserted(draft.design, "junction_box")
    assert part.ratings["circuit"] == "ac240"
    assert pole_map(after, first) == ((Pole.L1, Pole.L1), (Pole.L2, Pole.L2))
    assert pole_map(after, second) == ((Pole.L1, Pole.L1), (Pole.L2, Pole.L2))


def test_crossed_conductors_stay_crossed_once() -> None:
    design = line().design
    crossed = ((L, N), (N, L), (PE, PE))
    design.apply(set_poles(design, "W1", crossed))
    after, _, first, second = inserted(design, "junction_box")
    through = {p: dict(pole_map(after, second))[q] for p, q in pole_map(after, first)}
    assert tuple(through.items()) == crossed


def test_a_cut_conductor_is_cut_once() -> None:
    design = line().design
    design.apply(rate_run(design, "W1", {"broken": "N"}))
    _, _, first, second = inserted(design, "junction_box")
    assert first.ratings["broken"] == "N"
    assert "broken" not in second.ratings


def test_a_run_to_the_chassis_keeps_its_end() -> None:
    draft = Draft()
    draft.part("battery", "A1")
    draft.part("body", "B1")
    draft.run("A1.dc", "B1.tie", "W1", poles="->body")
    after, part, first, second = inserted(draft.design, "fuse")
    assert part.ratings["circuit"] == "dc"
    assert pole_map(after, first) == ((Pole.NEG, Pole.NEG),)
    assert pole_map(after, second) == ((Pole.NEG, Pole.BODY),)


def test_a_transfer_switch_passes_from_input_to_load() -> None:
    _, _, first, second = inserted(line().design, "transfer_switch")
    assert (first.b.terminal, second.a.terminal) == ("in1", "load")


def test_bends_go_and_the_sheet_stays() -> None:
    draft = line()
    design = draft.design
    from linework.design.edits import add_part, add_run

    change = add_part(design, "generator", designation="G9", sheet=3, part_id="G9")
    design.apply(change)
    design.apply(add_run(design, End("G9", "out"), End("B1", "in"), run_id="W9", designation="W9"))
    design.apply(reroute(design, "W9", [(0, 25)]))
    after = done(design, insert_on_run(design, "W9", "breaker", at=(0, 0)))
    assert after.parts[-1].sheet == 3
    assert after.get("W9").route == after.runs[-1].route == ()  # type: ignore[union-attr]


@pytest.mark.parametrize(
    ("kind", "ratings", "reason"),
    [
        ("electrode", {}, "XE1 cannot be put into a run"),
        ("generator", {}, "G1 cannot be put into a run"),
        ("panel", {}, "QP1 cannot be put into a run"),
        ("lamp", {}, "EL1 cannot be put into a run"),
        ("plug", {}, "XP1 cannot be put into a run"),  # its pins sit in outlets
        ("breaker", {"circuit": "dc"}, "QF1 cannot be put into this run"),
        ("breaker", {"circuit": "split"}, "QF1 cannot be put into this run"),
        ("breakr", {}, "no kind of part 'breakr'"),
        ("breaker", {"rating": "20"}, "Rating: '20' has no unit"),
    ],
)
def test_what_cannot_be_put_into_a_run(kind: str, ratings: dict[str, str], reason: str) -> None:
    design = line().design
    with refused(design, reason):
        insert_on_run(design, "W1", kind, at=(0, 0), ratings=ratings)


def test_alternating_parts_are_not_put_into_direct_runs() -> None:
    design = line("battery", "fuse").design
    with refused(design, r"TB1 cannot be put into this run: \+ of"):
        insert_on_run(design, "W1", "inverter_charger", at=(0, 0))
    with refused(design, "this run is no longer there"):
        insert_on_run(design, "W7", "fuse", at=(0, 0))
