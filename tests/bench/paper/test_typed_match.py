from __future__ import annotations

import pytest

from linework.bench.paper.typed_match import matches
from linework.kinds import kinds


@pytest.mark.parametrize(
    ("text", "kind", "answers"),
    [
        ("30 A breaker", "breaker", {"rating": "30 A"}),
        ("breaker 30A", "breaker", {"rating": "30A"}),
        ("20 A GFCI breaker", "breaker", {"rating": "20 A", "ground_fault": "class_a"}),
        ("shore inlet", "inlet", {}),
        ("TT-30 inlet", "inlet", {"configuration": "TT-30"}),
        ("5-20 outlet", "outlet", {"configuration": "5-20"}),
        ("gfci outlet", "outlet", {"ground_fault": "class_a"}),
        ("5 kVA generator", "generator", {"power": "5 kVA"}),
        ("floating generator", "generator", {"neutral": "floating"}),
        ("12 V 200 Ah battery", "battery", {"voltage": "12 V", "capacity": "200 Ah"}),
        ("60 W lamp", "lamp", {"power": "60 W"}),
        ("rod", "electrode", {}),
        ("chassis", "body", {}),
        ("junction", "junction_box", {}),
        ("transfer", "transfer_switch", {}),
        ("transformer", "transformer", {}),
        ("ats", "transfer_automatic", {}),
        ("dogbone", "adapter", {}),
        ("extension cord", "cord_set", {}),
        ("bonding plug", "bond_plug", {}),
        ("1500 W heater", "heater", {"power": "1500 W"}),
        ("fuse", "fuse", {}),
        ("mega fuse", "fuse", {"type": "mega"}),
        ("80 A midi fuse", "fuse", {"rating": "80 A", "type": "midi"}),
        ("small fuse", "fuse", {"type": "mini"}),
        ("ATO fuse", "fuse", {}),  # a blade of type C is assumed anyway
        ("5000 W generator", "generator", {"power": "5000 W"}),
        ("2000 W inverter", "inverter", {"power": "2000 W"}),
        ("3 kW inverter charger", "inverter_charger", {"power": "3 kW"}),
        ("20 A gfci outlet", "outlet", {"configuration": "5-20", "ground_fault": "class_a"}),
        ("30 A inlet", "inlet", {"configuration": "TT-30"}),
        ("fridge", "load", {}),
        ("water pump", "motor", {}),
        ("12 V water pump", "motor", {"voltage": "12 V"}),
        ("starter battery", "battery", {}),
        ("100 A terminal fuse", "fuse", {"rating": "100 A", "type": "mrbf"}),
    ],
)
def test_words_are_understood(text: str, kind: str, answers: dict[str, str]) -> None:
    first = matches(text, "NA")[0]
    assert (first.kind, first.answers) == (kind, answers)


@pytest.mark.parametrize(
    "text", ["xyzzy", "30 A xyzzy", "30 parsec breaker", "30 A lamp", "breaker breaker99"]
)
def test_what_is_not_understood_in_full_is_not_guessed(text: str) -> None:
    assert matches(text, "NA") == ()


def test_every_answer_fits_its_kind() -> None:
    for text in ("30 A", "12 V", "500 W", "5-20", "TT-30", "gfci"):
        found = matches(text, "NA")
        assert found, text
        for match in found:
            for key, answer in match.answers.items():
                kinds()[match.kind].declared[key].check(answer)


def test_nothing_typed_offers_every_kind() -> None:
    assert {match.kind for match in matches("", "NA")} == set(kinds())


def test_the_name_counts_for_more_than_a_search_word() -> None:
    assert matches("panel", "NA")[0].kind == "panel"
    assert matches("breaker", "NA")[0].kind == "breaker"


def test_a_figure_means_what_is_written_at_the_symbol_before_anything_else() -> None:
    found = [match.kind for match in matches("30 A", "NA")]
    for kind in found[:3]:
        assert any(
            kinds()[kind].declared[key].quantity == "current" for key in kinds()[kind].captions
        )
    assert found.index("battery") > found.index("breaker")


def test_the_words_of_the_other_family_are_understood_there() -> None:
    assert matches("socket-outlet", "INT")[0].kind == "outlet"
    assert matches("distribution board", "INT")[0].kind == "panel"
