from __future__ import annotations

from dataclasses import replace

import pytest

from linework.design import (
    Change,
    Design,
    End,
    Note,
    Part,
    Run,
    Seat,
    Settings,
    changed,
)
from linework.kinds import RUN_RATINGS, Ratings
from tests.design.sketches import done, refused, shed, untouched

ROD, BODY = Part("p", "electrode", "XE1"), Part("q", "body", "XB1")
WIRE = Run("w", End("p", "ground"), End("q", "tie"), "W1")


def pair() -> Design:
    design = Design()
    design.apply(changed("", [(None, WIRE), (None, ROD), (None, BODY)]))
    return design


def test_a_new_design_holds_its_settings_only() -> None:
    design = Design()
    assert dict(design.elements) == {"settings": Settings()}
    assert (design.parts, design.runs, design.seats) == ([], [], [])
    assert (design.interlocks, design.notes, design.accepted) == ([], [], [])
    assert design.revision == 0


def test_elements_are_found_by_id_sort_and_name() -> None:
    design = pair()
    assert design.get("p") == design.part("p") == design.by_designation("XE1") == ROD
    assert design.get("nothing") is None
    assert "w" in design
    assert "nothing" not in design
    assert design.runs == [WIRE]
    assert design.named(Run, "W1") == ["w"]
    assert design.named(Part, "W1") == []
    for missing in (lambda: design.part("w"), lambda: design.by_designation("XX")):
        with pytest.raises(KeyError):
            missing()


def test_the_elements_cannot_be_changed_from_outside() -> None:
    design = pair()
    with pytest.raises(TypeError):
        design.elements["p"] = BODY  # type: ignore[index]
    design.parts.clear()
    design.named(Part, "XE1").clear()
    assert design.parts == [ROD, BODY]
    assert design.by_designation("XE1") == ROD


def test_the_graph_holds_the_values() -> None:
    design = shed().design
    assert set(design.graph.nodes) == {part.id for part in design.parts}
    assert all(design.graph.nodes[p.id]["part"] is p for p in design.parts)
    edges = {key: data for _, _, key, data in design.graph.edges(keys=True, data=True)}
    assert set(edges) == {e.id for e in (*design.runs, *design.seats)}
    assert all(edges[run.id]["run"] is run for run in design.runs)
    assert all(edges[seat.id]["seat"] is seat for seat in design.seats)


def test_parallel_runs_are_edges_of_their_own() -> None:
    design = pair()
    twin = replace(WIRE, id="w2", designation="W2")
    after = done(design, changed("", [(None, twin)]))
    assert after.runs_at("p") == [WIRE, twin]
    assert after.runs_at("p", "ground") == [WIRE, twin]
    assert after.runs_at("q", "ground") == []
    assert after.graph.number_of_edges("p", "q") == 2


def test_seats_are_seen_from_both_sides() -> None:
    design = shed().design
    (seat,) = design.seats_of("QF1")
    assert design.seated_in("QP1") == [seat]
    assert design.seated_in("QF1") == design.seats_of("QP1") == []
    assert {s.host for s in design.seats_of("XP1")} == {"XD1", "XD2"}
    assert design.runs_at("nothing") == design.seats_of("nothing") == []


def test_a_changed_element_keeps_its_place_in_the_order() -> None:
    design = shed().design
    order = list(design.elements)
    first = design.part("G1")
    run = design.runs[0]
    moved = replace(run, b=End("XD1", "feed"))
    design.apply(changed("", [(first, replace(first, x=5)), (run, moved)]))
    assert list(design.elements) == order
    assert design.parts[0].x == 5
    assert design.runs_at("QP1", "feed") == []
    assert design.runs_at("XD1", "feed") == [moved]


def test_a_name_that_was_given_up_is_free() -> None:
    design = pair()
    design.apply(changed("", [(ROD, replace(ROD, designation="XE2"))]))
    assert design.named(Part, "XE1") == []
    assert design.by_designation("XE2").id == "p"
    design.apply(changed("", [(WIRE, None)]))
    assert design.named(Run, "W1") == []


def test_two_of_one_name_in_a_faulty_file_are_both_there() -> None:
    design = pair()
    twin = Part("r", "electrode", "XE1")
    design.apply(changed("", [(None, twin)]))
    assert design.named(Part, "XE1") == ["p", "r"]
    design.apply(changed("", [(ROD, replace(ROD, designation="XE9"))]))
    assert design.named(Part, "XE1") == ["r"]


def test_each_change_counts() -> None:
    design = pair()
    assert design.revision == 1
    design.apply(changed("", [(WIRE, None)]))
    assert design.revision == 2


@pytest.mark.parametrize(
    "change",
    [
        Change("x", {"p": (None, ROD)}),  # it is there already
        Change("x", {"p": (replace(ROD, x=1), ROD)}),  # it is not as the change believes
        Change("x", {"new": (BODY, None)}),
        Change("x", {"new": (None, Note("other", "a"))}),  # under a name that is not its own
    ],
)
def test_a_change_that_does_not_begin_with_what_is_there(change: Change) -> None:
    design = pair()
    with refused(design, "'x' does not fit the design as it stands now"):
        design.apply(change)


@pytest.mark.parametrize(
    "joining",
    [
        replace(WIRE, id="v", b=End("nobody", "tie")),
        replace(WIRE, id="v", a=End("w", "tie")),  # a run is no part
        Seat("v", "p", "nobody", "1"),
        Seat("v", "settings", "p", "1"),
    ],
)
def test_nothing_hangs_in_the_air(joining: Run | Seat) -> None:
    design = pair()
    with refused(design, "joins a part that is not there"):
        design.apply(changed("x", [(None, joining)]))


def test_a_part_does_not_go_without_its_run() -> None:
    design = pair()
    with refused(design, "would leave a run without its part"):
        design.apply(changed("x", [(ROD, None)]))
    other = Part("r", "body", "XB2")
    elsewhere = replace(WIRE, a=End("r", "tie"))
    after = done(design, changed("x", [(ROD, None), (None, other), (WIRE, elsewhere)]))
    assert set(after.graph.nodes) == {"q", "r"}
    with refused(design, "joins a part that is not there"):
        design.apply(changed("x", [(ROD, None), (WIRE, replace(WIRE, designation="W9"))]))


def test_nothing_is_changed_when_a_later_pair_is_refused() -> None:
    design = pair()
    with refused(design, "does not fit"):
        design.apply(changed("x", [(None, Note("n", "a")), (replace(BODY, x=1), None)]))


def test_the_settings_stay() -> None:
    design = Design()
    with refused(design, "cannot be taken away"):
        design.apply(changed("x", [(design.settings, None)]))


def test_a_snapshot_is_a_design_of_its_own() -> None:
    design = shed().design
    copy = design.snapshot()
    assert copy.same_as(design)
    assert copy.revision == design.revision
    with untouched(design):
        copy.apply(changed("", [(None, Note("n", "a"))]))
    assert not copy.same_as(design)


def test_a_default_may_come_from_the_settings() -> None:
    design = Design(Settings(voltage="230 V", place="building"))
    part = Part("p", "supply", "GS1")
    design.apply(changed("", [(None, part)]))
    assert design.values(part).num("voltage") == 230.0
    assert design.values(part).pick("outage") == "yes"
    read = design.in_case({("p", "neutral"): "floating"})
    assert read.values(part).pick("neutral") == "floating"


@pytest.mark.parametrize(
    "element",
    [
        replace(ROD, extra=(("later", {"a": [1]}),)),
        replace(WIRE, extra=(("later", [1]),)),
        Settings(extra=(("later", {"b": {}}),)),
    ],
)
def test_what_a_later_version_wrote_does_not_stop_a_hash(element) -> None:
    assert hash(element) == hash(replace(element, extra=()))
    assert element != replace(element, extra=())


def test_ratings_of_a_part_are_set_in_a_copy() -> None:
    part = Part("p", "generator", "G1", Ratings.of({"power": "5 kVA", "outlets": "4"}))
    after = part.rated(power="6 kVA", outlets=None)
    assert dict(after.ratings) == {"power": "6 kVA"}
    assert dict(part.ratings) == {"power": "5 kVA", "outlets": "4"}


def test_a_run_is_read_with_its_defaults_those_of_the_settings_among_them() -> None:
    design = pair()
    values = design.run_values(replace(WIRE, ratings=Ratings().with_answer("size", "8 AWG")))
    assert values.text("size") == "8 AWG"
    assert values.given("size")
    assert not values.given("material")
    assert values.pick("material") == RUN_RATINGS["material"].default
    assert values.setting == design.setting_answers()
