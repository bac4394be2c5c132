"""Every conductor: expansion to branches, operating states, islands, the sparse network."""

from linework.circuit.expand import expand
from linework.circuit.gathering import plug_positions
from linework.circuit.model import (
    Branch,
    Circuit,
    Condition,
    Device,
    FaceAt,
    LiveSource,
    Load,
    SelectorKey,
    Sensor,
    Spot,
)
from linework.circuit.states import State, free_selectors, settle
from linework.design.model import Settled

__all__ = [
    "Branch",
    "Circuit",
    "Condition",
    "Device",
    "FaceAt",
    "LiveSource",
    "Load",
    "SelectorKey",
    "Sensor",
    "Settled",
    "Spot",
    "State",
    "expand",
    "free_selectors",
    "plug_positions",
    "settle",
]
