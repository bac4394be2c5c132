"""Which ratings a card asks for: all that mean something here, quiet ones on demand."""

from __future__ import annotations

from collections.abc import Mapping

from linework.design import Design, Part, Run
from linework.kinds import RUN_RATINGS, Rating, Values


def declared(design: Design, element: Part | Run) -> Mapping[str, Rating]:
    """Every rating of a part or run."""
    return RUN_RATINGS if isinstance(element, Run) else design.kind(element).declared


def values_of(design: Design, element: Part | Run) -> Values:
    """What holds of it."""
    return design.run_values(element) if isinstance(element, Run) else design.values(element)


def folded(design: Design, element: Part | Run) -> list[str]:
    """Those seldom asked that nobody gave."""
    values = values_of(design, element)
    quiet = (key for key, rating in declared(design, element).items() if rating.quiet)
    return [key for key in quiet if values.applies(key) and not values.given(key)]


def wanted(design: Design, element: Part | Run, unfolded: bool) -> list[str]:
    """Those that are shown."""
    values = values_of(design, element)
    away = () if unfolded else folded(design, element)
    keys = declared(design, element)
    return [key for key in keys if values.applies(key) and key not in away]
