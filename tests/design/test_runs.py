from __future__ import annotations

import pytest

from linework.design import Design, Draft, End, Run
from linework.design.edits import add_run, rate_run, rename_run, reroute, set_poles
from linework.design.edits.runs import why_not
from linework.wiring import Pole
from tests.design.sketches import done, refused, shed, untouched

L, N, PE = Pole.L, Pole.N, Pole.PE


@pytest.fixture
def design() -> Design:
    draft = shed()
    draft.part("battery", "GB1")
    draft.part("body", "XB1")
    draft.part("panel", "QP2", circuit="split", bond="absent")
    draft.part("panel", "QP3", circuit="ac240", bond="absent")
    return draft.design


def run_of(design: Design, name: str) -> Run:
    found = design.get(name)
    assert isinstance(found, Run)
    return found


def test_a_run_is_added(design: Design) -> None:
    a, b = End("G1", "out"), End("XD1", "feed")
    with untouched(design):
        change = add_run(design, a, b, ratings={"size": "12 AWG"})
    assert change.title == "join W4"
    run = done(design, change).runs[-1]
    assert (run.a, run.b, run.designation, run.poles, run.route) == (a, b, "W4", None, ())
    assert dict(run.ratings) == {"size": "12 AWG"}


def test_a_bonding_jumper_is_a_run_with_its_own_poles(design: Design) -> None:
    change = add_run(design, End("QP1", "feed"), End("G1", "frame"), poles=((N, PE),))
    assert done(design, change).runs[-1].poles == ((N, PE),)


@pytest.mark.parametrize(
    ("a", "b", "poles", "reason"),
    [
        ("G1.out", "nobody.feed", None, "this part is no longer there"),
        ("nobody.out", "G1.out", None, "this part is no longer there"),
        ("G1.out", "G1.frame", None, "two different parts"),
        ("G1.out", "G1.out", None, "two different parts"),
        ("G1.hole", "XD1.feed", None, "no terminal of this name"),
        ("G1.out", "XD1.hole", None, "no terminal of this name"),
        ("G1.out", "GB1.dc", None, "G1 has L, N, PE and GB1 has .*never joined to alternating"),
        ("GB1.dc", "XB1.tie", None, "say which goes where"),
        ("G1.out", "GB1.dc", ((L, Pole.POS),), r"L of G1 cannot go to \+ of GB1"),
        ("GB1.dc", "G1.out", ((Pole.NEG, N),), "- of GB1 cannot go to N of G1"),
        ("G1.out", "XD1.feed", ((Pole.L1, L),), "L1 of G1 cannot go to L of XD1"),
        ("G1.out", "XD1.feed", (), "at least one conductor"),
        ("G1.out", "XD1.feed", ((L, L), (L, L)), "joined twice"),
        ("G1.out", "QP2.feed", None, "L of G1 may go to L1 or L2 of QP2: say which goes where"),
        ("QP3.feed", "G1.out", None, "L1, L2 of QP3 may go to L of G1"),
    ],
)
def test_a_run_is_refused(design: Design, a: str, b: str, poles, reason: str) -> None:
    first, second = (End(*text.split(".")) for text in (a, b))
    with refused(design, reason):
        add_run(design, first, second, poles=poles)
    if "nobody" not in a + b:
        assert why_not(design, first, second, poles)


@pytest.mark.parametrize(
    ("a", "b", "poles"),
    [
        ("G1.out", "QP2.feed", ((L, Pole.L1), (L, Pole.L2), (N, N), (PE, PE))),
        ("QP2.feed", "QP3.feed", None),  # the neutral ends: nothing is guessed
        ("GB1.dc", "XB1.tie", ((Pole.NEG, Pole.BODY),)),
        ("G1.frame", "XB1.tie", None),
        ("G1.out", "XD1.feed", ((L, N), (N, L), (PE, PE))),
    ],
)
def test_a_run_is_taken(design: Design, a: str, b: str, poles) -> None:
    first, second = (End(*text.split(".")) for text in (a, b))
    assert why_not(design, first, second, poles) == ""
    assert done(design, add_run(design, first, second, poles=poles)).runs[-1].poles == poles


def test_a_run_is_refused_for_its_name_or_ratings(design: Design) -> None:
    a, b = End("G1", "out"), End("XD1", "feed")
    with refused(design, "W1 is taken"):
        add_run(design, a, b, designation="W1")
    with refused(design, "no rating 'lenght' here; did you mean 'length'"):
        add_run(design, a, b, ratings={"lenght": "1 m"})
    with refused(design, "Conductor size: '12' may be a gauge"):
        add_run(design, a, b, ratings={"size": "12"})


def test_ratings_of_a_run_are_set_and_taken_away(design: Design) -> None:
    with untouched(design):
        change = rate_run(design, "W1", {"size": None, "length": "30 ft", "material": "aluminium"})
    after = run_of(done(design, change), "W1")
    assert dict(after.ratings) == {"length": "30 ft", "material": "aluminium"}
    assert not rate_run(design, "W1", {"size": "10 AWG"})
    with refused(design, "this run is no longer there"):
        rate_run(design, "G1", {})
    with refused(design, "no rating 'power' here"):
        rate_run(design, "W1", {"power": "1 W"})


def test_words_of_a_refusal_are_the_familys() -> None:
    draft = Draft(family="INT", voltage="230 V", frequency="50 Hz")
    draft.part("generator", "G1")
    draft.part("outlet", "XD1")
    run = draft.run("G1.out", "XD1.feed")
    with refused(draft.design, "^earth wire size: "):
        rate_run(draft.design, run.id, {"ground_size": "x"})


def test_a_run_is_renamed(design: Design) -> None:
    after = done(design, rename_run(design, "W1", " feeder "))
    assert run_of(after, "W1").designation == "feeder"
    for run, name, reason in (
        ("G1", "x", "this run is no longer there"),
        ("W1", " ", "a run needs a designation"),
        ("W1", "W2", "W2 is taken"),
    ):
        with refused(design, reason):
            rename_run(design, run, name)
    assert done(design, rename_run(design, "W1", "G1"))  # parts have names of their own


def test_poles_are_crossed_and_straightened(design: Design) -> None:
    crossed = ((L, N), (N, L), (PE, PE))
    after = done(design, set_poles(design, "W1", crossed))
    assert run_of(after, "W1").poles == crossed
    assert done(after, set_poles(after, "W1", None)).same_as(design)
    for poles, reason in (
        (((L, Pole.POS),), r"L of G1 cannot go to \+ of QP1"),
        ((), "at least one conductor"),
        (((PE, PE), (PE, PE)), "joined twice"),
    ):
        with refused(design, reason):
            set_poles(design, "W1", poles)
    with refused(design, "this run is no longer there"):
        set_poles(design, "nothing", None)


def test_the_default_is_refused_where_it_would_lose_the_hot_conductor(design: Design) -> None:
    mapped = ((L, Pole.L1), (N, N), (PE, PE))
    made = add_run(design, End("G1", "out"), End("QP2", "feed"), poles=mapped, run_id="W9")
    design.apply(made)
    with refused(design, "L of G1 may go to L1 or L2 of QP2"):
        set_poles(design, "W9", None)


def test_bends_are_kept(design: Design) -> None:
    after = done(design, reroute(design, "W1", [(0, 25), (50, 25)]))
    assert run_of(after, "W1").route == ((0, 25), (50, 25))
    assert not reroute(design, "W1", [])
    with refused(design, "this run is no longer there"):
        reroute(design, "nothing", [])
