from __future__ import annotations

import pytest

from linework.design import Change, EditError, History, changed
from linework.design.edits import add_note, rename, retitle
from tests.design.sketches import frozen, shed


@pytest.fixture
def history() -> History:
    return History(shed().design)


def titled(history: History, title: str) -> Change:
    return retitle(history.design, "G1", title)


def test_what_is_done_is_taken_back_and_done_again(history: History) -> None:
    start = history.design.snapshot()
    history.do(titled(history, "a"))
    history.do(rename(history.design, "G1", "G5"))
    end = history.design.snapshot()
    assert (history.undo_title, history.redo_title) == ("rename G1", "")
    assert history.undo() == "rename G1"
    assert (history.undo_title, history.redo_title) == ("title of G1", "rename G1")
    assert history.undo() == "title of G1"
    assert history.design.same_as(start)
    assert history.redo() == "title of G1"
    assert history.redo() == "rename G1"
    assert history.design.same_as(end)


def test_at_either_end_nothing_happens(history: History) -> None:
    before = frozen(history.design)
    assert history.undo() == history.redo() == ""
    assert history.undo_title == history.redo_title == ""
    assert frozen(history.design) == before


def test_a_new_edit_ends_what_could_be_done_again(history: History) -> None:
    history.do(titled(history, "a"))
    history.undo()
    history.do(titled(history, "b"))
    assert history.redo() == ""
    assert history.design.part("G1").title == "b"


def test_an_empty_change_is_no_step(history: History) -> None:
    history.do(titled(history, "a"))
    history.undo()
    told: list[Change] = []
    history.listen(told.append)
    history.do(titled(history, ""))
    assert told == []
    assert history.redo_title == "title of G1"
    assert history.undo_title == ""


def test_a_refused_change_is_no_step(history: History) -> None:
    stale = titled(history, "a")
    history.do(titled(history, "b"))
    history.undo()
    history.do(titled(history, "c"))
    before = frozen(history.design)
    with pytest.raises(EditError):
        history.do(stale)
    assert frozen(history.design) == before
    assert history.undo() == "title of G1"
    assert history.undo() == ""


def test_listeners_hear_each_change_once_it_is_made(history: History) -> None:
    heard: list[tuple[Change, str]] = []
    history.listen(lambda change: heard.append((change, history.design.part("G1").title)))
    change = titled(history, "a")
    history.do(change)
    history.undo()
    history.redo()
    assert heard == [(change, "a"), (change.inverse(), ""), (change, "a")]


def test_a_listener_that_fails_does_not_keep_the_others_from_hearing(history: History) -> None:
    heard: list[str] = []

    def fails(change: Change) -> None:
        heard.append("first")
        raise RuntimeError("broken")

    history.listen(fails)
    history.listen(lambda change: heard.append("second"))
    with pytest.raises(RuntimeError, match="broken"):
        history.do(titled(history, "a"))
    assert heard == ["first", "second"]
    assert history.undo_title == "title of G1"
    assert history.design.part("G1").title == "a"


def test_who_is_ignored_hears_no_more(history: History) -> None:
    heard: list[Change] = []
    history.listen(heard.append)
    history.do(titled(history, "a"))
    assert len(heard) == 1
    history.ignore(heard.append)
    history.do(titled(history, "b"))
    assert len(heard) == 1


def test_whether_the_file_holds_the_design(history: History) -> None:
    assert history.saved
    history.do(titled(history, "a"))
    assert not history.saved
    history.mark_saved()
    assert history.saved
    history.undo()
    assert not history.saved
    history.redo()
    assert history.saved
    history.undo()
    history.do(titled(history, "a"))  # looks the same, but its way was another
    assert not history.saved


def test_saved_at_the_start_is_saved_again_after_undo(history: History) -> None:
    history.do(titled(history, "a"))
    history.undo()
    assert history.saved


def test_a_saved_state_that_undo_left_for_good_is_never_saved(history: History) -> None:
    history.do(titled(history, "a"))
    history.mark_saved()
    history.undo()
    history.do(titled(history, "b"))
    history.undo()
    assert not history.saved


def test_changes_of_all_sorts_are_taken_back(history: History) -> None:
    before = history.design.snapshot()
    history.do(add_note(history.design, "x", (0, 0)))
    note = history.design.notes[0]
    history.do(changed("drop", [(note, None)]))
    history.undo()
    assert history.design.notes == [note]
    history.undo()
    assert history.design.same_as(before)
