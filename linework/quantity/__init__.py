"""What a person types and reads: strict grammar, units, wire sizes, formatting.

Text goes in by :func:`read` and :func:`wire_size`, which refuse what could be
read in two ways; figures go out by :func:`write` (file, exact) and :func:`show`
(people, rounded). Between the two everything is a plain float in the base unit
of its kind, see :data:`KINDS`.
"""

from linework.quantity.entry import in_watts, read
from linework.quantity.errors import QuantityError
from linework.quantity.output import in_signs, show, write
from linework.quantity.units import KINDS, QuantityKind
from linework.quantity.wire import AWG_SIZES, WireSize, wire_size

__all__ = [
    "AWG_SIZES",
    "KINDS",
    "QuantityError",
    "QuantityKind",
    "WireSize",
    "in_signs",
    "in_watts",
    "read",
    "show",
    "wire_size",
    "write",
]
