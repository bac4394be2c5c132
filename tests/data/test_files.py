"""Program files: found where they lie, and refused with a plain sentence where they do not."""

from __future__ import annotations

from pathlib import Path

import pytest

from linework import data
from linework.data import files


@pytest.fixture
def resources(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """An empty resources folder in the place of the real one."""
    root = tmp_path / "resources"
    (root / "tables").mkdir(parents=True)
    monkeypatch.setattr(files, "_root", lambda: root)
    return root


def write(root: Path, name: str, text: str | bytes) -> None:
    file = root / name
    file.write_bytes(text if isinstance(text, bytes) else text.encode())


def test_our_own_resources_are_found() -> None:
    assert data.path("words/glossary.csv").is_file()


def test_installed_copy_comes_first(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    places = (tmp_path / "_resources", tmp_path / "resources")
    monkeypatch.setattr(files, "_PLACES", places)
    places[1].mkdir()
    assert files._root.__wrapped__() == places[1]
    places[0].mkdir()
    assert files._root.__wrapped__() == places[0]


def test_no_resources_at_all_names_both_places(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(files, "_PLACES", (tmp_path / "a", tmp_path / "b"))
    with pytest.raises(data.ResourceError) as caught:
        files._root.__wrapped__()
    assert str(tmp_path / "a") in str(caught.value)
    assert str(tmp_path / "b") in str(caught.value)
    assert "Install Linework again" in str(caught.value)


def test_path_of_a_file(resources: Path) -> None:
    write(resources, "tables/wire.csv", "a\n")
    assert data.exists("tables/wire.csv")
    assert not data.exists("tables/wires.csv")
    assert data.path("tables/wire.csv") == resources / "tables" / "wire.csv"


def test_missing_file_says_what_where_and_what_to_do(resources: Path) -> None:
    with pytest.raises(data.ResourceError, match=r"tables/wire\.csv is missing") as caught:
        data.path("tables/wire.csv")
    assert str(resources / "tables") in str(caught.value)
    assert "Install Linework again" in str(caught.value)


def test_missing_file_guesses_the_nearest_name(resources: Path) -> None:
    write(resources, "tables/wire.csv", "a\n")
    with pytest.raises(data.ResourceError, match=r"Did you mean wire\.csv\?"):
        data.path("tables/wires.csv")


@pytest.mark.parametrize("name", ["../secret", "/etc/hostname", "tables/../../x", "tables\\wire"])
def test_a_name_cannot_leave_the_folder(resources: Path, name: str) -> None:
    with pytest.raises(data.ResourceError, match="is no name of a program file"):
        data.path(name)


def test_a_folder_is_not_a_file(resources: Path) -> None:
    with pytest.raises(data.ResourceError, match="tables is missing"):
        data.path("tables")


def test_names_are_sorted_and_ready_for_path(resources: Path) -> None:
    for name in ("b.csv", "a.csv", ".hidden"):
        write(resources, f"tables/{name}", "x\n")
    (resources / "tables" / "deeper").mkdir()
    assert data.names("tables") == ["tables/a.csv", "tables/b.csv"]
    assert data.read_text(data.names("tables")[0]) == "x\n"


def test_missing_folder(resources: Path) -> None:
    with pytest.raises(data.ResourceError, match="The program folder symbols is missing"):
        data.names("symbols")


def test_read_text_drops_the_byte_order_mark(resources: Path) -> None:
    write(resources, "note.txt", b"\xef\xbb\xbf20 \xce\xa9\n")
    assert data.read_text("note.txt") == "20 Ω\n"


def test_read_text_refuses_another_encoding(resources: Path) -> None:
    write(resources, "note.txt", b"20 \xb5F")
    with pytest.raises(data.ResourceError, match="not UTF-8 text: byte 3"):
        data.read_text("note.txt")


def test_read_csv(resources: Path) -> None:
    write(resources, "tables/wire.csv", 'size,note\n14 AWG,"solid, bare"\n\n12 AWG,\n')
    assert data.read_csv("tables/wire.csv") == [
        {"size": "14 AWG", "note": "solid, bare"},
        {"size": "12 AWG", "note": ""},
    ]


def test_read_csv_ends_a_row_only_at_a_line_end(resources: Path) -> None:
    write(resources, "tables/wire.csv", 'a,b\r\n1,"two\nlines"\r\n3,odd\u2028sign\r\n')
    assert data.read_csv("tables/wire.csv") == [
        {"a": "1", "b": "two\nlines"},
        {"a": "3", "b": "odd\u2028sign"},
    ]


@pytest.mark.parametrize(
    ("text", "complaint"),
    [
        ("", "names every column once"),
        ("a,a\n1,2\n", "names every column once"),
        ("a,,c\n1,2,3\n", "names every column once"),
        ("a,b\n1,2\n1\n", "line 3, has 1 fields under 2 headings"),
        ("a,b\n1,2,3\n", "line 2, has 3 fields under 2 headings"),
        ('a,b\n1,"2\n', "line 2: unexpected end of data"),
    ],
)
def test_a_damaged_table_is_refused(resources: Path, text: str, complaint: str) -> None:
    write(resources, "tables/wire.csv", text)
    with pytest.raises(data.ResourceError, match=complaint):
        data.read_csv("tables/wire.csv")


def test_every_table_of_ours_can_be_read() -> None:
    tables = [file for file in sorted(files._root().rglob("*.csv")) if file.is_file()]
    for file in tables:
        assert data.read_csv(file.relative_to(files._root()).as_posix()), file
