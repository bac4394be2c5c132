"""What a run may carry, as installed."""

from __future__ import annotations

from collections.abc import Iterable

from linework.codes import CodesError, Worked, family
from linework.design import Design, Run, pole_map
from linework.kinds import RUN_RATINGS, Values
from linework.wiring import Pole, is_dc, is_protective

_LAID = {
    "cable": "cable",
    "conduit_pvc": "conduit_pvc",
    "conduit_steel": "conduit_steel",
    "free_air": "free_air",
    "cord": "cord",
    "insulation": "insulation",
    "engine": "engine",
    "jumper": "free_air",
}


def run_values(design: Design, run: Run) -> Values:
    """The ratings of a run, ready to be read."""
    return Values(RUN_RATINGS, run.ratings, {}, design.setting_answers())


def carrying(poles: Iterable[Pole]) -> tuple[Pole, ...]:
    """The poles that carry load current."""
    return tuple(p for p in poles if not is_protective(p))


def run_ampacity(design: Design, run: Run, device_a: float | None = None) -> Worked[float]:
    """Ampacity in ampere of the live conductors of a run, with every step.

    ``device_a``: rating of the device at its ends, which decides what its
    terminals may take. CodesError where no table has it; KeyError without a size.
    """
    values = run_values(design, run)
    rules = family(design.settings.family, design.settings.edition)
    size, poles = values.text("size"), [p for p, _ in pole_map(design, run)]
    if not size:
        raise KeyError("size")
    marked = int(values.pick("terminals")) if values.given("terminals") else None
    terminal = rules.terminal_temperature(size, device_a, marked).value
    laid = _LAID[values.pick("installation")]
    counted = (
        rules.counted_conductors(poles).value if laid == "cord" else len(carrying(poles)) or 1
    )
    return rules.ampacity(
        size,
        values.pick("material"),
        float(values.pick("insulation")),
        laid=laid,
        ambient_c=values.num("ambient"),
        grouped=int(values.opt("grouped") or counted),
        terminal_c=None if laid == "cord" else terminal,
        place=design.settings.place,
        dc_v=_direct_v(design, run, poles),
    )


def _direct_v(design: Design, run: Run, poles: list[Pole]) -> float | None:
    """Voltage of a direct-current run, from the parts at its ends; None on alternating current."""
    if not any(is_dc(p) for p in poles):
        return None
    for end in (run.a, run.b):
        values = design.values(design.part(end.part))
        for key in ("dc_voltage", "voltage"):
            if key in values.declared and values.given(key):
                return values.num(key)
    return 12.0


__all__ = ["CodesError", "carrying", "run_ampacity", "run_values"]
