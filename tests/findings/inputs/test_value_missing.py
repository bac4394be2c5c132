"""value-missing: what must be known and is not blocks "sound"."""

from __future__ import annotations

import pytest

from linework.analysis import analyse
from linework.design import Draft
from tests.findings.told import gaps

RULE = "value-missing"


def whole() -> Draft:
    draft = Draft(place="field")
    draft.part("generator", "G1", power="2 kVA", neutral="bonded")
    draft.part("breaker", "QF1", rating="20 A")
    draft.part("load", "EA1", power="500 W")
    draft.seat("QF1", "G1", "1")
    draft.run("QF1.load", "EA1.in", "W1", size="12 AWG", length="5 ft")
    return draft


def test_nothing_is_missing_from_a_whole_design() -> None:
    assert not gaps(whole(), RULE)


@pytest.mark.parametrize(
    ("part", "rating", "words"),
    [
        ("G1", "power", "rating is not given"),
        ("QF1", "rating", "rating is not given"),
        ("EA1", "power", "power is not given"),
    ],
)
def test_a_part_without_what_it_is_rated_for(part: str, rating: str, words: str) -> None:
    draft = whole()
    draft.rate(part, **{rating: None})
    (gap,) = gaps(draft, RULE)
    assert gap.where == (part,)
    assert gap.reason == words
    assert not analyse(draft.design).sound


def test_a_run_without_size_and_length_is_one_gap_that_names_both() -> None:
    draft = whole()
    draft.rate_run("W1", size=None, length=None)
    (gap,) = gaps(draft, RULE)
    assert gap.where == ("W1",)
    assert gap.reason == "conductor size, length, one way is not given"


def test_no_rule_breaks_on_a_design_that_is_only_begun() -> None:
    draft = Draft(place="vehicle")
    kinds = ("generator", "supply", "battery", "inverter_charger", "panel", "breaker", "fuse",
             "gfci", "outlet", "motor", "lamp", "load", "plug_load", "transfer_switch", "plug",
             "inlet", "junction_box", "body", "electrode")  # fmt: skip
    for n, kind in enumerate(kinds):
        draft.part(kind, f"P{n}")
    draft.run("P0.out", "P4.feed", "W1")
    draft.run("P2.dc", "P3.dc", "W2")
    draft.run("P3.ac_out", "P11.in", "W3")
    reasons = [gap.reason for gap in analyse(draft.design).gaps]
    assert not [r for r in reasons if "error of its own" in r]
