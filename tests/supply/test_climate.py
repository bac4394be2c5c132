"""The climate of a place: tables, own figures, and what is wrong with them in a sentence."""

from __future__ import annotations

import re

import pytest

from linework.codes.tables import rows
from linework.design import Draft
from linework.storage import dumps, loads
from linework.supply.climate import SupplyError, climate_ids, climate_of, from_file

FLAT = " ".join(["2.5"] * 12)
WARM = " ".join(["12"] * 12)
HEADS = "month,sun,warmth\n"
TWELVE = "".join(f"{m},2.5,12\n" for m in range(1, 13))


def of(**settings: str):
    return climate_of(Draft(place="field", **settings).design.settings)


def test_a_place_of_the_table():
    """Sums of the typical-year file of Denver Airport (NREL TMY3)."""
    found = of(climate="denver")
    assert (found.latitude, found.altitude_m) == (39.83, 1650.0)
    assert (found.sun[0], found.sun[5], found.sun[11]) == (2.50, 7.27, 2.08)
    assert found.known
    assert not found.assumed
    assert not found.licence


def test_higher_up_it_is_colder():
    """6.5 K each 1000 m, the standard atmosphere."""
    low, high = of(climate="denver"), of(climate="denver", altitude="2650 m")
    assert high.warmth[0] == pytest.approx(low.warmth[0] - 6.5)


def test_nobody_says_where_it_is():
    found = of()
    assert found.assumed
    assert found.place == "Chicago Airport"


def test_rows_under_a_share_alike_licence_stand_apart_and_say_so():
    assert {row["sources"] for row in rows("energy/climates_share_alike")} == {"S180"}
    assert "S180" not in {row["sources"] for row in rows("energy/climates")}
    key = rows("energy/climates_share_alike")[0]["id"]
    assert "CC BY-SA" in of(climate=key).licence
    assert not of(climate=key).known
    assert len(climate_ids()) == 13 + 384


def test_own_figures():
    found = of(latitude="30", sun=FLAT, warmth=WARM, altitude="1200 m")
    assert found.sun == (2.5,) * 12
    assert found.warmth == (12.0,) * 12
    assert (found.latitude, found.altitude_m) == (30.0, 1200.0)


@pytest.mark.parametrize(
    ("settings", "sentence"),
    [
        ({"sun": " ".join(["0"] * 365), "latitude": "40"}, "365 figures are given, twelve"),
        ({"sun": FLAT.replace("2.5", "-3.5", 1), "latitude": "40"}, "-3.5 in jan is negative"),
        ({"sun": FLAT, "latitude": "90"}, "at the pole"),
        ({"sun": FLAT, "latitude": "-91"}, "at the pole"),
        ({"sun": FLAT, "latitude": ""}, "latitude: own figures of the sun need it"),
        ({"sun": FLAT, "latitude": "north"}, "'north' is no number"),
        ({"sun": FLAT, "latitude": "nan"}, "no number"),
        ({"sun": FLAT.replace("2.5", "33", 1), "latitude": "40"}, "more than the sun sends"),
        ({"sun": FLAT, "latitude": "40", "warmth": "hot"}, "warmth: 1 figures are given"),
        ({"sun": FLAT, "latitude": "40", "warmth": WARM.replace("12", "212")}, "-70 and 50"),
        ({"climate": "dnver"}, "denver"),
        ({"climate": "denver", "altitude": "-5 m"}, "altitude"),
        ({"climate": "denver", "altitude": "high"}, "altitude"),
    ],
)
def test_what_is_wrong_is_told_with_its_place(settings: dict[str, str], sentence: str):
    with pytest.raises(SupplyError, match=re.escape(sentence)) as found:
        of(**settings)
    assert str(found.value).startswith("settings, ")


def test_twelve_months_without_sun_are_an_answer():
    assert of(latitude="40", sun=" ".join(["0"] * 12)).sun == (0.0,) * 12


def test_a_file_of_its_own_figures():
    assert from_file(HEADS + TWELVE, "40").sun == (2.5,) * 12


@pytest.mark.parametrize(
    ("text", "sentence"),
    [
        ("date,ghi\n1,2\n", "has the columns date, ghi; it needs month, sun, warmth"),
        ("", "has the columns none"),
        (HEADS + TWELVE * 2, "24 rows"),
        (HEADS + TWELVE.replace("2.5", "much", 1), "row 1 of the climate: 'much' is no number"),
    ],
)
def test_a_file_of_something_else(text: str, sentence: str):
    with pytest.raises(SupplyError, match=re.escape(sentence)):
        from_file(text, "40")


def test_where_it_is_goes_into_the_file_only_where_it_is_said():
    plain, placed = Draft(place="field").design, Draft(place="field", climate="denver").design
    assert b"climate" not in dumps(plain)
    assert loads(dumps(placed), "placed").settings.climate == "denver"
