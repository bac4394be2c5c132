"""The house's own rules: who may import whom, and what starts without what."""

from __future__ import annotations

import ast
import os
import shutil
import subprocess
import sys
import tomllib
from pathlib import Path

import pytest

import linework

ROOT = Path(__file__).resolve().parents[1]
MODULE_LINES, FUNCTION_LINES = 400, 45
HEAVY = ("numpy", "scipy", "pint", "networkx")
FORMATS = ("PySide6", "reportlab", "ezdxf", "openpyxl")


def settings() -> dict[str, object]:
    text = (ROOT / "pyproject.toml").read_text(encoding="utf-8")
    found: dict[str, object] = tomllib.loads(text)["tool"]["importlinter"]
    return found


def lint_imports(folder: Path) -> subprocess.CompletedProcess[str]:
    """Run the contracts of a folder's pyproject.toml on the package beside it."""
    command = [
        sys.executable,
        "-c",
        "from importlinter.cli import lint_imports_command as run; run()",
        "--no-cache",
        "--no-logo",
    ]
    environment = os.environ | {"COLUMNS": "200", "NO_COLOR": "1"}
    return subprocess.run(
        command, cwd=folder, env=environment, capture_output=True, text=True, check=False
    )


def test_imports_keep_every_contract() -> None:
    result = lint_imports(ROOT)
    assert result.returncode == 0, result.stdout + result.stderr
    assert " 0 broken." in result.stdout


def test_no_contract_has_an_exception() -> None:
    contracts = settings()["contracts"]
    assert isinstance(contracts, list)
    assert any(contract["type"] == "layers" and contract["exhaustive"] for contract in contracts)
    assert not [contract["id"] for contract in contracts if "ignore_imports" in contract]


@pytest.fixture
def small_house(tmp_path: Path) -> Path:
    """A house with our contracts, whose rooms hold no more than what the contracts name."""
    shutil.copy(ROOT / "pyproject.toml", tmp_path)
    house = tmp_path / "linework"
    rooms = (file.parent for file in (ROOT / "linework").rglob("__init__.py"))
    for room in sorted(rooms):
        copy = house / room.relative_to(ROOT / "linework")
        copy.mkdir(parents=True, exist_ok=True)
        (copy / "__init__.py").touch()
    for name, text in {
        "__init__": "",
        "__main__": "",
        "analysis": "",
        "bench/app": "",
        "sheet/compose": "",
        "sheet/fitting": "",
        "sheet/papers": "",
        "sheet/energised": "",
        "sheet/frame": "",
        "sheet/laid": "",
        "sheet/targets": "",
        "sheet/titleblock": "",
        "study/energised": "",
        "study/lockout": "",
        "study/memory": "",
        "study/once": "",
        "study/report": "",
        "study/reporting": "",
        "study/situation": "",
        "study/slack": "",
        "study/stands": "",
        "study/studies": "",
        "study/tester": "",
        "study/spoken": "",
        "study/walks": "",
        "supply/figures": "import numpy",
        "picture/qt": "import PySide6",
        "picture/png": "import PySide6",
        "handover/formats/xlsx": "import openpyxl",
        "handover/cad/layers": "import ezdxf",
        "picture/pdf": "import reportlab",
        "quantity/factors": "import pint",
        "circuit/network": "import numpy\nimport scipy",
    }.items():
        (house / f"{name}.py").write_text(text + "\n", encoding="utf-8")
    return tmp_path


def test_contracts_are_kept_by_a_small_house(small_house: Path) -> None:
    result = lint_imports(small_house)
    assert result.returncode == 0, result.stdout + result.stderr


@pytest.mark.parametrize(
    ("files", "contract"),
    [
        ({"design/a.py": "import linework.study"}, "Nobody imports upwards"),
        ({"codes/a.py": "import linework.storage"}, "Nobody imports upwards"),
        ({"new/__init__.py": ""}, "Nobody imports upwards"),
        ({"findings/a.py": "import linework.codes.na"}, "Nobody imports a family"),
        (
            {"codes/na/b.py": "", "codes/a.py": "import linework.codes.na.b"},
            "Nobody imports a family",
        ),
        (
            {"design/a.py": "from . import b", "design/b.py": "def f():\n    from . import a"},
            "No import cycles",
        ),
        ({"handover/a.py": "import PySide6.QtCore"}, "Only the bench and the Qt painters"),
        ({"picture/a.py": "import PySide6"}, "Only the bench and the Qt painters"),
        ({"sheet/signs/a.py": "import linework.picture.qt"}, "never reaches Qt"),
        ({"sheet/parts/a.py": "import linework.picture.pdf"}, "never reaches Qt"),
        ({"bench/card/a.py": "import reportlab.lib"}, "Only the drawing set"),
        ({"handover/a.py": "import openpyxl"}, "Only the form XLSX"),
        ({"handover/a.py": "import ezdxf"}, "Only the room for drawing programs"),
        (
            {"handover/a.py": "import linework.handover.formats.xlsx"},
            "The room formats of the set is met at its front door",
        ),
        ({"bench/card/a.py": "import linework.bench.frame"}, "The rooms of the bench"),
        ({"bench/card/a.py": "import linework.bench.margin"}, "The rooms of the bench"),
        ({"bench/new/__init__.py": ""}, "The rooms of the bench"),
        ({"sheet/parts/a.py": "import linework.sheet.routing"}, "The rooms of the sheet"),
        (
            {"sheet/signs/a.py": "", "sheet/compose.py": "import linework.sheet.signs.a"},
            "The room signs of the sheet is met at its front door",
        ),
        ({"bench/process/a.py": "import PySide6"}, "The analysis process never reaches Qt"),
        (
            {"bench/looks/a.py": "", "bench/card/b.py": "import linework.bench.looks.a"},
            "The room looks of the bench is met at its front door",
        ),
        ({"kinds/a.py": "def f():\n    import pint"}, "Only quantity/ uses"),
        ({"findings/a.py": "import numpy as np"}, "Only circuit/, study/"),
        ({"sheet/routing/a.py": "from scipy.sparse import csr_array"}, "Only circuit/, study/"),
    ],
    ids=str,
)
def test_a_fault_in_the_house_breaks_its_contract(
    small_house: Path, files: dict[str, str], contract: str
) -> None:
    for name, text in files.items():
        file = small_house / "linework" / name
        file.parent.mkdir(exist_ok=True)
        file.write_text(text + "\n", encoding="utf-8")
    result = lint_imports(small_house)
    assert result.returncode == 1, result.stderr
    broken = [line for line in result.stdout.splitlines() if line.endswith("BROKEN")]
    assert len(broken) == 1, result.stdout
    assert contract in broken[0]


@pytest.mark.parametrize("house", ["bench", "sheet"])
def test_every_room_has_a_front_door(house: str) -> None:
    rooms = {file.parent.name for file in (ROOT / "linework" / house).glob("*/__init__.py")}
    contracts = settings()["contracts"]
    assert isinstance(contracts, list)
    guarded = [name for contract in contracts for name in contract.get("protected_modules", ())]
    assert {name for name in guarded if name.startswith(f"linework.{house}.")} == {
        f"linework.{house}.{room}.*" for room in rooms
    }


def test_every_family_is_guarded() -> None:
    folders = {file.parent.name for file in (ROOT / "linework" / "codes").glob("*/__init__.py")}
    contracts = settings()["contracts"]
    assert isinstance(contracts, list)
    (guarded,) = (c["protected_modules"] for c in contracts if c["id"] == "families")
    assert {f"linework.codes.{name}" for name in folders} == set(guarded)


def run_and_list_heavy(code: str) -> list[str]:
    """What code prints in a fresh interpreter, and then a line of the heavy libraries it loaded."""
    tail = f"\nimport sys\nprint(*[name for name in {(*HEAVY, *FORMATS)} if name in sys.modules])"
    command = [sys.executable, "-c", code + tail]
    result = subprocess.run(command, cwd=ROOT, capture_output=True, text=True, check=False)
    assert result.returncode == 0, result.stderr
    return result.stdout.splitlines()


def test_version_starts_with_nothing_heavy() -> None:
    lines = run_and_list_heavy("from linework.__main__ import main\nmain(['--version'])")
    assert lines == [f"linework {linework.__version__}", ""]


def test_the_command_line_starts_without_qt_or_pdf_or_solver() -> None:
    (loaded,) = run_and_list_heavy("import linework.cli")
    assert set(loaded.split()).isdisjoint({*FORMATS, "scipy", "pint"})


def test_the_window_opens_without_solver_or_pdf() -> None:
    (loaded,) = run_and_list_heavy("import linework.bench.frame")
    assert set(loaded.split()).isdisjoint({"numpy", "scipy", *FORMATS} - {"PySide6"})


def too_long(path: str, text: str) -> list[str]:
    """What of a module's text is longer than one reads at a sitting."""
    found = []
    lines = len(text.splitlines())
    if lines > MODULE_LINES:
        found.append(f"{path}: {lines} lines")
    for node in ast.walk(ast.parse(text)):
        if isinstance(node, ast.FunctionDef | ast.AsyncFunctionDef):
            lines = (node.end_lineno or node.lineno) - node.lineno + 1
            if lines > FUNCTION_LINES:
                found.append(f"{path}: {node.name} has {lines} lines")
    return found


def test_modules_and_functions_stay_short() -> None:
    files = sorted((ROOT / "linework").rglob("*.py"))
    assert files
    texts = ((str(file.relative_to(ROOT)), file.read_text(encoding="utf-8")) for file in files)
    assert [told for path, text in texts for told in too_long(path, text)] == []


def test_what_is_too_long_is_told() -> None:
    function = "def f():\n" + "    x = 1\n" * (FUNCTION_LINES - 1)
    assert too_long("a.py", function) == []
    assert too_long("a.py", function + "    x = 1\n") == ["a.py: f has 46 lines"]
    assert too_long("a.py", "x = 1\n" * MODULE_LINES) == []
    assert too_long("a.py", "x = 1\n" * (MODULE_LINES + 1)) == ["a.py: 401 lines"]
