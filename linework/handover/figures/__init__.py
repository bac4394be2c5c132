"""The tables of a set as plain values, for whoever computes on with them."""

from linework.handover.figures.model import Cell, Column, Data
from linework.handover.figures.tables import TABLES, tables_of

__all__ = ["TABLES", "Cell", "Column", "Data", "tables_of"]
