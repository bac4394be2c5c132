"""A save leaves the old file or the new one whole, whatever happens."""

from __future__ import annotations

import errno
import os
import signal
import stat
import subprocess
import sys
import time
from pathlib import Path
from typing import Any

import pytest

from linework.design import Draft
from linework.storage import StorageError, backup_of, dumps, load, loads, save, write_bytes
from linework.storage.files import write_several

ROOT = Path(__file__).resolve().parents[2]


def draft(job: str, parts: int = 1) -> Draft:
    made = Draft(job=job)
    for number in range(parts):
        made.part("load", f"EA{number + 1}", power="100 W")
    return made


@pytest.fixture
def path(tmp_path: Path) -> Path:
    return tmp_path / "pump house.linework"


def names(folder: Path) -> set[str]:
    return {item.name for item in folder.iterdir()}


def test_the_first_save_makes_one_file_as_others_are_made(path: Path) -> None:
    save(draft("one").design, path)
    assert load(path).settings.job == "one"
    assert names(path.parent) == {path.name}
    plain = path.parent / "plain"
    plain.touch()
    assert path.stat().st_mode == plain.stat().st_mode


def test_the_version_before_is_kept(path: Path) -> None:
    for job in ("one", "two"):
        save(draft(job).design, path)
    second = path.stat()
    save(draft("three").design, path)
    assert load(path).settings.job == "three"
    assert load(backup_of(path)).settings.job == "two"
    assert backup_of(path).stat().st_ino == second.st_ino  # the very file, not a copy
    assert backup_of(path).stat().st_mtime_ns == second.st_mtime_ns
    assert names(path.parent) == {path.name, path.name + ".bak"}


def test_without_hard_links_the_version_before_is_a_copy(
    path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def no_links(*_: object, **__: object) -> None:
        raise PermissionError(errno.EPERM, "no links here")

    monkeypatch.setattr(os, "link", no_links)
    for job in ("one", "two"):
        save(draft(job).design, path)
    assert load(backup_of(path)).settings.job == "one"
    assert names(path.parent) == {path.name, path.name + ".bak"}


def test_a_save_after_one_that_was_cut_off_keeps_the_version_before(path: Path) -> None:
    """Cut off between its two steps, a save leaves the .bak as a second name of the file."""
    save(draft("one").design, path)
    os.link(path, backup_of(path))
    save(draft("two").design, path)
    assert load(backup_of(path)).settings.job == "one"
    assert load(path).settings.job == "two"
    assert names(path.parent) == {path.name, path.name + ".bak"}


@pytest.mark.parametrize("mode", [0o600, 0o640, 0o664])
def test_mode_is_kept(path: Path, mode: int) -> None:
    save(draft("one").design, path)
    path.chmod(mode)
    save(draft("two").design, path)
    assert stat.S_IMODE(path.stat().st_mode) == mode


def test_nobody_else_may_read_a_private_file_while_it_is_written(
    path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    save(draft("one").design, path)
    path.chmod(0o600)
    seen: list[int] = []
    real = os.write

    def write(handle: int, data: Any) -> int:
        seen.append(stat.S_IMODE(os.fstat(handle).st_mode))
        return real(handle, data)

    monkeypatch.setattr(os, "write", write)
    save(draft("two").design, path)
    assert seen
    assert not any(mode & 0o077 for mode in seen)


@pytest.mark.skipif(os.geteuid() != 0, reason="only root can give files away")
def test_owner_and_group_are_kept(path: Path) -> None:
    save(draft("one").design, path)
    os.chown(path, 1234, 2345)
    save(draft("two").design, path)
    assert (path.stat().st_uid, path.stat().st_gid) == (1234, 2345)


def test_a_link_stays_a_link(path: Path, tmp_path: Path) -> None:
    real = tmp_path / "disk" / "real.linework"
    real.parent.mkdir()
    save(draft("one").design, real)
    path.symlink_to(Path("disk") / "real.linework")
    save(draft("two").design, path)
    assert path.is_symlink()
    assert load(real).settings.job == "two"
    assert backup_of(path) == real.with_name("real.linework.bak")
    assert load(backup_of(path)).settings.job == "one"
    assert names(tmp_path) == {path.name, "disk"}


def test_a_link_to_nothing_yet_is_followed(path: Path, tmp_path: Path) -> None:
    path.symlink_to(tmp_path / "later.linework")
    save(draft("one").design, path)
    assert path.is_symlink()
    assert load(tmp_path / "later.linework").settings.job == "one"


@pytest.mark.parametrize("step", ["open", "write", "fsync", "fchmod", "link", "replace"])
@pytest.mark.parametrize(
    ("number", "words"),
    [
        (errno.ENOSPC, "the disk is full; make room"),
        (errno.EDQUOT, "your share of the disk is used up"),
        (errno.EROFS, "nothing can be written there"),
        (errno.EACCES, "you may not; ask for the right"),
        (errno.EIO, "the disk reports a fault"),
        (errno.EBUSY, "Device or resource busy"),
    ],
)
def test_a_save_that_fails_leaves_the_old_file(
    path: Path, monkeypatch: pytest.MonkeyPatch, step: str, number: int, words: str
) -> None:
    save(draft("zero").design, path)
    save(draft("one").design, path)
    before = path.read_bytes()

    def fail(*_: object, **__: object) -> None:
        raise OSError(number, os.strerror(number))

    if step == "replace":
        monkeypatch.setattr(Path, "replace", fail)
    else:
        monkeypatch.setattr(os, step, fail)
    if step == "link":  # a copy is made then, which fails as well
        monkeypatch.setattr("shutil.copy2", fail)
    with pytest.raises(StorageError) as caught:
        save(draft("two").design, path)
    monkeypatch.undo()
    assert str(caught.value).startswith(f"{path} was not saved: {words}")
    assert path.read_bytes() == before
    assert load(backup_of(path)).settings.job == "zero"
    assert names(path.parent) == {path.name, path.name + ".bak"}


def test_a_disk_that_fills_while_writing_leaves_the_old_file(
    path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    save(draft("one").design, path)
    before = path.read_bytes()
    real, left = os.write, [100]

    def write(handle: int, data: Any) -> int:
        if not left[0]:
            raise OSError(errno.ENOSPC, os.strerror(errno.ENOSPC))
        done = real(handle, bytes(data)[: left[0]])
        left[0] -= done
        return done

    monkeypatch.setattr(os, "write", write)
    with pytest.raises(StorageError, match="the disk is full"):
        save(draft("two").design, path)
    assert left == [0]
    assert path.read_bytes() == before
    assert names(path.parent) == {path.name}


def test_a_write_may_take_less_than_it_is_given(
    path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    real = os.write
    monkeypatch.setattr(os, "write", lambda handle, data: real(handle, bytes(data)[:7]))
    save(draft("one").design, path)
    assert path.read_bytes() == dumps(draft("one").design)


def test_a_folder_that_is_not_confirmed_is_told_apart(
    path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    real = os.fsync

    def fsync(handle: int) -> None:
        if stat.S_ISDIR(os.fstat(handle).st_mode):
            raise OSError(errno.EIO, os.strerror(errno.EIO))
        real(handle)

    monkeypatch.setattr(os, "fsync", fsync)
    with pytest.raises(StorageError, match="is in place, but the disk did not confirm it"):
        save(draft("one").design, path)
    assert load(path).settings.job == "one"


def test_file_and_folder_are_forced_onto_the_disk(
    path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    forced: list[bool] = []
    monkeypatch.setattr(
        os, "fsync", lambda handle: forced.append(stat.S_ISDIR(os.fstat(handle).st_mode))
    )
    save(draft("one").design, path)
    assert forced == [False, True]


def test_where_nothing_can_be_saved_the_reason_is_told(tmp_path: Path) -> None:
    (tmp_path / "file").touch()
    os.mkfifo(tmp_path / "pipe")
    (tmp_path / "loop").symlink_to(tmp_path / "loop")
    for path, words in (
        (tmp_path / "no folder" / "a.linework", "there is no such folder or file"),
        (tmp_path / "file" / "a.linework", "a part of the path is not a folder"),
        (tmp_path, "this is a folder; add a name"),
        (tmp_path / "pipe", "this is not a plain file"),
        (tmp_path / "loop", "its links lead in a circle"),
        (tmp_path / ("x" * 300), "the name is too long"),
        (tmp_path / "a\0b", "sign that no file name can have"),
    ):
        with pytest.raises(StorageError, match=words) as caught:
            save(draft("one").design, path)
        assert "What was there before is as it was." in str(caught.value)
    assert names(tmp_path) == {"file", "pipe", "loop"}


def test_a_file_made_read_only_is_not_replaced(path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    save(draft("one").design, path)
    path.chmod(0o444)
    # Root may write everything; asked as an ordinary user.
    monkeypatch.setattr(os, "access", lambda file, _: bool(Path(file).stat().st_mode & 0o200))
    with pytest.raises(StorageError, match="you may not"):
        save(draft("two").design, path)
    assert load(path).settings.job == "one"


def test_a_design_too_large_to_be_opened_is_not_saved(path: Path) -> None:
    made = Draft(job="x" * (33 * 2**20))
    with pytest.raises(StorageError, match="larger than 32 MB"):
        save(made.design, path)
    assert names(path.parent) == set()


def test_what_a_dead_program_left_behind_is_taken_away(path: Path) -> None:
    old, new = path.with_name(".linework-1.part"), path.with_name(".linework-2.part")
    old.touch()
    new.touch()
    os.utime(old, (time.time() - 7200, time.time() - 7200))
    save(draft("one").design, path)
    assert names(path.parent) == {path.name, new.name}


def test_other_bytes_are_written_without_a_version_before(path: Path) -> None:
    for data in (b"one", b"two"):
        write_bytes(data, path, keep=False)
    assert path.read_bytes() == b"two"
    assert names(path.parent) == {path.name}


def test_of_several_files_none_is_replaced_unless_all_can_be(path: Path) -> None:
    other, folder = path.with_name("other"), path.with_name("folder")
    path.write_bytes(b"before")
    folder.mkdir()
    with pytest.raises(StorageError, match="folder was not saved: this is a folder"):
        write_several({path: b"one", other: b"two", folder: b"three"})
    assert path.read_bytes() == b"before"
    assert names(path.parent) == {path.name, "folder"}
    write_several({path: b"one", other: b"two"})
    assert (path.read_bytes(), other.read_bytes()) == (b"one", b"two")
    assert names(path.parent) == {path.name, "other", "folder"}


KILLED = """
import sys
from pathlib import Path
from tests.storage.test_save import draft
from linework.storage import save
made = [draft(f"version {n}", 60 * n).design for n in (1, 2, 3)]
while True:
    for design in made:
        save(design, Path(sys.argv[1]))
        print(".", end="", flush=True)
"""


def test_killed_while_saving_the_file_is_whole(path: Path) -> None:
    """A program that does nothing but save is killed at many moments."""
    whole = {dumps(draft(f"version {n}", 60 * n).design) for n in (1, 2, 3)}
    seen: set[bytes] = set()
    for round_number in range(8):
        program = subprocess.Popen(
            [sys.executable, "-c", KILLED, str(path)], cwd=ROOT, stdout=subprocess.PIPE
        )
        assert program.stdout is not None
        with program.stdout as output:
            # However busy the machine is: after so many saves, somewhere in the next.
            assert output.read(1 + round_number) == b"." * (1 + round_number)
            time.sleep(0.0013 * round_number)
            program.send_signal(signal.SIGKILL)
            assert program.wait() == -signal.SIGKILL
        for file in (path, backup_of(path)):
            if file.exists():
                assert file.read_bytes() in whole
                seen.add(file.read_bytes())
    assert path.exists()
    assert loads(path.read_bytes(), "a").settings.job.startswith("version")
    assert len(seen) > 1
