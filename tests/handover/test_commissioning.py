"""The order of commissioning: dead before live, each source alone, every line of the test sheet."""

from __future__ import annotations

import io
from functools import cache

import pypdf
import pytest

from linework.design import Draft
from linework.handover.commissioning import COMMISSIONING, Step, spans, steps
from linework.handover.document import pages_bytes
from linework.handover.measurements import Block, Measurement, measurements
from linework.handover.testing import TESTS
from tests.handover.drawn import plain
from tests.handover.test_schedules import ROOM, of, words

SAMPLES = ("vaccination-trailer", "mountain-hut", "weather-station", "beekeepers-trailer")
DRAWN = ("house_with_interlock", "workboat")


@cache
def order(name: str) -> tuple[Step, ...]:
    return tuple(steps(plain(name)))


@cache
def lines(name: str) -> tuple[Measurement, ...]:
    return tuple(measurements(plain(name)))


def by_head(name: str) -> dict[str, Step]:
    return {step.head: step for step in order(name)}


@pytest.mark.parametrize("name", [*SAMPLES, *DRAWN])
def test_every_line_of_the_test_sheet_is_asked_for(name: str) -> None:
    asked = {key for step in order(name) for key in step.proofs}
    assert asked == {line.key for line in lines(name)}


@pytest.mark.parametrize("name", [*SAMPLES, *DRAWN])
def test_nothing_is_read_live_before_all_that_is_dead_fits(name: str) -> None:
    """IEC 60364-6 6.4.3: continuity and insulation before anything is energised; a lock is tried
    while dead besides."""
    blocks = {line.key: line.block for line in lines(name)}
    found = order(name)
    heads = [step.head for step in found]
    dead = heads.index("Dead tests")
    assert heads[: dead + 1] == ["Agree", "Lock out", "Dead tests"]
    for step in found[: dead + 1]:
        live = [key for key in step.proofs if blocks[key] is Block.LIVE]
        assert all(key.startswith("interlock:") for key in live)
    assert not [k for s in found[dead + 1 :] for k in s.proofs if blocks[k] is Block.INSULATION]


def test_each_source_comes_alone_and_before_what_changes_over() -> None:
    heads = [step.head for step in order("vaccination-trailer")]
    wanted = ["Direct current", "Inverter", "Supply", "Generator", "Changeovers", "Charge", "Drill"]
    assert [head for head in heads if head in wanted] == wanted


def test_steps_name_the_parts_of_the_design() -> None:
    found = by_head("vaccination-trailer")
    assert (
        "G1, XP1, XP2, QT1, TB1, QB2, QB1" in found["Lock out"].how
    )  # as the lock-out orders them
    assert "Close QB1." in found["Direct current"].how
    assert "off stay GP1, TB1, TC1" in found["Direct current"].how
    assert "then XP1; mains on" in found["Supply"].how
    assert "GP1 read open before QB2 closes" in found["Charge"].how
    assert {"link:G1", "hertz:G1"} <= {*found["Generator"].proofs}
    assert {"supply:GS1"} <= {*found["Supply"].proofs}


def test_the_link_of_a_set_is_known_before_its_first_transfer() -> None:
    heads = [step.head for step in order("mountain-hut")]
    assert heads.index("Generator") < heads.index("Changeovers")
    assert "link:G1" in by_head("mountain-hut")["Generator"].proofs


def test_a_ground_fault_device_is_tried_on_each_source_that_feeds_it() -> None:
    found = by_head("vaccination-trailer")
    with_it = [head for head, step in found.items() if "trip:QF6" in step.proofs]
    assert with_it == ["Inverter", "Supply", "Generator"]
    assert "trip:XD2" not in found["Supply"].proofs  # it sits in the set


def test_what_a_design_lacks_has_no_step() -> None:
    assert by_head("beekeepers-trailer").keys().isdisjoint({"Inverter", "Supply", "Generator"})
    assert "Direct current" not in by_head("house_with_interlock")
    assert "Charge" not in by_head("house_with_interlock")
    assert "Bare pins" in by_head("workboat")  # one supply: there is nothing to change over to
    assert "Changeovers" not in by_head("workboat")


def test_a_design_in_which_nothing_is_ever_live_has_no_order() -> None:
    drawn = Draft()
    drawn.part("lamp", "EL1", power="20 W")
    assert COMMISSIONING.make(of(drawn), ROOM) == []


@pytest.mark.parametrize(
    ("numbers", "told"),
    [([], ""), ([4], "4"), ([1, 2], "1, 2"), ([1, 2, 3, 7, 9, 10, 11], "1–3, 7, 9–11")],
)
def test_numbers_that_follow_on_each_other_are_a_span(numbers: list[int], told: str) -> None:
    assert spans(numbers) == told


def test_its_numbers_are_those_of_the_test_sheet() -> None:
    shown = words(list(COMMISSIONING.make(plain("weather-station"), ROOM)))
    dead = [line for line in lines("weather-station") if line.block is not Block.LIVE]
    assert f"1–{len(dead)}" in shown
    data = pages_bytes(plain("weather-station"), [TESTS, COMMISSIONING])
    text = "".join(page.extract_text() for page in pypdf.PdfReader(io.BytesIO(data)).pages)
    assert "Order of commissioning" in text


def test_it_takes_no_more_than_half_a_column_of_a_large_sheet() -> None:
    """A3 lying, two columns: 193 mm wide, of some 230 mm half is 115."""
    for name in [*SAMPLES, *DRAWN]:
        made_of = COMMISSIONING.make(plain(name), ROOM)
        high = sum(each.wrap(193 / 25.4 * 72, 1e6)[1] for each in made_of)
        assert high <= 115 / 25.4 * 72, (name, high / 72 * 25.4)


def test_a_lever_between_batteries_is_turned_before_its_circuits() -> None:
    step = by_head("ketch")["Direct current"]
    assert step.how.index("QB1 from off into each position") < step.how.index("Then")
    assert "from off" not in by_head("mountain-hut")["Direct current"].how
