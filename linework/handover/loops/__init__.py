"""The loops of faults to metal, as pictures: the decisive ones, and the rest in the annex."""

from linework.handover.loops.page import FURTHER_LOOPS, LOOPS

__all__ = ["FURTHER_LOOPS", "LOOPS"]
