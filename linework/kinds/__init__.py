"""One file per kind of part: its ratings, terminals, inner circuit and symbol, declared once."""

from linework.kinds.common import circuit_for
from linework.kinds.kind import Carries, Kind, Remedy
from linework.kinds.ratings import Answer, Band, Choice, OneOf, Rating, RatingError, Ratings
from linework.kinds.registry import STRIP, is_known, kind_of, kinds, remedy
from linework.kinds.run import RUN_RATINGS
from linework.kinds.values import Values

__all__ = [
    "RUN_RATINGS",
    "STRIP",
    "Answer",
    "Band",
    "Carries",
    "Choice",
    "Kind",
    "OneOf",
    "Rating",
    "RatingError",
    "Ratings",
    "Remedy",
    "Values",
    "circuit_for",
    "is_known",
    "kind_of",
    "kinds",
    "remedy",
]
