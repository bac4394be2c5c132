"""What was drawn since the last save is kept aside and offered, and nothing else is."""

from __future__ import annotations

from dataclasses import replace
from datetime import UTC, datetime, timedelta
from pathlib import Path

import pytest

from linework.design import Draft, changed
from linework.storage import StorageError, load, lock, recovery, save


@pytest.fixture
def state(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.setenv("XDG_STATE_HOME", str(tmp_path / "state"))
    return tmp_path / "state" / "linework" / "recovery"


@pytest.fixture
def path(tmp_path: Path) -> Path:
    return tmp_path / "a.linework"


def draft(job: str) -> Draft:
    made = Draft(job=job)
    made.part("load", "EA1", power="100 W")
    return made


def test_what_was_not_saved_is_pending(state: Path, path: Path) -> None:
    save(draft("saved").design, path)
    assert recovery.pending(path) is None
    recovery.write(draft("drawn").design, path)
    found = recovery.pending(path)
    assert found is not None
    assert found.path == path
    assert abs(found.written - datetime.now(UTC)) < timedelta(minutes=1)
    assert found.open().design.same_as(draft("drawn").design)
    assert not found.is_untitled
    assert load(path).settings.job == "saved"
    assert [item.parent for item in state.iterdir()] == [state]
    assert state.stat().st_mode & 0o077 == 0


def test_the_last_state_counts(state: Path, path: Path) -> None:
    for job in ("one", "two"):
        recovery.write(draft(job).design, path)
    found = recovery.pending(path)
    assert found is not None
    assert found.open().design.settings.job == "two"
    assert len(list(state.iterdir())) == 1


def test_what_is_in_the_file_is_not_offered(state: Path, path: Path) -> None:
    recovery.write(draft("drawn").design, path)
    save(draft("drawn").design, path)
    assert recovery.pending(path) is None
    assert recovery.waiting() == []


def test_discarded_it_is_gone(state: Path, path: Path) -> None:
    recovery.write(draft("drawn").design, path)
    recovery.discard(path)
    assert recovery.pending(path) is None
    assert list(state.iterdir()) == []
    recovery.discard(path)


def test_files_do_not_share_a_journal(state: Path, tmp_path: Path) -> None:
    (tmp_path / "b").mkdir()
    here, there = tmp_path / "a.linework", tmp_path / "b" / "a.linework"
    recovery.write(draft("here").design, here)
    recovery.write(draft("there").design, there)
    assert [item.path for item in recovery.waiting()] == [here, there]
    recovery.discard(here)
    found = recovery.pending(there)
    assert found is not None
    assert found.open().design.settings.job == "there"


def test_a_link_and_its_file_share_one(state: Path, path: Path, tmp_path: Path) -> None:
    save(draft("saved").design, path)
    link = tmp_path / "link.linework"
    link.symlink_to(path)
    recovery.write(draft("drawn").design, link)
    assert recovery.pending(path) is not None


def test_what_somebody_has_open_is_not_waiting(state: Path, path: Path) -> None:
    recovery.write(draft("drawn").design, path)
    with lock(path):
        assert recovery.waiting() == []
        assert recovery.pending(path) is not None
    assert [item.path for item in recovery.waiting()] == [path]


def test_a_design_without_a_name_is_kept_too(state: Path) -> None:
    first, second = recovery.untitled(), recovery.untitled()
    assert first != second
    recovery.write(draft("sketch").design, first)
    with lock(first):
        assert recovery.waiting() == []
    waiting = recovery.waiting()
    assert [item.path for item in waiting] == [first]
    assert waiting[0].is_untitled
    recovery.discard(first)
    assert list(state.iterdir()) == []


def test_what_does_not_fit_together_is_recovered_all_the_same(state: Path, path: Path) -> None:
    made = draft("drawn")
    made.part("breaker", "QF1", rating="15 A")
    made.run("QF1.load", "EA1.in")
    part = made.design.part("EA1")
    now = replace(part, ratings=part.ratings.with_answer("circuit", "dc"))
    made.design.apply(changed("", [(part, now)]))
    recovery.write(made.design, path)
    found = recovery.pending(path)
    assert found is not None
    loaded = found.open()
    assert loaded.design.same_as(made.design)
    assert [fault.path for fault in loaded.warnings] == ["runs[0] W1 poles"]


@pytest.mark.parametrize(
    "content",
    [
        b"",
        b"\n",
        b"{}\n{}",
        b'{"file": "a", "written": "2025-01-01T00:00:00+00:00"}\n',
        b'{"file": 3, "written": "2025-01-01T00:00:00+00:00"}\n',
        b'{"file": "/a", "written": "soon"}\n',
        b'{"file": "/a\\u0000", "written": "2025-01-01T00:00:00+00:00"}\n',
        b'{"file": "/a", "written": "0001-01-01T00:00:00+23:00"}\n',
        b"[" * 100_000,
    ],
)
def test_a_damaged_journal_is_told_and_stops_no_other(
    state: Path, path: Path, content: bytes
) -> None:
    recovery.write(draft("drawn").design, path)
    next(state.iterdir()).write_bytes(content)
    other = path.with_name("b.linework")
    recovery.write(draft("other").design, other)
    with pytest.raises(StorageError, match="is damaged and cannot be read"):
        recovery.pending(path)
    assert [item.path for item in recovery.waiting()] == [other]
    recovery.discard(path)
    assert recovery.pending(path) is None


def test_a_damaged_design_in_a_journal_is_told(state: Path, path: Path) -> None:
    recovery.write(draft("drawn").design, path)
    journal = next(state.iterdir())
    journal.write_bytes(journal.read_bytes()[:-40])
    found = recovery.pending(path)
    assert found is not None
    with pytest.raises(StorageError, match="is not whole"):
        found.open()


def test_a_state_folder_that_cannot_be_made_is_told(state: Path, path: Path) -> None:
    state.parents[1].write_text("in the way", encoding="utf-8")
    with pytest.raises(StorageError, match="Save often"):
        recovery.write(draft("drawn").design, path)
    assert recovery.waiting() == []
