"""Edits made in one go, and the questions that joining two terminals asks."""

from __future__ import annotations

from dataclasses import replace

import pytest

from linework.bench.paper import edits
from linework.bench.paper.pole_choice import PoleChoice, pole_choices, why_not_joined
from linework.bench.paper.room import free_spot
from linework.bench.paper.targets import Target, placed
from linework.bench.paper.tools.bend import shifted
from linework.design import (
    Design,
    Draft,
    EditError,
    End,
    Part,
    changed,
    pole_map,
)
from linework.sheet.compose import compose
from linework.sheet.parts.parts import draw_part
from linework.wiring import Pole
from tests.bench.hands import small


def split() -> Design:
    """A generator with two hots, a panel and a lamp on which nothing hangs, and a used lamp."""
    draft = Draft(place="vehicle")
    draft.part("generator", "G1", at=(500, 600), circuit="split", power="8 kVA")
    draft.part("panel", "QP1", at=(1500, 600))
    draft.part("lamp", "EL1", at=(2500, 600))
    draft.part("junction_box", "XJ1", at=(2500, 1200), circuit="ac")
    draft.part("outlet", "XD1", at=(2500, 1800))
    draft.part("generator", "G2", at=(500, 1800), circuit="ac240", power="8 kVA")
    return draft.design


def labels(choices: tuple[PoleChoice, ...]) -> list[str]:
    return [choice.label for choice in choices]


# one change


def test_edits_in_steps_are_one_change_and_leave_the_design_alone() -> None:
    design = small()
    before = design.snapshot()
    change = edits.place_seated(design, "breaker", "QP1", "2", {}, 1, (0, 0))
    assert design.same_as(before)
    assert len(change.pairs) == 2
    design.apply(change)
    design.apply(change.inverse())
    assert design.same_as(before)


def test_a_step_that_is_refused_refuses_all() -> None:
    design = small()
    before = design.snapshot()
    with pytest.raises(EditError, match="taken"):
        edits.place_seated(design, "breaker", "QP1", "1", {}, 1, (0, 0))
    assert design.same_as(before)


# circuits


@pytest.mark.parametrize(("circuit", "poles"), [("split", "L1 L2 N PE"), ("ac240", "L1 L2 PE")])
def test_what_is_put_into_a_run_carries_all_its_conductors(circuit: str, poles: str) -> None:
    design = split()
    source = "G1" if circuit == "split" else "G2"
    draft = Draft()
    draft.design = design
    draft.part("transfer_switch", "QT1", circuit=circuit, at=(1500, 1800))
    draft.run(f"{source}.out", "QT1.in1", "W1")
    change = placed(design, "breaker", Target("run", 0, 0, "W1"), (1000, 1800), 1, {})
    design.apply(change)
    part = next(new for _, new in change.pairs.values() if isinstance(new, Part))
    assert part.ratings["circuit"] == circuit
    for run in design.runs_at(part.id):
        assert {str(p) for p, _ in pole_map(design, run)} == set(poles.split())


def test_what_cannot_carry_the_run_is_refused_with_the_reason() -> None:
    design = split()
    draft = Draft()
    draft.design = design
    draft.part("transfer_switch", "QT1", circuit="split", at=(1500, 1800))
    draft.run("G1.out", "QT1.in1", "W1")
    before = design.snapshot()
    with pytest.raises(EditError, match="L1"):
        placed(design, "breaker", Target("run", 0, 0, "W1"), (1000, 1800), 1, {"circuit": "ac"})
    assert design.same_as(before)


def test_the_circuit_is_left_alone_where_the_user_gave_it() -> None:
    design = small()
    poles = (Pole.POS, Pole.NEG)
    assert edits.circuit_for(design, "breaker", {}, poles) == "dc"
    assert edits.circuit_for(design, "breaker", {"circuit": "ac"}, poles) == ""
    assert edits.circuit_for(design, "battery", {}, poles) == "", "it is never asked"
    assert edits.circuit_for(design, "breaker", {}, (Pole.NEG,)) == ""


def test_a_part_with_a_run_is_no_longer_fresh() -> None:
    design = small()
    assert not edits.is_fresh(design, design.part("XD1"))
    assert not edits.is_fresh(design, design.part("QF1")), "it sits in a panel"
    assert not edits.is_fresh(design, design.part("GB1")), "it has no such rating"
    lamp = Part("EL1", "lamp", "EL1")
    design.apply(changed("", [(None, lamp)]))
    assert edits.is_fresh(design, lamp)
    given = replace(lamp, ratings=lamp.rated(circuit="ac").ratings)
    assert not edits.is_fresh(design, given)


# which conductor goes where


def test_like_poles_are_joined_without_asking() -> None:
    choices = pole_choices(small(), End("XD1", "onward"), End("G1", "out"))
    assert [choice.poles for choice in choices] == [None]


def test_a_single_hot_on_two_legs_is_asked_and_no_leg_is_guessed() -> None:
    design = split()
    a, b = End("G1", "out"), End("XJ1", "a")
    choices = pole_choices(design, a, b)
    maps = [dict(choice.poles) if choice.poles else None for choice in choices]
    assert maps == [
        {Pole.L1: Pole.L, Pole.N: Pole.N, Pole.PE: Pole.PE},
        {Pole.L2: Pole.L, Pole.N: Pole.N, Pole.PE: Pole.PE},
    ]
    assert labels(choices)[0].startswith("L1 to hot")


def test_a_fresh_part_may_also_take_all_conductors() -> None:
    choices = pole_choices(split(), End("G1", "out"), End("QP1", "feed"))
    assert choices[0].circuit == ("QP1", "split")
    assert "QP1 becomes AC, two hots and neutral" in choices[0].label
    assert len(choices) == 3


def test_no_hot_that_fits_is_refused_though_the_ground_wires_would_meet() -> None:
    design = split()
    a, b = End("G2", "out"), End("XJ1", "a")
    assert pole_choices(design, a, b) == ()
    assert why_not_joined(design, a, b) == "no hot of G2 fits XJ1"


def test_minus_to_chassis_is_the_one_sensible_way() -> None:
    choices = pole_choices(small(), End("GB1", "dc"), End("XB1", "tie"))
    assert [choice.poles for choice in choices] == [((Pole.NEG, Pole.BODY),)]
    assert labels(choices) == ["minus to chassis or hull"]


def test_neutral_to_ground_is_offered_as_a_bond_beside_ground_to_ground() -> None:
    choices = pole_choices(small(), End("G1", "out"), End("QP1", "ground"))
    assert [choice.poles for choice in choices] == [None, ((Pole.N, Pole.PE),)]


def test_direct_and_alternating_current_are_never_joined() -> None:
    design = small()
    a, b = End("GB1", "dc"), End("XD1", "onward")
    assert pole_choices(design, a, b) == ()
    assert "no conductor fits both" in why_not_joined(design, a, b)


def test_every_choice_offered_can_be_carried_out() -> None:
    tried = 0
    for make in (small, split):
        ends = [
            End(part.id, terminal.name)
            for part in make().parts
            for terminal in make().kind(part).terminals(make().values(part))
        ]
        for a in ends:
            for b in ends:
                for choice in pole_choices(make(), a, b):
                    design = make()
                    design.apply(edits.join(design, a, b, choice.poles, choice.circuit))
                    (run,) = [r for r in design.runs if {r.a, r.b} == {a, b} and r.a == a][-1:]
                    assert pole_map(design, run)
                    tried += 1
    assert tried > 100


# moving


def test_a_seated_part_is_not_moved_by_itself() -> None:
    design = small()
    assert not edits.move(design, ["QF1"], 100, 0)
    assert edits.loose_parts(design, ["QF1", "G1", "settings"]) == ("G1",)


def test_taking_out_what_sits_nowhere_is_refused() -> None:
    with pytest.raises(EditError, match="sits nowhere"):
        edits.take_out(small(), "G1", (0, 0))


def test_a_fresh_part_moved_into_a_board_takes_its_circuit() -> None:
    design = small()
    draft = Draft()
    draft.design = design
    draft.part("panel", "QP2", circuit="dc", at=(1500, 1500))
    draft.part("breaker", "QF2", at=(2500, 1500))
    design.apply(edits.move_to_place(design, "QF2", "QP2", "1"))
    assert design.part("QF2").ratings["circuit"] == "dc"


def test_a_free_spot_is_on_the_grid_inside_the_frame_and_on_nothing() -> None:
    design = small()
    layout = compose(design)
    for near in ((500, 600), (1500, 600), (0, 0), (4200, 2970)):
        x, y = free_spot(design, layout, "lamp", near)
        box = draw_part(design, Part("new", "lamp", "")).box.moved(x, y)
        assert (x - near[0]) % 25 == 0
        assert layout.frame.area.contains(box)
        assert not any(box.overlaps(b) for boxes in layout.items.values() for b in boxes)


# bends

WAY = ((0, 0), (500, 0), (500, 400), (900, 400))


def test_an_inner_piece_is_shifted_sideways() -> None:
    assert shifted(WAY, 1, (610, 200)) == ((0, 0), (600, 0), (600, 400), (900, 400))


def test_a_piece_at_a_terminal_keeps_its_end_there() -> None:
    assert shifted(WAY, 0, (250, 110)) == (
        (0, 0),
        (75, 0),
        (75, 100),
        (500, 100),
        (500, 400),
        (900, 400),
    )
    assert shifted(WAY, 2, (700, 290))[-3:] == ((825, 300), (825, 400), (900, 400))


def test_a_straight_run_gets_two_bends_at_each_end() -> None:
    assert shifted(((0, 0), (900, 0)), 0, (400, 200)) == (
        (0, 0),
        (75, 0),
        (75, 200),
        (825, 200),
        (825, 0),
        (900, 0),
    )


def test_a_piece_let_go_where_it_lay_is_not_bent() -> None:
    assert shifted(WAY, 1, (505, 200)) == WAY
