"""Inverters, chargers, switches and bars: which poles they join, when they give, how much."""

from __future__ import annotations

import pytest

from linework.kinds import Kind, OneOf, Values, kinds
from linework.kinds.common import POLES
from linework.wiring import (
    Contact,
    Convert,
    Draw,
    Join,
    Link,
    Metal,
    Overcurrent,
    Pole,
    Source,
    SourceGroup,
)
from tests.kinds.cases import rated

INVERTER, BOTH, CHARGER = (kinds()[k] for k in ("inverter", "inverter_charger", "charger"))
ISOLATOR, DISCONNECT, BUSBAR = (kinds()[k] for k in ("isolator", "battery_disconnect", "busbar"))


def sorts(kind: Kind, values: Values, sort: type) -> list:
    return [e for e in kind.inside(values).elements if isinstance(e, sort)]


def test_an_inverter_gives_its_rating_and_takes_it_from_the_battery() -> None:
    values = rated(INVERTER, power="1200 VA", dc_voltage="24 V")
    (source,) = sorts(INVERTER, values, Source)
    assert source.rated_a == pytest.approx(10.0)
    # Twice the rated current for 20 ms, then 1.5 times for 5 s (one source and from memory).
    assert source.limit.first_a.high == pytest.approx(30.0)
    assert source.limit.off_s == 5.0
    (draw,) = sorts(INVERTER, values, Draw)
    assert (draw.a[0], draw.volts, draw.hertz) == ("dc", 24.0, 0.0)
    (convert,) = sorts(INVERTER, values, Convert)
    assert (convert.gives, convert.takes) == (source.name, draw.name)


def test_nothing_passes_through_an_inverter() -> None:
    values = rated(INVERTER, power="1200 VA")
    assert {t.name for t in INVERTER.terminals(values)} == {"dc", "ac_out", "case"}
    for element in (*sorts(INVERTER, values, Join), *sorts(INVERTER, values, Contact)):
        assert "dc" not in (element.a[0], element.b[0])


def test_an_inverter_works_as_the_inverting_half_of_an_inverter_charger() -> None:
    one = rated(INVERTER, power="2 kVA", efficiency="90 %", idle="15 W")
    other = rated(BOTH, power="2 kVA", efficiency="90 %", idle="15 W")
    (mine,), (theirs, _) = sorts(INVERTER, one, Source), sorts(BOTH, other, Source)
    for each in ("volts", "rated_a", "limit", "ohm_r", "ohm_x", "group"):
        assert getattr(mine, each) == getattr(theirs, each), each


def test_the_neutral_of_an_inverter() -> None:
    (bond,) = (e for e in sorts(INVERTER, rated(INVERTER, neutral="bonded"), Link) if e.bond)
    assert (bond.a, bond.b) == (("ac_out", Pole.N), ("case", Pole.PE))
    assert sorts(INVERTER, rated(INVERTER, neutral="floating"), Link) == []
    assert rated(INVERTER).answer("neutral") == OneOf(("bonded", "floating"))


def test_a_charger_gives_while_its_input_is_live() -> None:
    values = rated(CHARGER, current="55 A")
    (source,), (draw,) = sorts(CHARGER, values, Source), sorts(CHARGER, values, Draw)
    assert source.when == draw.when == (("output", frozenset({"charging"})),)
    assert (source.group, source.rated_a, source.hertz) == (SourceGroup.CHARGER, 55.0, 0.0)
    (output,) = CHARGER.inside(values).selectors
    assert output.moves == "follows"
    assert output.rule[0].live == (("ac_in", Pole.L),)


def test_the_sides_of_a_charger_are_apart() -> None:
    for join in sorts(CHARGER, rated(CHARGER, current="55 A"), Join):
        assert {join.a[0], join.b[0]} == {"ac_in", "case"}


@pytest.mark.parametrize(("case", "metals"), [("metal", 1), ("insulated", 0)])
def test_the_case_of_a_charger(case: str, metals: int) -> None:
    assert len(sorts(CHARGER, rated(CHARGER, case=case), Metal)) == metals


# switches that break a circuit, and protect nothing


@pytest.mark.parametrize(
    ("circuit", "poles", "opened"),
    [
        ("ac", "lines", {"L"}),
        ("ac", "all", {"L", "N"}),
        ("split", "all", {"L1", "L2", "N"}),
        ("ac240", "all", {"L1", "L2"}),
        ("dc", "lines", {"+"}),
        ("dc", "all", {"+", "-"}),
    ],
)
def test_an_isolator_opens_what_it_says(circuit: str, poles: str, opened: set[str]) -> None:
    values = rated(ISOLATOR, circuit=circuit, poles=poles)
    contacts = sorts(ISOLATOR, values, Contact)
    assert {c.a[1] for c in contacts} == opened
    assert {j.a[1] for j in sorts(ISOLATOR, values, Join)} == set(POLES[circuit]) - opened
    assert all(c.when == (("switch", frozenset({"closed"})),) for c in contacts)
    assert sorts(ISOLATOR, values, Overcurrent) == []


@pytest.mark.parametrize(
    ("poles", "opened"), [("plus", {"+"}), ("both", {"+", "-"}), ("minus", {"-"})]
)
def test_a_battery_disconnect_opens_what_it_says(poles: str, opened: set[str]) -> None:
    values = rated(DISCONNECT, poles=poles)
    assert {c.a[1] for c in sorts(DISCONNECT, values, Contact)} == opened
    assert {j.a[1] for j in sorts(DISCONNECT, values, Join)} == {"+", "-"} - opened
    assert sorts(DISCONNECT, values, Overcurrent) == []


@pytest.mark.parametrize("kind", [ISOLATOR, DISCONNECT], ids=lambda kind: kind.key)
def test_a_switch_is_closed_until_an_interlock_opens_it(kind: Kind) -> None:
    (switch,) = kind.inside(rated(kind)).selectors
    assert (switch.rest, switch.moves) == ("closed", "protection")


@pytest.mark.parametrize(("bar", "pole"), [("plus", "+"), ("minus", "-"), ("ground", "PE")])
def test_a_bar_is_one_conductor(bar: str, pole: str) -> None:
    values = rated(BUSBAR, bar=bar, taps="3")
    terminals = BUSBAR.terminals(values)
    assert [t.name for t in terminals] == ["feed", "1", "2", "3"]
    assert {t.poles for t in terminals} == {(Pole(pole),)}
    joined = {e.b[0] for e in sorts(BUSBAR, values, Join) if e.a == ("feed", pole)}
    assert joined == {"1", "2", "3"}
