"""The set in every form in which it can be handed over: a file name's ending says which."""

from linework.handover.formats.writing import ENDINGS, Order, export

__all__ = ["ENDINGS", "Order", "export"]
