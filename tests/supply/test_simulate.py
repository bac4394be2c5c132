"""The charge of banks over time: what must hold of every plant, and figures by hand."""

from __future__ import annotations

from itertools import islice

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from linework.design import Draft
from linework.storage import dumps, loads
from linework.supply.answers import answer, many_years, scene_of, typical_day
from linework.supply.assumed import assumptions
from linework.supply.assumptions import drawn, usual
from linework.supply.exogenous import Scene
from linework.supply.ledger import Ledger, ledger_of
from linework.supply.simulate import _Run, simulate
from linework.supply.weather import Days, year
from tests.supply.plants import PLACE, WIRE, cabin, with_set
from tests.supply.test_modes import two_banks

DARK = " ".join(["0"] * 12)


def same_day(
    scene: Scene, sun: float = 0.0, warmth: float = 20.0, count: int = 28, steps: int = 96,
    **draw: float,
) -> Ledger:  # fmt: skip
    """The books of a month of equal days, all as usual but what is named."""
    drawn = usual(assumptions(scene)) | {k: np.array([v]) for k, v in draw.items()}
    days = Days(
        np.full((count, 1, 1), 80.0), np.array([0]), np.full((count, 1, 1), sun),
        np.full((count, 1, 1), warmth),
    )  # fmt: skip
    return ledger_of(scene, simulate(scene, [days], drawn, 1, steps), drawn, 1)


def years_of(d: Draft, steps: int = 96, years: int = 1) -> Ledger:
    scene = scene_of(d.design)
    (book,) = many_years(scene, assumptions(scene), years, 7, steps)
    return book


def spell(d: Draft, years: int = 1, months: int = 2) -> Ledger:
    """The first months of some years drawn at random."""
    scene = scene_of(d.design)
    rng = np.random.default_rng(3)
    draw = drawn(assumptions(scene), years, rng)
    days = islice(year(scene.climate, rng, draw["sun"], draw["warmer"]), months)
    return ledger_of(scene, simulate(scene, days, draw, years), draw, years)


watts = st.sampled_from(["0 W", "5 W", "60 W", "400 W"])
arrays = st.sampled_from(["", "1 W", "100 W", "800 W"])
chemistries = st.sampled_from(["lithium", "agm", "flooded"])
capacities = st.sampled_from(["1 Ah", "50 Ah", "400 Ah"])


@st.composite
def plants(draw: st.DrawFn) -> Draft:
    d = cabin(draw(watts), draw(capacities), draw(arrays), chemistry=draw(chemistries))
    if draw(st.booleans()):
        d.part("inverter", "TB1", power=draw(st.sampled_from(["50 VA", "500 VA"])),
               neutral="bonded")  # fmt: skip
        d.part("load", "EA2", power=draw(st.sampled_from(["10 W", "200 W"])))
        d.run("GB1.dc", "TB1.dc", **WIRE)
        d.run("TB1.ac_out", "EA2.in", **WIRE)
    return with_set(d) if draw(st.booleans()) else d


@settings(max_examples=6, deadline=None)
@given(plants())
def test_energy_in_is_energy_out_and_stored_and_lost(d: Draft):
    book = spell(d)
    came = 1000.0 * sum(book.total(k) for k in ("sun", "engine", "shore", "set"))
    scale = np.maximum(came + 1000.0 * book.total("served"), 1.0)
    assert np.all(np.abs(book.imbalance) <= 1e-9 * scale)
    for name in ("served", "unmet", "sun", "wasted", "converted", "lost", "litres"):
        assert np.all(getattr(book, name) >= -1e-9), name


def test_energy_balances_with_two_banks_and_an_engine():
    book = spell(two_banks())
    assert np.all(book.total("engine") > 1.0)
    assert np.all(np.abs(book.imbalance) <= 1e-9 * 1000.0 * book.total("engine"))


@settings(max_examples=6, deadline=None)
@given(watts, arrays, chemistries, st.tuples(st.integers(1, 400), st.integers(1, 400)))
def test_a_larger_bank_never_leaves_more_unmet(load, array, chemistry, sizes):
    small, large = sorted(sizes)
    unmet = [
        spell(cabin(load, f"{ah} Ah", array, chemistry=chemistry)).total("unmet")
        for ah in (small, large)
    ]
    assert np.all(unmet[1] <= unmet[0] + 1e-6)


@pytest.mark.parametrize(
    ("d", "years"), [(cabin(), 1), (with_set(cabin(watts="150 W")), 24), (two_banks(), 1)]
)
def test_a_step_twice_as_long_changes_a_year_by_less_than_one_percent(d: Draft, years: int):
    """A set's rule locks onto the day, so that a single year may tip over; many do not."""
    fine, coarse = (years_of(d, steps, years) for steps in (96, 48))
    for name in ("served", "unmet", "sun", "engine", "set", "wasted", "set_h", "litres"):
        a, b = (float(book.total(name).mean()) for book in (fine, coarse))
        scale = max(a, 0.01 * float(fine.total("served").mean()))
        assert abs(a - b) < 0.01 * scale, (name, a, b)


def test_neither_order_nor_names_matter():
    first = with_set(cabin(watts="120 W")).design
    text = dumps(first).decode()
    for old, new in (("GB1", "ZZ9"), ("TC1", "AA0"), ("EA1", "MM5"), ("G1", "XX3")):
        text = text.replace(f'"{old}"', f'"{new}"')
    one, other = answer(first, 1), answer(loads(text.encode(), "renamed"), 1)
    assert one.year == other.year
    assert one.months == other.months
    assert [m.assumption.what for m in one.moved] == [m.assumption.what for m in other.moved]


def test_the_same_seed_is_the_same_answer_and_another_is_not():
    d = cabin().design
    first, again, other = (answer(d, 1, seed=n).year for n in (5, 5, 6))
    assert first == again
    assert first != other


def empty() -> Draft:
    return Draft(place="field", **PLACE)


def only_load() -> Draft:
    d = empty()
    d.part("load", "EA1", power="100 W", use="always")
    return d


@pytest.mark.parametrize(
    "d",
    [
        empty(),
        only_load(),
        cabin(watts="0 W"),
        cabin(array=""),
        cabin(climate="", sun=DARK, latitude="60"),
        cabin(climate="", sun=DARK, latitude="89", capacity="0.1 Ah"),
        with_set(cabin(array="", watts="0 W")),
    ],
    ids=["nothing", "a load alone", "no load", "no sun", "dark", "at the pole", "set alone"],
)
def test_nothing_there_is_an_answer(d: Draft):
    found = answer(d.design, 1)
    for band in vars(found.year).values():
        assert np.isfinite([band.low, band.usual, band.high]).all()
        assert band.low <= band.usual <= band.high


def test_what_nothing_feeds_is_told():
    assert answer(only_load().design, 2).never_fed == ("EA1",)


# by hand


def test_a_battery_alone_lasts_as_long_as_its_energy():
    """200 Ah at 12 V, 80 % usable, full and warm: 1920 Wh, less half of the 8 % round trip: 60 W
    for 30.7 h, 28 days ask 40.32 kWh."""
    scene = scene_of(cabin(array="").design)
    book = same_day(scene, warmth=46.0)
    served = 1.92 * np.sqrt(0.92) * (1.0 - 0.02 / 30.0 * 1.3)
    assert float(book.served[0, 0]) == pytest.approx(served, rel=0.005)
    assert float(book.unmet[0, 0]) == pytest.approx(28 * 1.44 - served, rel=0.005)
    assert float(book.least[0, 0, 0]) == pytest.approx(0.2, abs=1e-6)


def test_the_sun_of_a_day_is_what_the_plates_make_of_it():
    """200 W, 5 kWh/m2 on the flat, 14.076 % lost, cells some degrees above the air; all taken."""
    scene = scene_of(cabin(watts="400 W").design)
    book = same_day(scene, sun=5.0, warmth=10.0)
    ideal = 28 * 5.0 * 0.2 * (1.0 - 0.14076)
    assert 0.90 * ideal < float(book.sun[0, 0]) < 1.02 * ideal
    assert float(book.wasted[0, 0]) == pytest.approx(0.0, abs=1e-9)


def test_lithium_takes_no_charge_below_freezing_unless_kept_warm():
    """Warm and cold, sun by day and a load at night only: in the cold the sun is wasted."""
    night = {"use": "hours", "use_hours": "4 h", "use_from": "20 h", "use_until": "24 h"}
    kept = cabin(use=night)
    cold = cabin(use=night)
    cold.rate("GB1", kept_warm="no")
    warm, frozen = (same_day(scene_of(d.design), sun=3.0, warmth=-5.0) for d in (kept, cold))
    assert float(warm.unmet[0, 0]) == 0.0
    assert float(frozen.unmet[0, 0]) > 3.0
    assert float(frozen.sun[0, 0]) < 0.1 * float(warm.sun[0, 0])


def test_cold_takes_capacity_from_lead():
    """Lead at -4 degC has 67 % of its capacity (table)."""
    d = cabin(array="", chemistry="agm")
    d.rate("GB1", kept_warm="no")
    scene = scene_of(d.design)
    cold, warm = (same_day(scene, warmth=t).served[0, 0] for t in (-4.0, 30.0))
    assert float(cold / warm) == pytest.approx(0.671, rel=0.01)


def test_a_set_charges_at_the_rate_of_its_charger_and_burns_by_its_line():
    """40 A at 13.5 V for 60 W: the set runs as long as energy asks, 0.7 L/h or so for its class."""
    d = with_set(cabin(array=""), starts_at="40 %", stops_at="90 %", quiet_from="0 h",
                 quiet_until="0.1 h")  # fmt: skip
    book = same_day(scene_of(d.design))
    assert float(book.unmet[0, 0]) == 0.0
    asked = 28 * 24 * 0.06
    hours = float(book.set_h[0, 0])
    assert hours == pytest.approx(asked / (40 * 13.5 * 0.94 / 1000), rel=0.12)
    burnt = float(book.litres[0, 0]) / hours
    line = 0.227 * 2.0 / 1.8 + 0.496 * 40 * 13.5 / 0.85 / 1000
    assert burnt == pytest.approx(line, rel=0.02)


def test_a_set_keeps_quiet_hours():
    d = with_set(cabin(array="", watts="150 W"), quiet_from="20 h", quiet_until="8 h")
    scene = scene_of(d.design)
    draw = usual(assumptions(scene))
    days = Days(np.full((20, 1, 1), 10.0), np.array([0]), np.zeros((20, 1, 1)),
                np.full((20, 1, 1), 15.0))  # fmt: skip
    (outcome,) = simulate(scene, [days], draw, 1)
    hours = (np.arange(96) + 0.5) / 4.0
    running = outcome.running.reshape(20, 96).sum(axis=0)
    assert running[(hours > 20.0) | (hours < 8.0)].sum() == 0.0
    assert running.sum() > 0.0


def test_driving_fills_the_house_battery_through_its_charger():
    """30 A at 13.5 V for one hour a day against 60 W all day: about 0.4 of 1.44 kWh."""
    scene = scene_of(two_banks().design)
    book = same_day(scene, driven=1.0)
    assert float(book.engine[0, 0]) == pytest.approx(28 * 0.03 * 13.5 / 0.9, rel=0.05)
    more = same_day(scene, driven=4.0)
    assert float(more.unmet[0, 0]) < float(book.unmet[0, 0]) - 20.0


def test_shore_by_the_hour():
    d = cabin(array="", place="vehicle")
    d.part("supply", "GS1", plugged_hours="24 h")
    d.part("charger", "TB9", current="40 A")
    d.run("GS1.out", "TB9.ac_in", **WIRE)
    d.run("TB9.dc", "GB1.dc", **WIRE)
    scene = scene_of(d.design)
    assert float(same_day(scene).unmet[0, 0]) == 0.0
    assert all(mode.shore for mode in scene.plant.wirings)  # nothing parts it: it is always there


def test_a_typical_day_repeats_itself():
    scene = scene_of(cabin().design)
    charge, last = typical_day(scene, assumptions(scene))
    assert charge.shape == (96, 1, 12)
    sunny = charge[:, 0, 5]
    assert sunny[-1] == pytest.approx(sunny[0], abs=0.1)
    assert np.all((charge > 0.19) & (charge <= 1.0 + 1e-9))
    assert last.sun.shape == (96, 12)


@pytest.mark.parametrize("d", [cabin(watts="90 W"), with_set(cabin(watts="150 W"))])
def test_one_year_alone_is_the_same_as_beside_another(d: Draft):
    scene = scene_of(d.design)
    books = []
    for size in (1, 2):
        draw = usual(assumptions(scene), size)
        rng = np.random.default_rng(3)
        days = islice(year(scene.climate, rng, draw["sun"], draw["warmer"], alike=True), 2)
        books.append(ledger_of(scene, simulate(scene, days, draw, size), draw, size))
    for name in ("served", "unmet", "sun", "set_h", "litres", "lost"):
        alone, beside = (getattr(book, name)[:, 0] for book in books)
        assert alone == pytest.approx(beside, rel=1e-9), name


@pytest.mark.parametrize("steps", [24, 48, 96])
def test_near_full_the_current_falls_as_an_exponential_whatever_the_step(steps: int):
    """100 Ah of lead, 20 A, from 80 % on: what is missing falls to 1/e within an hour, tau being
    the 20 Ah that are left over the 20 A."""
    scene = scene_of(cabin(capacity="100 Ah", chemistry="agm").design)
    run = _Run(scene, usual(assumptions(scene)), 1, steps)
    share = run.approach(run.banks.most_w[None])
    assert float((1.0 - share[0, 0, 0]) ** (steps / 24)) == pytest.approx(np.exp(-1.0))
