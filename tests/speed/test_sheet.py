"""How long it takes to lay a sheet of forty runs. Run with --benchmark-enable for figures."""

from __future__ import annotations

from typing import Any

from linework.sheet.arrange import lay_out
from linework.sheet.compose import compose
from linework.sheet.parts import draw_parts
from linework.sheet.routing import route, routes
from tests.sheet.samples import unplaced

DESIGN = lay_out(unplaced(38))


def test_forty_runs_are_laid(benchmark: Any) -> None:
    """Goal: 150 ms for all of them together."""
    drawings = draw_parts(DESIGN)
    ways = benchmark(routes, DESIGN, drawings)
    assert len(ways) == 40


def test_one_run_is_laid_anew(benchmark: Any) -> None:
    drawings = draw_parts(DESIGN)
    ways = routes(DESIGN, drawings)
    run = DESIGN.runs[-1]
    others = {key: way for key, way in ways.items() if key != run.id}
    assert benchmark(route, DESIGN, run, drawings, others) == ways[run.id]


def test_a_sheet_is_composed(benchmark: Any) -> None:
    sheet = benchmark(compose, DESIGN)
    assert len(sheet.ways) == 40
