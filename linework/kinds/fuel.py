"""What an engine burns: it decides how many litres a month its power costs, and nothing else."""

from __future__ import annotations

from linework.kinds.ratings import Choice, Rating
from linework.words import N_

FUEL = Rating(
    "fuel",
    N_("Fuel"),
    "choice",
    "unknown",
    choices=(
        Choice("unknown", N_("not given")),
        Choice("gasoline", N_("gasoline")),
        Choice("diesel", N_("diesel")),
        Choice("propane", N_("propane")),
        Choice("natural_gas", N_("natural gas")),
    ),
    quiet=True,
    help=N_("It decides only how many litres a month are burnt, and is printed."),
)
