"""What a motor takes whose plate gives horsepower: that is what its shaft gives, not what it takes.

The current is that of NFPA 70 tables 430.247 and 430.248, by which wires are sized in place of the
plate's (430.6(A)(1)); one source each. It is somewhat more than most motors take.
"""

from __future__ import annotations

from functools import cache
from math import inf

from linework.data import read_csv
from linework.kinds.values import Values
from linework.quantity import read

_TABLE = "tables/na/motor_current_430_248.csv"
_DIRECT = "tables/na/motor_current_430_247.csv"
_DIRECT_V = 120.0
_COLUMNS = ((110.0, 120.0, "115"), (200.0, 200.0, "200"), (208.0, 208.0, "208"))
_WIDE = (220.0, 240.0, "230")
"""The systems that the columns cover."""
_UNIT = "hp"


def horsepower(values: Values) -> float | None:
    """The horsepower of the plate; None where the power is given in watts or not at all."""
    text = values.text("power").strip()
    if not text.lower().endswith(_UNIT):
        return None
    return read(text, "power") / read(f"1 {_UNIT}", "power")


def table_a(hp: float, volts: float) -> float | None:
    """Full-load current in ampere of a single-phase motor; between two rows that of the larger.

    None beyond 10 hp and for voltages that the table does not cover.
    """
    columns = (name for low, high, name in (*_COLUMNS, _WIDE) if low <= volts <= high)
    column = next(columns, None)
    if column is None:
        return None
    fitting = (row for row in _rows() if row["hp"] >= 0.999 * hp)
    least = min(fitting, key=lambda row: row["hp"], default={"hp": inf})
    return least.get(column)


def direct_a(hp: float, volts: float) -> float:
    """Full-load current in ampere of a motor on direct current.

    The power that table 430.247 has at 120 V for the next larger motor, at ``volts``; below a
    quarter horsepower and above ten in proportion. The table begins at 90 V: that motors of 12 V
    take no less is common practice, no source.
    """
    sizes = [(_number(row["hp"]), float(row["flc_120V_A"])) for row in read_csv(_DIRECT)]
    least = next((each for each in sizes if each[0] >= 0.999 * hp), sizes[-1])
    beyond = hp < sizes[0][0] or hp > sizes[-1][0]
    share = hp / least[0] if beyond else 1.0
    return share * least[1] * _DIRECT_V / volts


def scaled_a(hp: float, volts: float) -> float:
    """Full-load current in ampere of a single-phase motor that the table does not cover: that of
    its row at 230 V in proportion to the voltage, beyond 10 hp to the power (practice, no source).
    """
    fitting = [row for row in _rows() if row["hp"] >= 0.999 * hp] or [_rows()[-1]]
    share = max(hp / fitting[0]["hp"], 1.0)
    return share * fitting[0]["230"] * 230.0 / volts


@cache
def _rows() -> tuple[dict[str, float], ...]:
    """Horsepower under "hp", ampere under the voltage of each column."""
    return tuple(
        {"hp": _number(row["hp"])}
        | {v: float(row[f"flc_{v}V_A"]) for v in ("115", "200", "208", "230")}
        for row in read_csv(_TABLE)
    )


def _number(text: str) -> float:
    """1.5 for "1-1/2"."""
    whole, _, part = text.rpartition("-")
    above, _, below = part.partition("/")
    return float(whole or 0) + float(above) / float(below or 1)
