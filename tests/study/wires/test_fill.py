"""What lies in raceways and boxes."""

from __future__ import annotations

from linework.codes.na.fill import conductor_area_in2
from linework.codes.tables import rows
from linework.design import Draft
from linework.kinds.run import RACEWAYS, TRADE_SIZES, WIRE_TYPES
from linework.study.wires.fill import box_contents, raceways


def drawn() -> Draft:
    draft = Draft(place="building")
    draft.part("supply", "GS1")
    draft.part("outlet", "XD1")
    draft.run("GS1.out", "XD1.feed", "W1", size="12 AWG", ground_size="14 AWG")
    return draft


def test_runs_of_one_name_are_one_raceway_and_a_size_alone_is_one() -> None:
    draft = drawn()
    draft.part("outlet", "XD2")
    draft.run("XD1.onward", "XD2.feed", "W2", size="10 AWG", raceway="C1", trade_size="1")
    assert [(r.name, r.runs) for r in raceways(draft.design)] == [("C1", ("W2",))]
    draft.rate_run("W1", raceway="C1", wire_type="THHN")
    (both,) = raceways(draft.design)
    assert both.runs == ("W1", "W2")
    assert both.sizes == ("1",)
    assert sorted(both.wires) == [
        *[("10 AWG", "")] * 3,
        *[("12 AWG", "THHN")] * 2,
        ("14 AWG", "THHN"),
    ]
    draft.rate_run("W1", raceway=None, trade_size="1/2")
    assert [r.runs for r in raceways(draft.design)] == [("W1",), ("W2",)]


def test_the_contents_of_a_box() -> None:
    contents = box_contents(drawn().design, ["XD1"])
    assert contents.conductors == {"12 AWG": 2}
    assert contents.grounds == ("14 AWG",)


def test_what_can_be_chosen_is_in_the_tables() -> None:
    table = rows("na/raceway_areas_ch9_4")
    assert {row["raceway"] for row in table} == set(RACEWAYS)
    assert {row["trade_size_in"] for row in table} == set(TRADE_SIZES)
    for word in WIRE_TYPES:
        assert conductor_area_in2("12 AWG", word).value > 0.0
