"""IEC 60364 and the standards beside it: what is known of them so far."""

from linework.codes.international.international import International

KEY = "INT"
EDITIONS: tuple[str, ...] = ()
MAKE = International

__all__ = ["EDITIONS", "KEY", "MAKE"]
