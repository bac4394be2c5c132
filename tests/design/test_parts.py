from __future__ import annotations

import pytest

from linework.design import Design, Draft, Interlock, Run, Settings
from linework.design.edits import (
    add_interlock,
    add_note,
    add_part,
    move_parts,
    rate,
    remove,
    rename,
    reroute,
    retitle,
    turn_parts,
)
from linework.design.names import next_designation, next_run_designation, run_name
from linework.kinds import kinds
from tests.design.sketches import done, refused, shed, untouched


@pytest.fixture
def design() -> Design:
    return shed().design


def test_a_part_is_added(design: Design) -> None:
    with untouched(design):
        change = add_part(
            design,
            "generator",
            at=(25, 50),
            title=" big ",
            turn=5,
            sheet=2,
            ratings={"power": "5 kVA"},
        )
    assert change.title == "add G2"
    part = done(design, change).by_designation("G2")
    assert (part.x, part.y, part.turn, part.mirror, part.sheet) == (25, 50, 1, False, 2)
    assert (part.title, dict(part.ratings)) == ("big", {"power": "5 kVA"})


@pytest.mark.parametrize("kind", kinds())
def test_every_kind_gets_a_designation_of_its_class(kind: str) -> None:
    change = add_part(Design(), kind)
    assert done(Design(), change).parts[0].designation == f"{kinds()[kind].letters}1"


def test_two_parts_have_two_ids(design: Design) -> None:
    one, other = (next(iter(add_part(design, "lamp").pairs)) for _ in range(2))
    assert one != other


@pytest.mark.parametrize(
    ("kind", "more", "reason"),
    [
        ("generater", {}, "no kind of part 'generater'; did you mean 'generator'"),
        ("lamp", {"designation": "G1"}, "G1 is taken"),
        ("lamp", {"designation": " G1 "}, "G1 is taken"),
        ("lamp", {"ratings": {"powr": "1 W"}}, "no rating 'powr' here; did you mean 'power'"),
        ("lamp", {"ratings": {"power": "1 A"}}, "Power: '1 A' has a unit of current"),
        ("lamp", {"ratings": {"power": "2 MW"}}, "Power: "),
    ],
)
def test_a_part_is_refused(design: Design, kind: str, more: dict, reason: str) -> None:
    with refused(design, reason):
        add_part(design, kind, **more)


def test_ratings_are_set_and_taken_away(design: Design) -> None:
    with untouched(design):
        change = rate(design, "G1", {"power": "6 kVA", "neutral": None})
    assert change.title == "rate G1"
    after = done(design, change)
    assert dict(after.part("G1").ratings) == {"power": "6 kVA"}
    assert not rate(design, "G1", {"power": "5 kVA"})
    assert not rate(design, "G1", {"outlets": None})


@pytest.mark.parametrize(
    ("part", "answers", "reason"),
    [
        ("nobody", {}, "this part is no longer there"),
        ("W1", {}, "this part is no longer there"),
        ("G1", {"colour": "red"}, "no rating 'colour' here"),
        ("G1", {"power": "5"}, "Rating: '5' has no unit"),
        ("EA1", {"circuit": "dc"}, r"would no longer fit W2 \(QF1 has L, N, PE"),
        ("QF1", {"circuit": "split"}, r"no longer fit QP1 \(QF1 needs L1, L2, which place 1"),
        ("QP1", {"circuit": "ac240"}, r"no longer fit QF1 \(QF1 needs N, which place 1 of QP1"),
        ("XD1", {"circuit": "split"}, r"no longer fit XP1 \(XP1 needs L, which place face"),
    ],
)
def test_a_rating_is_refused(design: Design, part: str, answers: dict, reason: str) -> None:
    with refused(design, reason):
        rate(design, part, answers)


def test_a_place_that_is_taken_cannot_be_rated_away() -> None:
    draft = shed()
    draft.part("breaker", "QF2", rating="15 A")
    draft.seat("QF2", "QP1", "5")
    with refused(draft.design, r"no longer fit QF2 \(QP1 has no place '5'\)"):
        rate(draft.design, "QP1", {"places": "4"})
    assert rate(draft.design, "QP1", {"places": "5"})


def test_an_interlocked_position_cannot_be_rated_away(design: Design) -> None:
    items = [("QP1", "main", "closed"), ("G1", "set", "running")]
    design.apply(add_interlock(design, items))
    with refused(design, "would lose the position 'closed' of 'main', which is interlocked"):
        rate(design, "QP1", {"main": None})
    assert rate(design, "QP1", {"main": "40 A"})


def test_a_conductor_of_its_own_map_is_kept(design: Design) -> None:
    draft = Draft()
    draft.design = design
    draft.part("electrode", "XE1")
    draft.run("QP1.feed", "XE1.ground", "W9", poles="N>PE")
    with refused(design, "no longer fit W9 .N of QP1 cannot go to PE of XE1"):
        rate(design, "QP1", {"circuit": "ac240"})


def test_other_parts_may_be_rated_while_joined_to_an_unknown_kind() -> None:
    from linework.design import End, Part, changed

    design = Design(Settings())
    stranger = Part("s", "flux_tank", "U1")
    lamp = Part("p", "lamp", "EL1")
    wire = Run("w", End("p", "in"), End("s", "hole"), "W1")
    design.apply(changed("", [(None, stranger), (None, lamp), (None, wire)]))
    assert rate(design, "p", {"circuit": "dc"})


def test_a_part_is_renamed(design: Design) -> None:
    with untouched(design):
        change = rename(design, "G1", " G7 ")
    assert change.title == "rename G1"
    assert done(design, change).by_designation("G7").id == "G1"
    assert not rename(design, "G1", "G1")


@pytest.mark.parametrize(
    ("part", "name", "reason"),
    [
        ("nobody", "G2", "no longer there"),
        ("G1", "  ", "needs a reference designation"),
        ("G1", "QP1", "QP1 is taken"),
    ],
)
def test_a_name_is_refused(design: Design, part: str, name: str, reason: str) -> None:
    with refused(design, reason):
        rename(design, part, name)


def test_interlocks_follow_the_name_of_a_plugs_host(design: Design) -> None:
    items = [("XP1", "plug", "XD1"), ("XP1", "plug", "XD2 face"), ("G1", "set", "running")]
    design.apply(add_interlock(design, items))
    after = done(design, rename(design, "XD1", "XD9"))
    (lock,) = after.interlocks
    assert lock.excludes == (("XP1", "plug", "XD9"), *items[1:])
    after = done(design, rename(design, "XD2", "XD8"))
    assert after.interlocks[0].excludes[1] == ("XP1", "plug", "XD8 face")
    after = done(design, rename(design, "G1", "G3"))
    assert after.interlocks == design.interlocks


def test_a_part_is_titled(design: Design) -> None:
    after = done(design, retitle(design, "EA1", "  pump "))
    assert after.part("EA1").title == "pump"
    with refused(design, "no longer there"):
        retitle(design, "nobody", "x")


def test_parts_move_with_the_bends_between_them(design: Design) -> None:
    design.apply(reroute(design, "W1", [(500, 0), (500, 25)]))
    design.apply(reroute(design, "W2", [(1500, 100)]))
    note = add_note(design, "hello", (10, 10))
    design.apply(note)
    note_id = next(iter(note.pairs))
    with untouched(design):
        change = move_parts(design, ["G1", "QP1", "QF1", note_id, "G1"], 25, -50)
    after = done(design, change)
    assert (after.part("G1").x, after.part("G1").y) == (25, -50)
    assert (after.part("EA1").x, after.part("EA1").y) == (2000, 100)
    assert after.get("W1").route == ((525, -50), (525, -25))  # type: ignore[union-attr]
    assert after.get("W2").route == ((1500, 100),)  # type: ignore[union-attr]
    assert (after.notes[0].x, after.notes[0].y) == (35, -40)
    assert not move_parts(design, ["G1"], 0, 0)
    with refused(design, "no longer there"):
        move_parts(design, ["G1", "nobody"], 25, 0)


def test_parts_turn_and_flip(design: Design) -> None:
    turned = done(design, turn_parts(design, ["G1"], 3))
    assert (turned.part("G1").turn, turned.part("G1").mirror) == (3, False)
    assert done(turned, turn_parts(turned, ["G1"], 2)).part("G1").turn == 1
    assert done(turned, turn_parts(turned, ["G1"], -4)).part("G1").turn == 3
    flipped = done(design, turn_parts(design, ["G1"], 0, flip=True))
    assert flipped.part("G1").mirror
    assert done(flipped, turn_parts(flipped, ["G1"], 0, flip=True)).same_as(design)
    with refused(design, "no longer there"):
        turn_parts(design, ["nobody"])


def test_a_part_goes_with_its_runs_and_seats(design: Design) -> None:
    with untouched(design):
        change = remove(design, ["QP1"])
    after = done(design, change)
    assert "QP1" not in after
    assert [run.designation for run in after.runs] == ["W2", "W3"]
    assert {seat.part for seat in after.seats} == {"XP1"}
    assert "QF1" in after  # it lies on the sheet, out of its place


def test_a_seated_part_goes_alone(design: Design) -> None:
    after = done(design, remove(design, ["QF1"]))
    assert "QP1" in after
    assert after.seated_in("QP1") == []
    assert [run.designation for run in after.runs] == ["W1", "W3"]


def test_many_go_at_once(design: Design) -> None:
    change = remove(design, ["G1", "QP1", "W1", "EA1", "settings", "nobody"])
    assert change.title == "remove EA1, G1, QP1"
    after = done(design, change)
    assert {p.id for p in after.parts} == {"QF1", "XD1", "XD2", "XP1", "EP1"}
    assert after.settings == design.settings


def test_all_goes(design: Design) -> None:
    after = done(design, remove(design, list(design.elements)))
    assert list(after.elements) == ["settings"]
    assert list(after.graph.nodes) == []


def test_removing_what_is_gone_is_nothing(design: Design) -> None:
    assert not remove(design, [])
    assert not remove(design, ["nobody", "settings"])


def test_interlocks_lose_what_goes(design: Design) -> None:
    items = [
        ("G1", "set", "running"),
        ("XP1", "plug", "XD1"),
        ("XP1", "plug", "XD2"),
        ("QP1", "main", "closed"),
    ]
    design.apply(add_interlock(design, items))

    def left(*gone: str) -> list[tuple[tuple[str, str, str], ...]]:
        return [lock.excludes for lock in done(design, remove(design, gone)).interlocks]

    assert left("G1") == [tuple(items[1:])]
    assert left("XD1") == [(items[0], items[2], items[3])]
    assert left("XP1") == [(items[0], items[3])]
    assert left("XP1", "G1") == []  # one position excludes nothing
    assert left("EA1") == [tuple(items)]


def test_an_interlock_that_goes_itself(design: Design) -> None:
    change = add_interlock(design, [("G1", "set", "running"), ("QP1", "main", "closed")])
    design.apply(change)
    (lock,) = design.interlocks
    assert isinstance(lock, Interlock)
    after = done(design, remove(design, [lock.id, "G1"]))
    assert after.interlocks == []


def test_the_next_designation_is_the_first_free_one(design: Design) -> None:
    assert next_designation(design, "G") == "G2"
    assert next_designation(design, "XD") == "XD3"
    design.apply(remove(design, ["XD1", "W2"]))
    assert next_designation(design, "XD") == "XD1"
    assert next_designation(design, "ZZ") == "ZZ1"
    assert next_run_designation(design) == "W2"


def test_a_run_without_a_designation_is_called_after_its_ends(design: Design) -> None:
    from dataclasses import replace

    from linework.design import changed

    assert run_name(design, "W1") == "W1"
    run = design.get("W1")
    assert isinstance(run, Run)
    design.apply(changed("", [(run, replace(run, designation=""))]))
    assert run_name(design, "W1") == "G1-QP1"
    with pytest.raises(KeyError):
        run_name(design, "G1")
