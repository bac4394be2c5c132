"""Time-current charts: scales against logarithms, lines against what they stand for."""

from __future__ import annotations

from dataclasses import replace
from itertools import pairwise

import pytest

from linework.codes.trip import TripBand
from linework.handover.chart import ASSUMED, DAMAGE, LATEST, Chart, Span, Trace
from linework.handover.trips import _devices, _faults, _latest, _of_conductors, _points, charts
from linework.picture.inks import Ink
from linework.picture.measure import box_of, text_box
from linework.picture.model import Polyline, Rect, Text
from tests.handover.test_schedules import ROOM, content, words

CHART = Chart(1000, 700, (10.0, 1000.0))


def test_decades_are_equally_long() -> None:
    assert [CHART.x(amps) for amps in (10.0, 100.0, 1000.0)] == [0, 500, 1000]
    assert [CHART.y(s) for s in (1e4, 1e3, 1.0, 1e-3)] == [0, 100, 400, 700]
    assert CHART.x(20.0) == pytest.approx(500 * 0.30103, abs=1)  # log10 of 2


def test_what_lies_beyond_the_field_is_cut_at_its_edge() -> None:
    line = Trace(((5.0, 1.0), (20.0, 1e9), (20.0, 1.0), (500.0, 0.1), (5e4, 1e-9)), LATEST, "1")
    items = CHART.drawn([line], [])
    (drawn,) = [i for i in items if isinstance(i, Polyline)]
    assert [*drawn.points] == [(151, 0), (151, 400), (849, 500)]
    assert [i.text for i in items if isinstance(i, Text) and i.bold] == ["1"]


def test_bars_of_currents_lie_below_with_their_names_on_the_field() -> None:
    names = [Span(20.0, 60.0, "EA1"), Span(200.0, 990.0, "QP1 main board")]
    found = {i.text: i for i in CHART.drawn([], names) if isinstance(i, Text)}
    assert found["EA1"].across == "start"
    assert found["QP1 main board"].across == "end"  # there is no room at its right
    assert found["EA1"].y < found["QP1 main board"].y <= CHART.height + CHART.foot(names)


def band(board: str, rating: float) -> TripBand:
    made = content("vaccination-trailer")
    found = _devices(made, made.design.part(board))
    return next(band for band, _ in found if band.rating_a == rating)


def test_a_breaker_is_fixed_at_its_gate_and_assumed_beyond() -> None:
    """UL 489 (from memory): at 200 % of its rating a breaker to 30 A opens within 2 min."""
    stretches = [*_latest(band("QP2", 15.0))]
    assert {trace.pen for trace in stretches} == {LATEST, ASSUMED}
    at_gate = [s for trace in stretches for a, s in trace.points if a == pytest.approx(30.0)]
    assert at_gate == [pytest.approx(120.0, rel=1e-3)] * len(at_gate)
    assert len(at_gate) >= 3


def test_edges_fall_and_the_earliest_is_never_later() -> None:
    made = band("QP1", 20.0)
    latest, earliest = _points(made, made.opens_by_s), _points(made, made.may_open_s)
    for points in (latest, earliest):
        assert all(a[1] >= b[1] for a, b in pairwise(points))
    assert all(made.may_open_s(amps) <= seconds for amps, seconds in latest[1:])


def test_a_conductor_endures_the_energy_that_its_row_says() -> None:
    """IEC 60949: I2t is constant; 14 AWG of 2.08 mm2 copper from 75 C to 150 C with k = 105."""
    made = content("vaccination-trailer")
    traces, lines = _of_conductors(made, made.design.part("QP2"))
    thinnest = traces[0]
    assert thinnest.pen == DAMAGE
    energies = {amps**2 * seconds for amps, seconds in thinnest.points}
    assert min(energies) == pytest.approx(max(energies))
    assert min(energies) == pytest.approx((105.0 * 2.08) ** 2, rel=0.02)
    assert lines[0].what == "W14 14 AWG"
    assert max(seconds for _, seconds in thinnest.points) == pytest.approx(5.0)


def test_every_board_with_devices_has_its_chart() -> None:
    told = words(charts(content("vaccination-trailer"), ROOM))
    for board in ("QP1 main board", "QP2 vaccine board", "QP3 12 V board"):
        assert board in told
    assert "QF5 15 A" in told
    assert "F3, F4 10 A" in told


def test_figures_under_the_field_stand_apart() -> None:
    narrow = Chart(440, 500, (10.0, 10000.0))
    figures = [i for i in narrow.drawn([], []) if isinstance(i, Text) and i.level == "top"]
    boxes = sorted(map(text_box, (i for i in figures if i.text != "A")), key=lambda b: b.left)
    assert all(a.right < b.left for a, b in pairwise(boxes))
    assert {"10", "100", "1000", "10000"} <= {i.text for i in figures}


def test_marks_of_two_lines_close_to_each_other_do_not_meet() -> None:
    near = [
        Trace(((f * 20, 1e4), (f * 500, 0.01)), LATEST, str(n)) for n, f in ((1, 1.0), (2, 1.1))
    ]
    lines = [replace(t, points=tuple(_between(*t.points))) for t in near]
    tags = [i for i in CHART.drawn(lines, []) if isinstance(i, Rect) and i.fill == Ink.PAPER]
    one, other = map(box_of, tags)
    assert not one.overlaps(other)


def _between(a: tuple[float, float], b: tuple[float, float]) -> list[tuple[float, float]]:
    """So many points of a straight line on logarithmic scales."""
    shares = [n / 100 for n in range(101)]
    return [(a[0] * (b[0] / a[0]) ** s, a[1] * (b[1] / a[1]) ** s) for s in shares]


def test_bars_tell_the_faults_where_a_circuit_ends_and_not_on_the_other_side() -> None:
    """An inverter-charger on a board: its battery drives 7 kA at its other terminals."""
    hut = content("mountain-hut")
    spans = {span.name: span for span in _faults(hut, hut.design.part("QP1"))}
    assert {"QP1", "TB1"} <= spans.keys()
    assert spans["TB1"].high <= spans["QP1"].high < 1000.0
