"""Plug-in load: sits in an outlet."""

from linework.kinds.loads import PLUG_IN as KIND

__all__ = ["KIND"]
