"""linework supply: sentences and JSON, and what is wrong told with its place."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from linework.cli import main
from linework.design import Draft
from linework.storage import save
from tests.supply.plants import cabin, with_set


def asked(
    d: Draft, tmp_path: Path, capsys: pytest.CaptureFixture[str], *more: str
) -> tuple[int, str, str]:
    file = tmp_path / "cabin.linework"
    save(d.design, file)
    status = main(["supply", str(file), "--years", "2", *more])
    told = capsys.readouterr()
    return status, told.out, told.err


def test_a_cabin_that_is_carried(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    status, out, _ = asked(cabin(watts="5 W", array="400 W"), tmp_path, capsys)
    assert status == 0
    assert "Under these assumptions the loads are carried in nine years of ten" in out
    assert "safe" not in out


def test_a_cabin_that_is_not(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    status, out, _ = asked(cabin(watts="200 W", climate=""), tmp_path, capsys)
    assert status == 0
    assert out.startswith("Nobody says where this is")
    assert "without supply for" in out
    assert "The worst month is" in out
    assert "What moves this most:" in out


def test_every_assumed_value_is_marked(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    d = with_set(cabin(use={"use": "unsaid"}))
    _, out, _ = asked(d, tmp_path, capsys)
    _, text, _ = asked(d, tmp_path, capsys, "--json")
    assumed = [a for a in json.loads(text)["assumptions"] if a["assumed"]]
    marked = [line for line in out.splitlines() if line.strip().startswith("[")]
    assert len(marked) == len(assumed) > 5
    assert any("EA1" in line and "refrigerator: 24 h, 33 %" in line for line in marked)
    for what in ("tilt in degrees", "air behind it", "hour from which it does not run"):
        assert any(what in line for line in marked), what


def test_a_habit_that_is_given_is_not_marked(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    _, out, _ = asked(cabin(), tmp_path, capsys)
    assert not [x for x in out.splitlines() if x.strip().startswith("[EA1")]


def test_as_json(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    status, out, _ = asked(with_set(cabin()), tmp_path, capsys, "--json")
    assert status == 0
    whole = json.loads(out)
    assert len(whole["months"]) == len(whole["typical_charge"]) == 12
    for low, usual, high in whole["year"].values():
        assert low <= usual <= high
    assert 1 <= whole["worst_month"] <= 12
    assert whole["moves_most"]


def test_own_figures_from_a_file(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    table = tmp_path / "own.csv"
    table.write_text("month,sun,warmth\n" + "".join(f"{m},2.5,10\n" for m in range(1, 13)))
    status, out, _ = asked(cabin(latitude="30"), tmp_path, capsys, "--climate", str(table))
    assert status == 0
    assert "own figures, 30 degrees" in out


@pytest.mark.parametrize(
    ("text", "sentence"),
    [("date;ghi\n", "it needs month, sun, warmth"), ("month,sun,warmth\n1,2,3\n", "1 rows")],
)
def test_a_file_of_other_columns(
    text: str, sentence: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    table = tmp_path / "other.csv"
    table.write_text(text)
    status, out, err = asked(cabin(latitude="30"), tmp_path, capsys, "--climate", str(table))
    assert (status, out) == (2, "")
    assert sentence in err


def test_a_place_at_the_pole(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    d = cabin(climate="", latitude="90", sun=" ".join(["1"] * 12))
    status, out, err = asked(d, tmp_path, capsys)
    assert (status, out) == (2, "")
    assert err.startswith("settings, latitude: 90 is at the pole")


def test_what_nothing_feeds_is_status_1(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    d = Draft(place="field", climate="denver")
    d.part("load", "EA1", power="100 W")
    status, out, _ = asked(d, tmp_path, capsys)
    assert status == 1
    assert "Nothing ever feeds EA1." in out
    assert "the loads are carried" not in out


def test_what_waits_for_a_set_is_no_all_clear(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """A load that only a set feeds, asleep at night: the battery's loads alone are carried."""
    d = with_set(cabin(watts="5 W", array="400 W"))
    d.part("load", "EA2", power="100 W", use="always")
    d.run("G1.out", "EA2.in", size="12 AWG", length="3 ft")
    _, out, _ = asked(d, tmp_path, capsys)
    assert "the loads are carried" not in out
    assert "not all loads are: see below" in out
    assert "Only shore or a set feeds EA2: wanted and off for" in out


@pytest.mark.parametrize("years", ["0", "1001", "many"])
def test_a_number_of_years_that_is_none(years: str, capsys: pytest.CaptureFixture[str]) -> None:
    with pytest.raises(SystemExit):
        main(["supply", "any", "--years", years])
    assert "--years" in capsys.readouterr().err
