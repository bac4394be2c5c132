"""Transformers and autotransformers: turns, ratings, what is joined and what is apart."""

from __future__ import annotations

import pytest

from linework.kinds import Kind, Values, kinds
from linework.wiring import Draw, Join, Link, Metal, Overcurrent, Pole, Source
from tests.kinds.cases import rated

TRANSFORMER, AUTO = kinds()["transformer"], kinds()["autotransformer"]


def windings(kind: Kind, values: Values, position: str = "forward") -> list[Source]:
    return [
        e
        for e in kind.inside(values).elements
        if isinstance(e, Source) and e.when == (("core", frozenset({position})),)
    ]


def test_a_transformer_of_240_to_120_volt() -> None:
    values = rated(TRANSFORMER, circuit="ac240", power="12 kVA", impedance="5 %", x_over_r="0")
    (winding,) = windings(TRANSFORMER, values)
    assert (winding.volts, winding.primary_v, winding.turns) == (120.0, 240.0, 0.5)
    assert winding.primary == (("primary", Pole.L1), ("primary", Pole.L2))
    assert winding.rated_a == pytest.approx(100.0)
    # 5 % of 120 V at 100 A
    assert winding.ohm_r.usual == pytest.approx(0.06)


def test_backward_it_is_the_same_core() -> None:
    values = rated(TRANSFORMER, circuit="ac240", power="12 kVA")
    both = windings(TRANSFORMER, values, "backward")
    assert [w.volts for w in both] == [120.0, 120.0]
    assert both[0].primary == (("winding", Pole.L), ("winding", Pole.N))
    assert both[1].primary == (("winding", Pole.N), ("winding", Pole.L))


def test_a_middle_makes_two_legs_of_half_the_rating_each() -> None:
    values = rated(TRANSFORMER, circuit="ac240", secondary="split", power="12 kVA")
    first, second = windings(TRANSFORMER, values)
    assert (first.rated_a, second.rated_a) == (50.0, 50.0)
    assert (first.phase_deg, second.phase_deg) == (0.0, 180.0)


def test_nothing_joins_its_sides_but_the_ground_wire() -> None:
    for ground, joined in (("case", True), ("shield", False)):
        values = rated(TRANSFORMER, power="1 kVA", ground=ground)
        joins = [e for e in TRANSFORMER.inside(values).elements if isinstance(e, Join)]
        across = [j for j in joins if "primary" in {j.a[0], j.b[0]}]
        assert bool(across) is joined
        assert all(point[1] is Pole.PE for j in across for point in (j.a, j.b))
        metals = [e for e in TRANSFORMER.inside(values).elements if isinstance(e, Metal)]
        case = next(m for m in metals if m.name == "case")
        assert len(metals) == 2 - joined
        assert case.beside == (() if joined else ("secondary",))


def test_the_link_of_the_secondary() -> None:
    (bond,) = (
        e
        for e in TRANSFORMER.inside(rated(TRANSFORMER, neutral="bonded")).elements
        if isinstance(e, Link)
    )
    assert (bond.a, bond.b) == (("winding", Pole.N), ("case", Pole.PE))


def test_a_breaker_of_its_own_lies_in_every_hot_conductor() -> None:
    values = rated(TRANSFORMER, circuit="ac240", secondary="split", power="5 kVA", breaker="25 A")
    (breaker,) = (e for e in TRANSFORMER.inside(values).elements if isinstance(e, Overcurrent))
    assert (breaker.contacts, breaker.rating_a) == (("L1", "L2"), 25.0)


def test_an_autotransformer_that_makes_a_neutral_halves_the_voltage() -> None:
    values = rated(AUTO, power="6 kVA")
    one, other = windings(AUTO, values)
    assert (one.volts, one.primary_v, one.turns) == (120.0, 240.0, 0.5)
    assert one.primary is not None
    assert other.primary == one.primary[::-1]
    joins = {(j.a, j.b) for j in AUTO.inside(values).elements if isinstance(j, Join)}
    assert (("primary", Pole.L1), ("secondary", Pole.L1)) in joins


@pytest.mark.parametrize(("form", "turns"), [("up", 2.0), ("down", 0.5)])
def test_an_autotransformer_shares_one_conductor(form: str, turns: float) -> None:
    values = rated(AUTO, form=form, power="6 kVA")
    (winding,) = windings(AUTO, values)
    assert winding.turns == turns
    joins = [j for j in AUTO.inside(values).elements if isinstance(j, Join)]
    assert sum(Pole.PE not in (j.a[1], j.b[1]) for j in joins) == 1


def test_it_takes_its_power_where_it_is_fed() -> None:
    draws = [
        e
        for e in TRANSFORMER.inside(rated(TRANSFORMER, power="1 kVA")).elements
        if isinstance(e, Draw)
    ]
    assert [d.name for d in draws] == ["primary side", "secondary side"]
    assert not any(d.own for d in draws)
