"""NFPA 70 and the American standards beside it, one topic a module."""

from linework.codes.na.edition import EDITIONS
from linework.codes.na.north_america import NorthAmerica

KEY = "NA"
MAKE = NorthAmerica

__all__ = ["EDITIONS", "KEY", "MAKE"]
