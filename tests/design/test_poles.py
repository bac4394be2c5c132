from __future__ import annotations

from itertools import product

import pytest

from linework.design import End, default_map, pole_map, terminal_at
from linework.design.poles import left_open, misfit
from linework.wiring import Pole, Terminal, is_ac, is_dc
from tests.design.sketches import shed

CIRCUITS = {
    "ac": "L N PE",
    "split": "L1 L2 N PE",
    "ac240": "L1 L2 PE",
    "dc": "+ -",
    "ground": "PE",
    "body": "body",
    "earth": "earth",
    "minus": "-",
}


def terminal(poles: str) -> Terminal:
    return Terminal("t", tuple(Pole(word) for word in CIRCUITS.get(poles, poles).split()))


def written(pairs) -> str:
    return " ".join(f"{p}>{q}" for p, q in pairs)


@pytest.mark.parametrize(
    ("a", "b", "pairs"),
    [
        ("ac", "ac", "L>L N>N PE>PE"),
        ("split", "split", "L1>L1 L2>L2 N>N PE>PE"),
        ("split", "ac240", "L1>L1 L2>L2 PE>PE"),
        ("ac", "split", "N>N PE>PE"),
        ("dc", "dc", "+>+ ->-"),
        ("dc", "minus", "->-"),
        ("ac", "ground", "PE>PE"),
        ("ground", "body", "PE>body"),
        ("ac", "body", "PE>body"),
        ("body", "earth", "body>earth"),
        ("ground", "earth", "PE>earth"),
        ("dc", "body", ""),  # whether the chassis carries minus is asked
        ("dc", "ac", ""),
        ("dc", "ground", ""),
    ],
)
def test_the_default_joins_like_to_like(a: str, b: str, pairs: str) -> None:
    there, back = default_map(terminal(a), terminal(b)), default_map(terminal(b), terminal(a))
    assert written(there) == pairs
    assert {(q, p) for p, q in back} == set(there)


@pytest.mark.parametrize(("a", "b"), list(product(CIRCUITS, CIRCUITS)))
def test_the_default_is_never_a_misfit(a: str, b: str) -> None:
    found = default_map(terminal(a), terminal(b))
    assert misfit(terminal(a), terminal(b), found) is None
    for p, q in found:
        assert not (is_ac(p) and is_dc(q))
        assert not (is_dc(p) and is_ac(q))


@pytest.mark.parametrize(("p", "q"), list(product(["L", "N", "L1", "L2"], ["+", "-"])))
def test_direct_and_alternating_current_are_never_joined(p: str, q: str) -> None:
    pair = ((Pole(p), Pole(q)),)
    assert misfit(terminal(p), terminal(q), pair) == pair[0]
    assert misfit(terminal(q), terminal(p), ((Pole(q), Pole(p)),)) == (Pole(q), Pole(p))


@pytest.mark.parametrize("pair", [("N", "PE"), ("-", "body"), ("-", "PE"), ("L", "N")])
def test_what_a_person_may_join_though_nobody_would_guess_it(pair: tuple[str, str]) -> None:
    """A neutral-ground link, a chassis return, crossed conductors: they are drawn and judged."""
    p, q = map(Pole, pair)
    assert misfit(terminal(p), terminal(q), ((p, q),)) is None


def test_a_pole_that_is_not_there_is_a_misfit() -> None:
    assert misfit(terminal("ac240"), terminal("ac"), ((Pole.N, Pole.N),)) == (Pole.N, Pole.N)
    assert misfit(terminal("ac"), terminal("ac240"), ((Pole.N, Pole.N),)) == (Pole.N, Pole.N)


@pytest.mark.parametrize(
    ("a", "b", "left"),
    [
        ("ac", "ac", ((), ())),
        ("ac", "split", (("L",), ("L1", "L2"))),
        ("ac240", "ac", (("L1", "L2"), ("L",))),
        ("split", "ac240", ((), ())),
        ("ac", "ground", (("L",), ())),
        ("dc", "body", (("+",), ())),
    ],
)
def test_what_the_default_leaves_open(a: str, b: str, left) -> None:
    assert left_open(terminal(a), terminal(b)) == left


def test_a_runs_own_map_goes_before_the_default() -> None:
    draft = shed()
    run = draft.run("G1.out", "XD1.feed", poles="L>N N>L PE>PE")
    assert written(pole_map(draft.design, run)) == "L>N N>L PE>PE"
    plain = draft.run("G1.out", "XD2.feed")
    assert written(pole_map(draft.design, plain)) == "L>L N>N PE>PE"


def test_a_terminal_is_found_by_its_name() -> None:
    design = shed().design
    found = terminal_at(design, End("G1", "out"))
    assert found is not None
    assert found.poles == (Pole.L, Pole.N, Pole.PE)
    assert terminal_at(design, End("G1", "hole")) is None
