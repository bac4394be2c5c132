"""What a desktop and a builder read: entry, file type, wheel, and the scripts' own syntax."""

from __future__ import annotations

import configparser
import shutil
import subprocess
import sys
import tomllib
import zipfile
from pathlib import Path
from xml.etree import ElementTree

import pytest

ROOT = Path(__file__).resolve().parents[1]
DESKTOP = ROOT / "packaging" / "desktop" / "linework.desktop"
MIME = "{http://www.freedesktop.org/standards/shared-mime-info}"
SCRIPTS = (
    ROOT / "packaging" / "prepare.sh",
    ROOT / "packaging" / "start",
    ROOT / "packaging" / "test",
    ROOT / ".ci" / "run",
)


def desktop_entry() -> configparser.SectionProxy:
    parser = configparser.ConfigParser(interpolation=None)
    parser.read(DESKTOP, encoding="utf-8")
    return parser["Desktop Entry"]


def mime_type() -> ElementTree.Element:
    found = ElementTree.parse(DESKTOP.with_name("linework-mime.xml")).find(f"{MIME}mime-type")
    assert found is not None
    return found


def test_the_desktop_starts_the_command_that_is_installed() -> None:
    project = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))["project"]
    assert desktop_entry()["Exec"].split() == [*project["scripts"], "%F"]


def test_the_desktop_opens_the_file_type_that_is_declared() -> None:
    assert desktop_entry()["MimeType"] == mime_type().attrib["type"] + ";"
    glob = mime_type().find(f"{MIME}glob")
    assert glob is not None
    assert glob.attrib["pattern"] == "*.linework"


def begins_like(head: bytes, match: ElementTree.Element) -> bool:
    """Whether the bytes fit a rule for first bytes, as the shared MIME-info specification reads it:
    the value begins at an offset within the range, and one of the inner rules fits too."""
    first, _, last = match.attrib["offset"].partition(":")
    value = match.attrib["value"].encode()
    here = any(
        head[offset:].startswith(value) for offset in range(int(first), int(last or first) + 1)
    )
    inner = list(match)
    return here and (not inner or any(begins_like(head, rule) for rule in inner))


def test_a_saved_design_is_known_by_its_first_bytes() -> None:
    rule = mime_type().find(f"{MIME}magic/{MIME}match")
    assert rule is not None
    samples = sorted((ROOT / "samples").glob("*.linework"))
    assert samples
    for sample in samples:
        assert begins_like(sample.read_bytes(), rule), sample
    assert not begins_like(b'{\n"format": 1,\n"pages": {', rule)
    assert not begins_like(b'{"settings": {}}', rule)


@pytest.mark.skipif(not shutil.which("desktop-file-validate"), reason="needs desktop-file-validate")
def test_the_desktop_entry_is_valid() -> None:
    result = subprocess.run(
        ["desktop-file-validate", DESKTOP], capture_output=True, text=True, check=False
    )
    assert (result.returncode, result.stdout) == (0, "")


@pytest.mark.parametrize("script", SCRIPTS, ids=lambda script: script.name)
def test_scripts_are_sound_bash(script: Path) -> None:
    result = subprocess.run(["bash", "-n", script], capture_output=True, text=True, check=False)
    assert result.stderr == ""
    assert script.suffix == ".sh" or script.stat().st_mode & 0o111


def run_prepare(code: str, path: Path) -> subprocess.CompletedProcess[str]:
    """Source the shared steps and run some of them with only ``path`` to find commands in."""
    bash = shutil.which("bash")
    assert bash is not None
    return subprocess.run(
        [bash, "-c", f'set -eu; . "{SCRIPTS[0]}"; {code}'],
        env={"PATH": str(path)},
        capture_output=True,
        text=True,
        check=False,
    )


@pytest.fixture
def commands(tmp_path: Path) -> Path:
    """A folder of commands: the plain tools, and dpkg-query that knows two packages."""
    for name in ("sed", "tr", "grep", "dirname"):
        found = shutil.which(name)
        assert found is not None
        (tmp_path / name).symlink_to(found)
    add_command(
        tmp_path,
        "dpkg-query",
        "printf '%s\\n' 'installed liba ' 'installed libb0t64 libb0 (= 2.1), libz' "
        "'config-files libc '",
    )
    return tmp_path


def add_command(folder: Path, name: str, code: str) -> None:
    file = folder / name
    file.write_text(f"#!{shutil.which('bash')}\n{code}\n", encoding="utf-8")
    file.chmod(0o755)


def test_only_missing_packages_are_asked_for(commands: Path) -> None:
    result = run_prepare("missing_packages liba libb0 libz libc libd", commands)
    assert result.stdout.split() == ["libc", "libd"], result.stderr


def test_nothing_missing_installs_nothing(commands: Path) -> None:
    add_command(commands, "apt-get", "echo called >&2; exit 9")
    result = run_prepare("need_packages liba libz", commands)
    assert (result.returncode, result.stderr) == (0, "")


def test_packages_are_installed_after_one_update(commands: Path) -> None:
    add_command(commands, "id", "echo 0")
    add_command(commands, "env", 'shift; "$@"')
    add_command(commands, "apt-get", 'echo "$@"')
    result = run_prepare("need_packages liba libd", commands)
    shown = (result.stdout + result.stderr).splitlines()
    assert sorted(shown) == [
        "Installing system packages: libd",
        "install -y -qq --no-install-recommends libd",
        "update -qq",
    ]


def test_without_the_right_to_install_it_says_what_to_install(commands: Path) -> None:
    add_command(commands, "id", "echo 1000")
    add_command(commands, "apt-get", "echo called >&2; exit 9")
    result = run_prepare("need_packages liba libd", commands)
    assert result.returncode == 0
    assert "sudo apt-get install --no-install-recommends libd" in result.stderr
    assert "called" not in result.stderr


def test_an_installed_copy_carries_its_resources(tmp_path: Path) -> None:
    """Builds the wheel from a copy of the sources, unpacks it, and reads a resource there."""
    pytest.importorskip("hatchling")
    source, site = tmp_path / "source", tmp_path / "site"
    for name in ("linework", "resources", "samples"):
        shutil.copytree(ROOT / name, source / name, ignore=shutil.ignore_patterns("__pycache__"))
    for name in ("pyproject.toml", "LICENSE", "README.md"):
        shutil.copy(ROOT / name, source)
    build = [sys.executable, "-m", "hatchling", "build", "-t", "wheel", "-d", str(tmp_path)]
    subprocess.run(build, cwd=source, capture_output=True, check=True)
    (wheel,) = tmp_path.glob("linework-*.whl")
    zipfile.ZipFile(wheel).extractall(site)
    code = "from linework import data; print(data.path('words/glossary.csv'))"
    result = subprocess.run(
        [sys.executable, "-P", "-c", code],
        cwd=tmp_path,
        env={"PYTHONPATH": str(site)},
        capture_output=True,
        text=True,
        check=True,
    )
    assert Path(result.stdout.strip()) == site / "linework" / "_resources" / "words/glossary.csv"
    # The start card offers the samples from there.
    known = {path.name for path in (ROOT / "samples").glob("*.linework")}
    packed = {path.name for path in (site / "linework/_resources/samples").glob("*.linework")}
    assert packed == known
    assert (site / "linework" / "py.typed").exists()
