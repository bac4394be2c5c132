"""The command line: check, study and export, without a display and without Qt."""

from linework.cli.entry import main

__all__ = ["main"]
