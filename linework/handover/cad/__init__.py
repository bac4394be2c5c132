"""The one-line diagram for drawing programs: layers by meaning, symbols as blocks."""

from linework.handover.cad.layers import LAYERS
from linework.handover.cad.sheet import dxf_bytes

__all__ = ["LAYERS", "dxf_bytes"]
