"""Fixed load: wired in for good."""

from linework.kinds.loads import FIXED as KIND

__all__ = ["KIND"]
