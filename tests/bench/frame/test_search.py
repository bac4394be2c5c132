"""Things are found by any words of them."""

from __future__ import annotations

import pytest

from linework.analysis import analyse
from linework.bench.frame.search import matches
from linework.design import Draft, Note, changed


@pytest.fixture(scope="module")
def draft() -> Draft:
    d = Draft(place="vehicle")
    d.part("generator", "G1", "by the gate", power="5 kVA", neutral="floating")
    d.part("panel", "QP1", bond="absent")
    for n in (1, 2, 10):
        d.part("breaker", f"QF{n}", rating=f"{15 + n} A")
    d.run("G1.out", "QP1.feed", size="10 AWG", length="25 ft")
    d.design.apply(changed("", [(None, Note("n1", "Ask the maker of\nthe set", 100, 100))]))
    return d


def texts(draft: Draft, wanted: str) -> list[str]:
    return [match.text for match in matches(draft.design, None, wanted)]


def test_what_is_called_so_comes_first_and_numbers_go_by_their_value(draft: Draft) -> None:
    assert texts(draft, "qf") == ["QF1 breaker", "QF2 breaker", "QF10 breaker"]
    assert texts(draft, "qf1") == ["QF1 breaker", "QF10 breaker"]


@pytest.mark.parametrize(
    ("wanted", "first"),
    [
        ("gate", "G1 by the gate"),
        ("generator", "G1 by the gate"),
        ("10 awg", "W1 from G1 to QP1"),
        ("g1 qp1", "W1 from G1 to QP1"),
        ("maker set", "Ask the maker of the set"),
        ("17 A breaker", "QF2 breaker"),
    ],
)
def test_by_title_kind_size_ends_note_and_rating(draft: Draft, wanted: str, first: str) -> None:
    assert texts(draft, wanted)[0] == first


def test_nothing_for_no_words_and_for_words_that_are_nowhere(draft: Draft) -> None:
    assert texts(draft, "  ") == []
    assert texts(draft, "g1 zebra") == []


def test_findings_by_their_number_and_by_what_they_say(draft: Draft) -> None:
    analysis = analyse(draft.design)
    one = next(f for f in analysis.findings if f.number == 1)
    found = matches(draft.design, analysis, "1")
    assert found[0].number == 1
    assert found[0].ids == one.subjects
    word = one.title.split()[0]
    assert any(match.number == 1 for match in matches(draft.design, analysis, word))
