"""Which numbers of a state may be judged; what may not is told by "not-analysed"."""

from __future__ import annotations

from linework.circuit.network import NotSolved
from linework.study.loads.loaded import Loaded
from linework.study.shorts.faults import Fault
from linework.study.studies import Studies


def loaded_or_none(studies: Studies) -> Loaded | None:
    """The solution with all drawn loads on, where it was found and balances."""
    loaded = studies.loaded
    sound = loaded.solved and all(balance.sound for balance in loaded.checks)
    return loaded if sound else None


def known_faults(studies: Studies) -> list[Fault]:
    """The faults of a state; none where its network was not solved."""
    try:
        return studies.faults
    except NotSolved:
        return []
