"""What a run may carry as installed, and the largest device that may protect it."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace
from fractions import Fraction
from typing import Literal

from linework.circuit.conductors import pole_size
from linework.codes import (
    CodesError,
    Family,
    GroundNeed,
    Sourced,
    Step,
    Worked,
    family_of,
    size_of,
    standard_sizes,
    stated,
)
from linework.design import Design, End, PlaceKind, Run, pole_map
from linework.kinds import Values
from linework.study.stands import place_of_run
from linework.study.walks import going
from linework.wiring import Pole, is_dc, is_protective
from linework.words import say

DeviceKind = Literal["breaker", "fuse"]


def rules_of(design: Design) -> Family:
    """The family that a design is judged by; one without answers where it is not known."""
    return family_of(design.settings.family, design.settings.edition)


def carrying(poles: Iterable[Pole]) -> tuple[Pole, ...]:
    """The poles that carry load current."""
    return tuple(p for p in poles if not is_protective(p))


def kind_of_device(curve: str) -> DeviceKind:
    """Whether a time-current curve is that of a breaker or of a fuse."""
    return "breaker" if curve == "breaker" or curve.startswith("iec_") else "fuse"


def run_ampacity(design: Design, run: Run, device_a: float | None = None) -> Worked[float]:
    """Ampacity in ampere of the live conductors of a run, with every step.

    ``device_a``: rating of the device at its ends, which decides what its terminals may take.
    Conductors of other runs count where ``grouped`` says so, or where they name the same raceway.
    Low-voltage direct current in vehicles takes the table for boats, which is made for such
    conductors; terminals are not looked at there (common practice, no source). CodesError where
    no table has it; KeyError without a size.
    """
    values, rules = design.run_values(run), rules_of(design)
    size, poles = values.text("size"), [p for p, _ in pole_map(design, run)]
    if not size:
        raise KeyError("size")
    laid = values.pick("installation")
    counted = rules.counted_conductors(poles).value if laid == "cord" else len(carrying(poles)) or 1
    marked = int(values.pick("terminals")) if values.given("terminals") else None
    terminal = rules.terminal_temperature(size, device_a, marked).value
    low = low_voltage(design, run)
    return rules.ampacity(
        size,
        values.pick("material"),
        float(values.pick("insulation")),
        laid="free_air" if laid == "jumper" else laid,
        ambient_c=values.num("ambient"),
        grouped=int(values.opt("grouped") or max(counted, _in_raceway(design, values))),
        terminal_c=None if laid == "cord" or low else terminal,
        place=PlaceKind.BOAT if low else place_of_run(design, run).value,
        dc_v=direct_v(design, run),
    )


def _in_raceway(design: Design, values: Values) -> int:
    """How many current-carrying conductors lie in the raceway that a run names."""
    raceway = values.text("raceway")
    if not raceway or not values.pick("installation").startswith("conduit"):
        return 0
    runs = (run for run in design.runs if run.ratings.get("raceway") == raceway)
    return sum(len(carrying(p for p, _ in pole_map(design, run))) for run in runs)


def low_voltage(design: Design, run: Run) -> bool:
    """Whether a run belongs to the direct-current wiring below 50 V of a vehicle or boat."""
    volts = direct_v(design, run)
    aboard = place_of_run(design, run).aboard
    return aboard and volts is not None and volts < stated("common", "low_voltage").value


def direct_v(design: Design, run: Run) -> float | None:
    """Voltage of a direct-current run: of the nearest part that has one; None on alternating
    current.

    What is marked on fuses, breakers and switches is the most that they stand, and is looked
    through; so are busbars, boxes and boards. 12 V where no part tells.
    """
    asked = ("direct voltage", run.a, run.b, run.poles)
    return design.worked_out(asked, lambda: _direct_v(design, run))


def _direct_v(design: Design, run: Run) -> float | None:
    if not any(is_dc(pole) for pair in pole_map(design, run) for pole in pair):
        return None

    def through(part: str) -> Iterable[tuple[End, str]]:
        looked = design.kind(design.part(part)).passes_on
        return ((end, end.part) for end in (_neighbours(design, part) if looked else ()))

    own = {run.b.part: run.b, run.a.part: run.a}
    for part, step in going((run.a.part, run.b.part), through):
        volts = _own_dc_v(design, own[part] if step is None else step[0])
        if volts is not None:
            return volts
    return 12.0


def _own_dc_v(design: Design, end: End) -> float | None:
    """The direct voltage that a part gives at a terminal; that of a string for a solar array."""
    part = design.part(end.part)
    values = design.values(part)
    if design.kind(part).source.solar and values.given("voc"):
        return values.num("voc") * values.num("series")
    if end.terminal == "pv":
        return None
    own = ("in_voltage",) if end.terminal == "dc_in" else ("dc_voltage", "voltage")
    told = [values.declared[k] for k in own if k in values.declared]
    keys = [rating.key for rating in told if values.given(rating.key) and not rating.marking]
    return values.num(keys[0]) if keys else None


def _neighbours(design: Design, part: str) -> list[End]:
    """The ends of what direct-current runs and seats join to a part."""
    runs = [r for r in design.runs_at(part) if any(is_dc(p) for p, _ in pole_map(design, r))]
    found = [end for run in runs for end in (run.a, run.b) if end.part != part]
    found += [End(seat.host, seat.place) for seat in design.seats_of(part)]
    return found + [End(seat.part, seat.place) for seat in design.seated_in(part)]


def largest_device(
    design: Design,
    run: Run,
    ampacity: Worked[float],
    *,
    device: DeviceKind = "breaker",
    several_outlets: bool = False,
) -> Worked[float]:
    """The largest device in ampere for a run of this ampacity, with every step.

    Fixed wiring: 240.4. Cords: their ampacity without rounding up, and from 16 AWG on a device
    of 20 A (240.5). Low voltage in vehicles: table 552.10(E)(1) up to 10 AWG. Afloat: the next
    standard rating, not above 150 % of the ampacity (ABYC E-11). CodesError where no table has it.
    """
    rules, values = rules_of(design), design.run_values(run)
    size = values.text("size")
    if low_voltage(design, run):
        return _low_voltage_device(design, run, ampacity)
    if values.pick("installation") == "cord":
        return _cord_device(design, size, ampacity)
    return rules.largest_device(
        ampacity, size, values.pick("material"), device=device, several_outlets=several_outlets
    )


def thin_limit(design: Design, run: Run) -> Worked[float] | None:
    """The largest device in ampere for fixed wiring so thin that the ampacity tables end above it
    (240.4(D)); None where there is no such limit."""
    values = design.run_values(run)
    fixed = values.pick("installation") != "cord" and not low_voltage(design, run)
    if not fixed:
        return None
    try:
        limit = rules_of(design).small_conductor_limit(values.text("size"), values.pick("material"))
    except CodesError:  # nothing is known: the missing ampacity is told
        return None
    if limit is None:
        return None
    step = Step(say("Small conductor"), "start", limit, limit.value, decides=True)
    return Worked(limit.value, "A", (step,))


def _low_voltage_device(design: Design, run: Run, ampacity: Worked[float]) -> Worked[float]:
    rules, place = rules_of(design), place_of_run(design, run)
    size = design.run_values(run).text("size")
    if place.on_wheels:
        try:
            figure = rules.low_voltage_device(size)
        except CodesError:  # thicker than the table: the next standard rating
            pass
        else:
            return _with(ampacity, say("Low-voltage circuit"), figure)
    up = rules.standard_up(ampacity.value, "fuse")
    if place.afloat:
        most = rules.device_afloat(ampacity.decided_by.figure.became(ampacity.value, "A", size))
        if most.value < up.value:
            return _with(ampacity, say("Next rating is too far up"), most)
    return _with(ampacity, say("Standard rating"), up)


def _cord_device(design: Design, size: str, ampacity: Worked[float]) -> Worked[float]:
    figure = rules_of(design).cord_device(size, ampacity.value)
    if figure is None:
        return ampacity
    what = say("Cord on a circuit of {amps} A", amps=f"{figure.value:g}")
    return _with(ampacity, what, figure)


def _with(ampacity: Worked[float], what: str, figure: Sourced[float]) -> Worked[float]:
    """The result with a last step that sets it."""
    step = Step(what, "next", figure, figure.value, decides=True)
    return Worked(figure.value, "A", (*ampacity.steps, step))


def least_size(
    design: Design,
    run: Run,
    device_a: float,
    *,
    device: DeviceKind = "breaker",
    several_outlets: bool = False,
) -> str | None:
    """The thinnest American size, thicker than the run's own, that a device may protect as laid.

    None where the tables have none.
    """

    def found() -> str | None:
        own = size_of(design.run_values(run).text("size")).cmil
        return _fitting_size(design, run, device_a, device, several_outlets, _sizes_above(own))

    return design.worked_out(("least size", run, device_a, device, several_outlets), found)


def thinnest_size(
    design: Design, run: Run, device_a: float, *, device: DeviceKind = "breaker"
) -> str | None:
    """The thinnest American size that a device may protect as the run is laid; None as above."""
    return _fitting_size(design, run, device_a, device, False, standard_sizes())


def size_carrying(design: Design, run: Run, amps: float) -> str | None:
    """The thinnest American size, thicker than the run's own, that carries a current as laid."""
    for text in _sizes_above(size_of(design.run_values(run).text("size")).cmil):
        try:
            if run_ampacity(design, resized(run, text), amps).value >= amps:
                return text
        except CodesError:
            continue
    return None


def pole_ampacity(
    design: Design, run: Run, pole: Pole, device_a: float | None = None
) -> Worked[float]:
    """As :func:`run_ampacity`, for a pole that may have a size of its own."""
    return run_ampacity(design, resized(run, pole_size(design.run_values(run), pole)), device_a)


def plain_ampacity(
    design: Design, run: Run, pole: Pole, device_a: float | None = None
) -> Worked[float]:
    """As :func:`pole_ampacity`, before corrections for heat and grouping (210.19(A)(1))."""
    return pole_ampacity(design, _cool(run), pole, device_a)


def _cool(run: Run) -> Run:
    """The run where nothing is corrected for heat and grouping."""
    ratings = run.ratings.with_answer("ambient", "30 degC").with_answer("grouped", "3")
    return replace(run, ratings=ratings)


def in_parallel(design: Design, run: Run, ampacity: Worked[float]) -> Worked[float]:
    """The ampacity of a run with its twins: equal conductors of 1/0 AWG or thicker, of one length,
    joined at both ends (310.10(G), from memory); thinner ones do not count."""
    size = design.run_values(run).text("size")
    number = sum(_is_twin(run, other) for other in design.runs_at(run.a.part))
    figure = rules_of(design).parallel(size, number) if size and number > 1 else None
    if figure is None:
        return ampacity
    together = ampacity.value * figure.value
    step = Step(say("Conductors in parallel"), "times", figure, together, decides=True)
    return Worked(together, "A", (*ampacity.steps, step))


def _is_twin(run: Run, other: Run) -> bool:
    same_ends = {run.a, run.b} == {other.a, other.b}
    same_poles = (run.a, run.poles) == (other.a, other.poles) or run.poles is other.poles is None
    return same_ends and same_poles and run.ratings == other.ratings


def _fitting_size(
    design: Design,
    run: Run,
    device_a: float,
    device: DeviceKind,
    several_outlets: bool,
    sizes: Iterable[str],
) -> str | None:
    for text in sizes:
        try:
            thicker = resized(run, text)
            ampacity = run_ampacity(design, thicker, device_a)
            allowed = largest_device(
                design, thicker, ampacity, device=device, several_outlets=several_outlets
            )
        except CodesError:
            continue
        if device_a <= allowed.value:
            return text
    return None


def ground_wire_need(
    design: Design,
    run: Run,
    device_a: float,
    *,
    device: DeviceKind = "breaker",
    full_load: bool = False,
) -> GroundNeed:
    """The ground wire that a run needs behind a device, in its own metal, with every step.

    Grown with the conductors where these are thicker than the device asks for as laid. 250.122(B)
    measures from the least size with "sufficient ampacity for the intended installation": that is
    the least that the device may protect, rounded up to a standard rating by 240.4(B), as the
    published example of 300 A on 250 kcmil (255 A) has it; but where the load asks for all that the
    device gives (``full_load``), the least that carries that. A cord is made with its ground wire
    and comes behind whatever outlet there is: it is taken by the table alone. CodesError where no
    table has it; KeyError without a size.
    """
    values = design.run_values(run)
    size, metal = values.text("size"), values.pick("material")
    if not size:
        raise KeyError("size")
    cord = values.pick("installation") == "cord"
    least = [
        None if cord else _fitting_size(design, each, device_a, device, full_load, standard_sizes())
        for each in (run, _cool(run))
    ]
    return rules_of(design).ground_wire(
        device_a,
        size,
        minimum_size=least[0],
        minimum_cool=least[1],
        material=metal,
        circuit_material=metal,
    )


def _sizes_above(cmil: Fraction) -> list[str]:
    return [text for text in standard_sizes() if size_of(text).cmil > cmil]


def resized(run: Run, size: str) -> Run:
    """The run with another size, for a pole that has one of its own or for a trial."""
    return replace(run, ratings=run.ratings.with_answer("size", size))


__all__ = [
    "CodesError",
    "DeviceKind",
    "carrying",
    "direct_v",
    "ground_wire_need",
    "in_parallel",
    "kind_of_device",
    "largest_device",
    "least_size",
    "low_voltage",
    "plain_ampacity",
    "pole_ampacity",
    "resized",
    "rules_of",
    "run_ampacity",
    "size_carrying",
    "thin_limit",
    "thinnest_size",
]
