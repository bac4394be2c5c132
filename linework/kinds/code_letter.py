"""The code letter on a motor's plate: what it asks for while it stands, for each horsepower.

NFPA 70 table 430.7(B), which is that of ANSI/NEMA MG 1. Of the band of a letter the upper end is
taken: a start that is too hard for its source is the mistake that must not be passed over.
"""

from __future__ import annotations

from functools import cache

from linework.data import read_csv
from linework.kinds.ratings import Choice, Rating
from linework.kinds.run import NOT_GIVEN
from linework.words import N_

_TABLE = "tables/na/motor_code_letters_430_7_B.csv"
_LETTERS = "ABCDEFGHJKLMNPRSTUV"

CODE_LETTER = Rating(
    "code_letter",
    N_("Code letter"),
    "choice",
    NOT_GIVEN,
    choices=(Choice(NOT_GIVEN, N_("not given")), *(Choice(letter, letter) for letter in _LETTERS)),
    help=N_(
        "On the plate beside CODE or KVA CODE; it counts with a power in hp. The letter beside"
        " DESIGN is another."
    ),
    quiet=True,
    ac_only=True,
)


def locked_rotor_a(letter: str, hp: float, volts: float) -> float | None:
    """Locked-rotor current in ampere of a single-phase motor, hp x kVA/hp x 1000 / V at the upper
    end of the letter; V has none, its lower end counts. None where no letter is given."""
    kva = _kva_per_hp().get(letter)
    return None if kva is None else hp * kva * 1000.0 / volts


@cache
def _kva_per_hp() -> dict[str, float]:
    return {
        row["letter"]: float(row["kva_per_hp_high"] or row["kva_per_hp_low"])
        for row in read_csv(_TABLE)
    }
