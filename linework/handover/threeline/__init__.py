"""The conductor drawing: every conductor of every run with both its ends, from the circuit."""

from linework.handover.threeline.page import CONDUCTORS

__all__ = ["CONDUCTORS"]
