"""The command line as its own process: exit status, no traceback, no window system."""

from __future__ import annotations

import json
import os
import subprocess
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[2]
SOUND = ROOT / "samples" / "vaccination-trailer.linework"


def ran(*arguments: str) -> subprocess.CompletedProcess[str]:
    return subprocess.run(
        [sys.executable, "-m", "linework", *arguments],
        cwd=ROOT,
        env=os.environ | {"LC_ALL": "C.UTF-8"},
        capture_output=True,
        text=True,
        check=False,
        timeout=120,
    )


HOSTILE = {
    "empty": b"",
    "not text": bytes(range(256)),
    "half a file": b'{"format": "linework design", "version": 1, "parts": [{"id": "a"',
    "a list": b"[]",
    "another format": b'{"format": "something else", "version": 1}',
    "from the future": b'{"format": "linework design", "version": 10000}',
    "deep": b"[" * 200_000,
    "a number that is none": b'{"format": "linework design", "version": NaN}',
    "a huge number": b'{"format": "linework design", "version": ' + b"9" * 5000 + b"}",
}


@pytest.mark.parametrize("name", HOSTILE)
def test_a_hostile_file_is_status_2_with_a_sentence(name: str, tmp_path: Path) -> None:
    file = tmp_path / "hostile.linework"
    file.write_bytes(HOSTILE[name])
    result = ran("check", str(file))
    assert result.returncode == 2, result.stderr
    assert "hostile.linework" in result.stderr
    assert "Traceback" not in result.stderr
    assert result.stdout == ""


def test_a_folder_is_status_2(tmp_path: Path) -> None:
    result = ran("study", str(tmp_path))
    assert result.returncode == 2
    assert "Traceback" not in result.stderr


def test_an_output_that_cannot_be_written_is_status_2(tmp_path: Path) -> None:
    result = ran("export", str(SOUND), "-o", str(tmp_path / "no" / "such" / "set.pdf"))
    assert result.returncode == 2
    assert "Traceback" not in result.stderr
    assert result.stderr.strip()


def test_a_date_that_is_none_is_status_2(tmp_path: Path) -> None:
    out = tmp_path / "set.pdf"
    result = ran("export", str(SOUND), "-o", str(out), "--date", "the 1st of March")
    assert result.returncode == 2
    assert "2026-03-01" in result.stderr
    assert not out.exists()


def test_check_and_study_need_neither_a_window_system_nor_what_writes_files() -> None:
    code = (
        "import sys, json\n"
        "from linework.cli import main\n"
        f"status = [main([c, {str(SOUND)!r}]) for c in ('check', 'study')]\n"
        "writers = ('PySide6', 'reportlab', 'ezdxf', 'openpyxl')\n"
        "heavy = [m for m in writers if m in sys.modules]\n"
        "print(json.dumps([status, heavy]))\n"
    )
    result = subprocess.run(
        [sys.executable, "-c", code],
        cwd=ROOT,
        capture_output=True,
        text=True,
        check=True,
        timeout=120,
    )
    assert json.loads(result.stdout.splitlines()[-1]) == [[0, 0], []]


def test_export_needs_no_window_system(tmp_path: Path) -> None:
    out = tmp_path / "set.pdf"
    code = (
        "import sys\n"
        "from linework.cli import main\n"
        f"main(['export', {str(SOUND)!r}, '-o', {str(out)!r}, '--date', '2026-03-01'])\n"
        "print('PySide6' in sys.modules)\n"
    )
    result = subprocess.run(
        [sys.executable, "-c", code],
        cwd=ROOT,
        capture_output=True,
        text=True,
        check=True,
        timeout=120,
    )
    assert result.stdout.splitlines()[-1] == "False"
    assert out.read_bytes().startswith(b"%PDF-")


@pytest.mark.parametrize(
    "arguments",
    [
        ("--version",),
        ("--help",),
        ("check", "--help"),
        ("check", str(SOUND)),
        ("check", str(SOUND), "--json"),
        ("study", str(SOUND)),
        ("study", str(SOUND), "--json"),
    ],
    ids=lambda words: " ".join(Path(word).name for word in words),
)
@pytest.mark.skipif(os.name != "posix", reason="how a pipe is closed differs")
def test_a_reader_that_goes_away_ends_it_without_a_word(arguments: tuple[str, ...]) -> None:
    reading, writing = os.pipe()
    os.close(reading)  # nobody will ever read: the first byte fails
    try:
        result = subprocess.run(
            [sys.executable, "-m", "linework", *arguments],
            cwd=ROOT,
            # Without it the printer of --help notices itself, and says nothing.
            env={name: text for name, text in os.environ.items() if name != "PYTHONUNBUFFERED"},
            stdout=writing,
            stderr=subprocess.PIPE,
            text=True,
            check=False,
            timeout=120,
        )
    finally:
        os.close(writing)
    assert (result.returncode, result.stderr) == (141, "")
