"""Every solution is checked: Kirchhoff at each node, and power in against power out."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from linework.circuit.network import Complex, Network


@dataclass(frozen=True, slots=True)
class Check:
    """Largest unbalance at a node and its limit, in ampere; power balance as a fraction."""

    hertz: float
    unbalance_a: float
    limit_a: float
    power_error: float

    @property
    def sound(self) -> bool:
        """Whether the solution may be believed."""
        return self.unbalance_a <= self.limit_a and self.power_error <= 1e-6


def verify(net: Network, volts: Complex, injected: Complex) -> Check:
    """Check one solution; the limit is that of :meth:`Network.limit_a`."""
    return Check(
        net.hertz,
        float(net.unbalance(volts, injected)),
        float(net.limit_a(volts)),
        _power_error(net, volts, injected),
    )


def _power_error(net: Network, volts: Complex, injected: Complex) -> float:
    """Power of the injections against the power taken by all elements, relative to the larger."""
    given = complex(np.sum(volts * np.conj(injected)))
    taken = complex(np.sum(np.abs(volts[net.a] - volts[net.b]) ** 2 * np.conj(net.y)))
    taken += sum(coupling.taken_va(volts) for coupling in net.coupled.values())
    return abs(given - taken) / max(abs(given), abs(taken), 1e-9)
