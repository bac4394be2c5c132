"""What stands in the lists of the set: each thing once, in few words, in its natural order."""

from __future__ import annotations

import pytest
from reportlab.lib.units import mm

from linework.handover.assumed_pages import in_a_row
from linework.handover.styles import size_of, style, table, text


@pytest.mark.parametrize(
    ("names", "told"),
    [
        (["W10", "W2", "W1"], "W1, W2, W10"),
        (["W4", "W2", "W3", "W7", "QF1"], "QF1, W2–W4, W7"),
        (["W1", "W1", "W2"], "W1, W2"),
        (["W01", "W02", "W03"], "W01, W02, W03"),
        (["main board", "W1"], "W1, main board"),
        ([], ""),
    ],
)
def test_designations_that_follow_one_another_are_a_span(names: list[str], told: str) -> None:
    assert in_a_row(names) == told


def test_read_text_has_capitals_of_two_and_a_half_millimetres() -> None:
    """Capitals of IBM Plex Sans Condensed are 698 of 1000 units high."""
    for name in ("body", "small", "cell", "head", "note"):
        assert style(name).fontSize * 0.698 == pytest.approx(2.5 * mm)
    assert size_of(50) == pytest.approx(2 * size_of(25))


def test_a_column_in_which_nothing_stands_is_left_out() -> None:
    made = table(["run", "note", "length"], [["W1", "-", "3 ft"], ["W2", "", "4 ft"]], 500)
    heads = [cell[0].getPlainText() for cell in made._cellvalues[0]]
    assert heads == ["run", "length"]


def test_columns_take_what_they_need_and_the_wordiest_gives_way() -> None:
    wordy = (
        "a long remark that has to be broken over several lines because nothing else can be " * 3
    )
    made = table(["run", "remark"], [["W1", wordy]], 300, fill=False)
    assert sum(made._argW) == pytest.approx(300, abs=1)
    narrow, wide = made._argW
    assert narrow < 60 < wide
    short = table(["run", "remark"], [["W1", "short"]], 300, fill=False)
    assert sum(short._argW) < 150
    filled = table(["run", "remark"], [["W1", "short"]], 300)
    assert sum(filled._argW) == pytest.approx(300)


def test_a_word_that_is_too_long_is_broken_and_no_column_vanishes() -> None:
    made = table(["a", "b"], [["x" * 400, "y" * 400], ["1", text("z", "cell")]], 200)
    assert min(made._argW) > 50
    assert sum(made._argW) <= 200 + 1e-6
