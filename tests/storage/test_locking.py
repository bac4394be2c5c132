"""Who has a file open is told to the next; a lock that was left behind stops nobody."""

from __future__ import annotations

import json
import os
import signal
import subprocess
import sys
import threading
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

import pytest

import linework
from linework.storage import Holder, Locked, StorageError, holder, lock, locking, take
from linework.storage.locking import lock_file

ROOT = Path(__file__).resolve().parents[2]
OTHER = """
import sys
from pathlib import Path
from linework.storage import lock
with lock(Path(sys.argv[1])):
    print("held", flush=True)
    sys.stdin.read()
"""


@contextmanager
def other_program(path: Path) -> Iterator[subprocess.Popen[bytes]]:
    """Another process that holds the lock until its input is closed, or it is killed."""
    program = subprocess.Popen(
        [sys.executable, "-c", OTHER, str(path)],
        cwd=ROOT,
        stdin=subprocess.PIPE,
        stdout=subprocess.PIPE,
    )
    try:
        assert program.stdout is not None
        assert program.stdout.readline() == b"held\n"
        yield program
    finally:
        program.communicate(timeout=20)


@pytest.fixture
def path(tmp_path: Path) -> Path:
    return tmp_path / "a.linework"


def test_the_second_opener_is_told_who_holds_it(path: Path) -> None:
    with other_program(path) as program:
        with pytest.raises(Locked) as caught:
            take(path)
        found = Holder(program.pid, os.uname().nodename, f"linework {linework.__version__}")
        assert caught.value.holder == found
        assert holder(path) == found
        assert str(caught.value) == (
            f"{path} is open in {found.program}, process {program.pid} on this machine. "
            "Close it there."
        )
    with lock(path):
        pass


def test_a_lock_left_behind_is_taken_over(path: Path) -> None:
    with other_program(path) as program:
        program.send_signal(signal.SIGKILL)
        program.wait()
        assert lock_file(path).exists()
        assert holder(path) is None
        with lock(path):
            assert holder(path) == Holder(
                os.getpid(), os.uname().nodename, f"linework {linework.__version__}"
            )
    assert not lock_file(path).exists()


def test_the_number_of_a_dead_process_given_to_another_stops_nobody(path: Path) -> None:
    """The process that has the number now is alive, but does not hold the lock."""
    text = {"pid": os.getppid(), "host": os.uname().nodename, "program": "linework"}
    lock_file(path).write_text(json.dumps(text), encoding="utf-8")
    assert holder(path) is None
    with lock(path):
        pass


def test_a_second_window_of_this_program_is_told_so(path: Path) -> None:
    with lock(path):
        with pytest.raises(Locked, match="is open in this program already"):
            take(path)
        assert holder(path) is not None
    assert holder(path) is None


def test_a_lock_of_another_host_counts_until_it_is_deleted(path: Path) -> None:
    """On a shared folder the system need not know whether its holder lives."""
    text = {"pid": 77, "host": "boat-house", "program": "linework 9"}
    lock_file(path).write_text(json.dumps(text), encoding="utf-8")
    with pytest.raises(Locked) as caught:
        take(path)
    assert caught.value.holder == Holder(77, "boat-house", "linework 9")
    assert "process 77 on boat-house. Close it there." in str(caught.value)
    assert f"delete {lock_file(path)}" in str(caught.value)
    assert holder(path) == Holder(77, "boat-house", "linework 9")
    assert json.loads(lock_file(path).read_bytes()) == text
    lock_file(path).unlink()
    with lock(path):
        pass


@pytest.mark.parametrize(
    "content", [b"", b"\xff\x00", b"[1]", b'{"pid": "x", "host": 3}', b"[" * 9000, b"9" * 5000]
)
def test_a_lock_file_that_says_nothing_is_no_lock(path: Path, content: bytes) -> None:
    lock_file(path).write_bytes(content)
    assert holder(path) is None
    with lock(path):
        assert holder(path) is not None


def test_a_link_and_its_file_have_one_lock(path: Path, tmp_path: Path) -> None:
    path.touch()
    link = tmp_path / "link.linework"
    link.symlink_to(path)
    with lock(link), pytest.raises(Locked):
        take(path)


def test_release_twice_does_no_harm(path: Path) -> None:
    first = take(path)
    first.release()
    second = take(path)
    first.release()
    assert holder(path) is not None
    second.release()


def test_a_lock_given_back_while_it_is_asked_for_is_laid_anew(
    path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Its file lost its name between opening and locking: who locks that locks nothing."""
    first = take(path)
    real = locking._open

    def opened(beside: Path, asked: Path) -> int:
        handle = real(beside, asked)
        first.release()
        return handle

    monkeypatch.setattr(locking, "_open", opened)
    with lock(path):
        assert holder(path) is not None
        with pytest.raises(Locked):
            take(path)


def test_who_lost_his_lock_file_does_not_take_away_another_ones(path: Path) -> None:
    first = take(path)
    lock_file(path).unlink()
    second = take(path)
    first.release()
    assert holder(path) is not None
    second.release()


def test_where_no_lock_can_be_laid_the_reason_is_told(tmp_path: Path) -> None:
    with pytest.raises(StorageError, match="No such file or directory") as caught:
        take(tmp_path / "no folder" / "a.linework")
    assert not isinstance(caught.value, Locked)
    assert "Work on a copy in another folder." in str(caught.value)
    assert holder(tmp_path / "no folder" / "a.linework") is None


def test_a_lock_file_that_is_a_link_is_not_followed(path: Path, tmp_path: Path) -> None:
    precious = tmp_path / "precious"
    precious.write_text("keep", encoding="utf-8")
    lock_file(path).symlink_to(precious)
    with pytest.raises(StorageError):
        take(path)
    assert precious.read_text(encoding="utf-8") == "keep"


def test_of_many_at_once_one_has_it(path: Path) -> None:
    """Taken, asked about and given back by many threads: never held twice."""
    inside, most, taken = [0], [0], [0]
    guard = threading.Lock()

    def work() -> None:
        for _ in range(40):
            holder(path)
            try:
                held = take(path)
            except Locked:
                continue
            with guard:
                inside[0] += 1
                taken[0] += 1
                most[0] = max(most[0], inside[0])
            with guard:
                inside[0] -= 1
            held.release()

    threads = [threading.Thread(target=work) for _ in range(6)]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    assert most == [1]
    assert taken[0] > 20
    assert not lock_file(path).exists()
