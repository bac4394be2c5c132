"""The drawing set as PDF: cover, single-line diagram, states, schedules, findings, assumptions."""

from linework.handover.document import HandoverError, write_set

__all__ = ["HandoverError", "write_set"]
