"""On a system that lacks what ours has: saving, locking, recovery and the window, in a process."""

from __future__ import annotations

import ast
import os
import signal
import subprocess
import sys
from pathlib import Path

import pytest

import linework
from linework.storage import backup_of, load
from linework.storage.locking import lock_file
from tests.storage.only_ours import MODULES, OF_OS, OF_SIGNAL

ROOT = Path(__file__).resolve().parents[2]


def started(code: str, *arguments: Path, state: Path) -> subprocess.Popen[str]:
    """A process of another system, and so is whatever it starts."""
    first = state / "first"
    first.mkdir(exist_ok=True)
    (first / "sitecustomize.py").write_text("import tests.storage.elsewhere\n", encoding="utf-8")
    environment = os.environ | {
        "PYTHONPATH": f"{first}{os.pathsep}{ROOT}",
        "XDG_STATE_HOME": str(state),
        "XDG_CONFIG_HOME": str(state),
        "QT_QPA_PLATFORM": "offscreen",
    }
    return subprocess.Popen(
        [sys.executable, "-c", code, *map(str, arguments)],
        cwd=ROOT,
        env=environment,
        stdin=subprocess.PIPE,
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        text=True,
    )


def ended(code: str, *arguments: Path, state: Path) -> str:
    program = started(code, *arguments, state=state)
    out, fault = program.communicate(timeout=100)
    assert program.returncode == 0, fault
    return out


@pytest.fixture
def path(tmp_path: Path) -> Path:
    return tmp_path / "a.linework"


SAVE = """
import sys
from pathlib import Path
from linework.design import Draft
from linework.storage import save
for job in ("one", "two", "three"):
    draft = Draft(job=job)
    draft.part("generator", "G1")
    save(draft.design, Path(sys.argv[1]))
"""


def test_nothing_is_there_that_only_ours_has(tmp_path: Path) -> None:
    code = """
import os, signal, sys
for name in ("fcntl", "pwd"):
    try:
        __import__(name)
    except ImportError:
        continue
    print("still there", name)
print([n for n in ("link", "fchmod", "geteuid", "O_NOFOLLOW", "O_DIRECTORY") if hasattr(os, n)])
print(hasattr(signal, "SIGKILL"))
"""
    assert ended(code, state=tmp_path) == "[]\nFalse\n"


def test_a_file_is_saved_and_the_version_before_is_kept(path: Path, tmp_path: Path) -> None:
    ended(SAVE, path, state=tmp_path)
    assert load(path).settings.job == "three"
    assert load(backup_of(path)).settings.job == "two"
    assert sorted(file.name for file in tmp_path.glob("*.*")) == [path.name, backup_of(path).name]


HOLD = """
import sys
from pathlib import Path
from linework.storage import lock
with lock(Path(sys.argv[1])):
    print("held", flush=True)
    sys.stdin.read()
"""

ASK = """
import sys
from pathlib import Path
from linework.storage import Locked, holder, take
path = Path(sys.argv[1])
try:
    held = take(path)
except Locked as fault:
    print("refused", fault.holder.pid, fault.holder == holder(path))
else:
    second = "refused"
    try:
        take(path)
        second = "held twice"
    except Locked as fault:
        pass
    print("held", second)
    held.release()
    print(holder(path))
"""


def test_the_second_opener_is_refused_until_the_first_gives_back(
    path: Path, tmp_path: Path
) -> None:
    first = started(HOLD, path, state=tmp_path)
    assert first.stdout is not None
    assert first.stdout.readline() == "held\n"
    assert ended(ASK, path, state=tmp_path) == f"refused {first.pid} True\n"
    first.communicate(timeout=20)
    assert first.returncode == 0
    assert not lock_file(path).exists()
    assert ended(ASK, path, state=tmp_path) == "held refused\nNone\n"
    assert not lock_file(path).exists()


KEPT = """
import sys
from pathlib import Path
from linework.design import Draft
from linework.storage import lock, recovery
path = Path(sys.argv[1])
with lock(path):
    draft = Draft(job="not saved yet")
    draft.part("generator", "G1")
    recovery.write(draft.design, path)
    print("kept", flush=True)
    sys.stdin.read()
"""

RECOVERED = """
import sys
from pathlib import Path
from linework.storage import lock, recovery, save
path = Path(sys.argv[1])
print([item.path.name for item in recovery.waiting()])
with lock(path):
    found = recovery.pending(path).open().design
    save(found, path)
    recovery.discard(path)
    print(found.settings.job, recovery.pending(path))
"""


def test_what_a_killed_program_had_not_saved_is_recovered(path: Path, tmp_path: Path) -> None:
    program = started(KEPT, path, state=tmp_path)
    assert program.stdout is not None
    assert program.stdout.readline() == "kept\n"
    program.send_signal(signal.SIGKILL)
    program.communicate(timeout=20)
    told = ended(RECOVERED, path, state=tmp_path)
    assert told == f"['{path.name}']\nnot saved yet None\n"
    assert load(path).settings.job == "not saved yet"


CHECK = """
import sys
from linework.__main__ import main
sys.exit(main(["check", sys.argv[1]]))
"""


def test_a_design_is_checked(tmp_path: Path) -> None:
    sample = ROOT / "samples" / "weather-station.linework"
    assert "licensed electrician" in ended(CHECK, sample, state=tmp_path)


WINDOW = """
import sys
from linework.__main__ import main
sys.exit(main([sys.argv[1], "--screenshot", sys.argv[2]]))
"""


def test_the_window_opens_a_design_and_shows_the_verdict(tmp_path: Path) -> None:
    sample = ROOT / "samples" / "weather-station.linework"
    copy, shot = tmp_path / sample.name, tmp_path / "window.png"
    copy.write_bytes(sample.read_bytes())
    ended(WINDOW, copy, shot, state=tmp_path)
    assert shot.read_bytes().startswith(b"\x89PNG")
    assert not lock_file(copy).exists()


def test_one_module_names_what_only_some_systems_have() -> None:
    package = Path(linework.__file__).parent
    bound = {*MODULES, "msvcrt", "winreg", "_winapi"}, {"os": OF_OS, "signal": OF_SIGNAL}
    found: set[str] = set()
    for file in package.rglob("*.py"):
        for node in ast.walk(ast.parse(file.read_text(encoding="utf-8"))):
            if _is_bound(node, *bound):
                found.add(file.relative_to(package).as_posix())
    assert found == {"storage/system.py"}


def _is_bound(node: ast.AST, modules: set[str], attributes: dict[str, tuple[str, ...]]) -> bool:
    match node:
        case ast.Import(names=names):
            return any(name.name in modules for name in names)
        case ast.ImportFrom(module=module, names=names):
            of = attributes.get(module or "", ())
            return module in modules or any(name.name in of for name in names)
        case ast.Attribute(value=ast.Name(id=module), attr=name):
            return name in attributes.get(module, ())
    return False
