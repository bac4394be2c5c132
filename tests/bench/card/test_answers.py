"""Answers as they are typed."""

from __future__ import annotations

from linework.bench.card.answers import typed
from linework.kinds import Band, kinds


def test_three_figures_are_told_from_a_wire_size() -> None:
    power = kinds()["generator"].declared["power"]
    from linework.kinds import RUN_RATINGS

    assert typed(power, " 4 kVA/5 kVA / 6 kVA ") == Band("4 kVA", "5 kVA", "6 kVA")
    assert typed(power, "") is None
    assert typed(power, "1,5  kVA") == "1.5 kVA"
    assert typed(RUN_RATINGS["size"], "4/0 AWG") == "4/0 AWG"
