"""Published examples of loads and what feeds them."""

from __future__ import annotations

from linework.codes import family
from tests.examples.published import published


@published("072", "Basic code rules and design practice", "info.5y1.org/240v-50-amp-generator")
def test_the_largest_continuous_load_of_each_breaker() -> None:
    # 80 %: the inverse of the 125 % rule.
    breakers = [15, 20, 25, 30, 35, 40, 45, 50, 60, 70, 80, 90, 100, 110, 125, 150, 175]
    loads = [12, 16, 20, 24, 28, 32, 36, 40, 48, 56, 64, 72, 80, 88, 100, 120, 140]
    rules = family("NA", "2023")
    for breaker, load in zip(breakers, loads, strict=True):
        assert rules.standard_up(rules.design_current(0.0, load).value).value == breaker
        assert rules.standard_up(rules.design_current(0.0, load + 0.1).value).value > breaker
