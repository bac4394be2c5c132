"""What an engine burns: it decides nothing and is printed."""

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
    help=N_("It decides nothing here and is printed."),
)
