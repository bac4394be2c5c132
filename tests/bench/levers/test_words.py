"""Every position in which a part can stand has a word of its own on its lever."""

from __future__ import annotations

import pytest

from linework.bench.process.levers import _POSITIONS
from linework.kinds import Kind, kinds
from tests.kinds.cases import every_case

EVERY = pytest.mark.parametrize("kind", kinds().values(), ids=lambda kind: kind.key)


@EVERY
def test_a_position_has_a_word_or_is_a_number(kind: Kind) -> None:
    for case in every_case(kind):
        for selector in kind.inside(case.values).selectors:
            named = [p for p in selector.positions if selector.name != "plug" and not p.isdigit()]
            assert set(named) <= _POSITIONS.keys(), (kind.key, selector.name)
