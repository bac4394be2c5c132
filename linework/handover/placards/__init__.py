"""Placards to cut out at true size: only those that the design needs, with what it says."""

from linework.handover.placards.page import PLACARDS

__all__ = ["PLACARDS"]
