"""The window that holds the rooms, its menus and commands, and what floats over the sheet."""

from linework.bench.frame.window import BenchWindow

__all__ = ["BenchWindow"]
