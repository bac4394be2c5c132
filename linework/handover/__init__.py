"""The drawing set: its sheets, and the forms in which it is handed over."""

from linework.handover.document import HandoverError, write_set

__all__ = ["HandoverError", "write_set"]
