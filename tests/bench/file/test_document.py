"""The open design: its file, its lock, and what is kept aside; nothing that was drawn is lost."""

from __future__ import annotations

from pathlib import Path

import pytest

from linework.bench.file.document import Document
from linework.design import Design, Settings
from linework.design.edits import rate
from linework.storage import FileFaults, Locked, StorageError, backup_of, dumps, load, recovery
from tests.bench.benches import small


@pytest.fixture
def file(tmp_path: Path) -> Path:
    path = tmp_path / "pump.linework"
    path.write_bytes(dumps(small().design))
    return path


def change(document: Document, watts: str = "60 W") -> None:
    document.history.do(rate(document.design, "EL1", {"power": watts}))


def test_a_new_sheet_is_saved_until_something_is_drawn() -> None:
    document = Document.new(Design(Settings(place="boat")))
    assert document.saved
    assert document.state() == "a new sheet"
    assert document.design.settings.place == "boat"
    document.close()


def test_saving_writes_the_file_and_keeps_the_version_before(file: Path) -> None:
    document = Document.open(file)
    change(document)
    assert document.state() == "changed since it was saved"
    before = file.read_bytes()
    document.save()
    assert document.saved
    assert load(file).same_as(document.design)
    assert backup_of(file).read_bytes() == before
    document.close()


def test_undo_back_to_the_saved_state_is_saved(file: Path) -> None:
    document = Document.open(file)
    change(document)
    assert not document.saved
    document.history.undo()
    assert document.saved
    document.close()


def test_a_file_is_held_while_it_is_open(file: Path) -> None:
    document = Document.open(file)
    with pytest.raises(Locked):
        Document.open(file)
    copy = Document.copy_of(file)
    assert copy.path is None
    assert not copy.saved
    copy.close()
    document.close()
    Document.open(file).close()


def test_save_as_moves_on_to_the_new_file(file: Path, tmp_path: Path) -> None:
    document = Document.open(file)
    change(document)
    other = tmp_path / "other.linework"
    document.save_as(other)
    assert document.path == other
    assert load(other).same_as(document.design)
    assert load(file).same_as(small().design)
    Document.open(file).close()
    with pytest.raises(Locked):
        Document.open(other)
    document.close()


def test_a_save_that_fails_changes_nothing(file: Path, tmp_path: Path) -> None:
    document = Document.open(file)
    change(document)
    with pytest.raises(StorageError):
        document.save_as(tmp_path / "no such folder" / "x.linework")
    assert document.path == file
    assert not document.saved
    with pytest.raises(Locked):
        Document.open(file)
    document.close()


def test_save_as_onto_a_file_that_is_open_elsewhere_is_refused(file: Path, tmp_path: Path) -> None:
    other = tmp_path / "other.linework"
    other.write_bytes(dumps(small().design))
    held = Document.open(other)
    document = Document.open(file)
    change(document)
    before = other.read_bytes()
    with pytest.raises(Locked):
        document.save_as(other)
    assert other.read_bytes() == before
    held.close()
    document.close()


def test_what_is_not_saved_is_found_after_a_crash(file: Path) -> None:
    document = Document.open(file)
    change(document, "77 W")
    document.keep_aside()
    document.close(forget=False)  # as when the process died
    (kept,) = recovery.waiting()
    assert kept.path == file
    found = Document.recovered(kept)
    assert found.design.part("EL1").ratings["power"] == "77 W"
    assert not found.saved
    found.save()
    assert load(file).part("EL1").ratings["power"] == "77 W"
    assert recovery.waiting() == []
    found.close()


def test_a_sheet_without_a_name_is_found_after_a_crash() -> None:
    document = Document.new()
    document.history.do(_part(document))
    document.keep_aside()
    document.close(forget=False)
    (kept,) = recovery.waiting()
    assert kept.is_untitled
    found = Document.recovered(kept)
    assert found.path is None
    assert [p.designation for p in found.design.parts] == ["G1"]
    found.close()
    assert recovery.waiting() == []


def _part(document: Document):  # type: ignore[no-untyped-def]
    from linework.design.edits import add_part

    return add_part(document.design, "generator")


def test_what_is_saved_is_not_kept_aside(file: Path) -> None:
    document = Document.open(file)
    document.keep_aside()
    document.close(forget=False)
    assert recovery.waiting() == []


def test_a_faulty_file_is_left_alone_and_unlocked(tmp_path: Path) -> None:
    path = tmp_path / "bad.linework"
    path.write_text('{"format": 1, "parts": [{"id": "a"}]}')
    before = path.read_bytes()
    with pytest.raises(FileFaults):
        Document.open(path)
    assert path.read_bytes() == before
    assert [item.name for item in tmp_path.iterdir() if item.name != "home"] == ["bad.linework"]
