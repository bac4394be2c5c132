"""How long it takes to lay a sheet of forty runs. Run with --benchmark-enable for figures."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest

from linework.design import Design, changed
from linework.sheet.arranging.arrange import arranged, lay_out, needs_arranging
from linework.sheet.compose import compose
from linework.sheet.parts.parts import draw_parts
from linework.sheet.routing.routing import route, routes
from tests.sheet.arranged import drawn
from tests.sheet.plainness import bare
from tests.sheet.samples import at_random, trailer, unplaced


@pytest.fixture(scope="module")
def forty() -> Design:
    """Forty runs on one sheet."""
    design = unplaced(38)
    places = arranged(design)
    moves = [
        (p, replace(p, x=places[p.id][0], y=places[p.id][1]))
        for p in design.parts
        if p.id in places
    ]
    design.apply(changed("", moves))
    return design


def test_forty_runs_are_laid(benchmark: Any, forty: Design) -> None:
    """Goal: 150 ms for all of them together."""
    ways = benchmark(routes, forty, draw_parts(forty))
    assert len(ways) == 40


def test_a_tangle_is_laid(benchmark: Any) -> None:
    """Forty-one runs between fourteen parts, drawn at random: the worst that a hand can do."""
    design = at_random(1)
    ways = benchmark(routes, design, draw_parts(design))
    assert len(ways) == len(design.runs)


def test_one_run_is_laid_anew(benchmark: Any, forty: Design) -> None:
    drawings = draw_parts(forty)
    ways = routes(forty, drawings)
    run = forty.runs[-1]
    others = {key: way for key, way in ways.items() if key != run.id}
    assert benchmark(route, forty, run, drawings, others) == ways[run.id]


def test_a_sheet_is_composed(benchmark: Any) -> None:
    design = trailer()
    sheet = benchmark(compose, design)
    assert len(sheet.ways) == len(design.runs)


def test_forty_parts_are_arranged(benchmark: Any) -> None:
    """Goal: 1 s."""
    design = bare(drawn("vaccination-trailer"))
    laid = benchmark(lay_out, design)
    assert not needs_arranging(laid)
