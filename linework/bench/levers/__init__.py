"""The levers above the sheet: in which state the installation stands."""

from linework.bench.levers.levers import Levers
from linework.bench.levers.walktag import WalkTag

__all__ = ["Levers", "WalkTag"]
