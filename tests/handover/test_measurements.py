"""The test sheet: safe order, values against sums by hand, fields that survive being filled in."""

from __future__ import annotations

import io

import pypdf
import pytest

from linework.design import Draft
from linework.handover.document import pages_bytes
from linework.handover.measurements import Block, Measurement, insulation_first, measurements
from linework.handover.testing import TESTS
from tests.handover.test_schedules import content, of


def by_key(name: str = "vaccination-trailer") -> dict[str, Measurement]:
    return {each.key: each for each in measurements(content(name))}


def test_dead_before_insulation_before_live() -> None:
    blocks = [each.block for each in measurements(content("mountain-hut"))]
    assert blocks == sorted(blocks)
    assert {*blocks} == {*Block}


def test_a_ground_wire_reads_what_the_table_of_resistances_says() -> None:
    """NFPA 70 chapter 9 table 8 with its note 2: stranded copper of 12 AWG has 1.98 ohm per 1000 ft
    at 75 C, at 20 C 1.98 x (1 - 0.00323 x 55) = 1.628; 14 ft of it 0.0228 ohm."""
    wire = by_key()["ground:W6"]
    assert wire.bounds[0][1] == pytest.approx(0.0228 + 0.1, abs=0.0001)
    assert wire.expected == "0.023 Ω"
    assert "12 AWG" in wire.detail


def test_neutral_and_ground_are_joined_where_a_link_is_fitted() -> None:
    found = by_key()
    assert (found["link:QP1"].expected, found["link:G1"].expected) == ("not joined", "joined")
    assert found["link:QP1"].bounds == ((1e5, None),)
    assert found["minus:GB1"].detail == "joined by W23"


def test_outlets_are_read_in_every_position_that_feeds_them() -> None:
    keys = [key for key in by_key() if key.startswith("outlet:XD4")]
    assert len(keys) == 3  # on shore, on the generator, on the inverter
    first = by_key()[keys[0]]
    low, high = zip(*first.bounds, strict=True)
    assert all(high)
    assert low[2] == 0.0
    assert "tester: correct" in first.detail


def test_what_insulation_voltage_would_harm_is_named() -> None:
    assert {"TB1", "TC1", "GB1", "QF6", "XD2"} <= {
        *insulation_first(content("vaccination-trailer"))
    }


def test_a_device_that_measures_ground_current_trips_within_its_class() -> None:
    """UL 943: class A trips from 4 to 6 mA."""
    assert by_key()["trip:QF6"].bounds == ((4.0, 6.0),)


def test_fields_survive_being_filled_in() -> None:
    made = content("vaccination-trailer")
    reader = pypdf.PdfReader(io.BytesIO(pages_bytes(made, [TESTS])))
    fields = reader.get_fields()
    assert fields is not None
    wanted = {f"fits-{each.field}" for each in by_key().values()}
    wanted |= {f"read-{m.field}-{n}" for m in by_key().values() for n in range(len(m.bounds))}
    assert wanted <= fields.keys()
    writer = pypdf.PdfWriter(clone_from=reader)
    wire = by_key()["ground:W6"].field
    values = {f"read-{wire}-0": "0.031", "about-by": "K. O."}
    for page in writer.pages:
        writer.update_page_form_field_values(page, values | {f"fits-{wire}": "/Yes"})
    out = io.BytesIO()
    writer.write(out)
    again = pypdf.PdfReader(out).get_fields()
    assert again is not None
    assert {key: again[key].value for key in values} == values
    assert again[f"fits-{wire}"].value == "/Yes"


def test_a_place_without_alternating_current_has_its_sheet_too() -> None:
    found = by_key("beekeepers-trailer")
    assert not [key for key in found if key.startswith(("insulation", "trip", "transfer"))]
    assert [key for key in found if key.startswith("volts:")]


def test_a_link_of_which_nobody_has_said_anything_has_no_expected_value() -> None:
    draft = Draft(place="field")
    draft.part("generator", "G1", power="5 kVA", neutral="bonded")
    draft.part("panel", "QP1")
    draft.run("G1.out", "QP1.feed", "W1", size="10 AWG", length="20 ft")
    (link,) = [each for each in measurements(of(draft)) if each.key == "link:QP1"]
    assert (link.expected, link.bounds) == ("not known: write it down", ((None, None),))
