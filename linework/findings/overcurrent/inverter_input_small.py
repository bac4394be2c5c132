"""Wires or devices between a battery and an inverter, too small for the inverter's rating.

What is checked
    In every state in which it inverts: the current that the inverter takes when
    it gives its continuous rating from a battery at its lowest voltage, 125 %
    of it against the devices that let it through, and against the ampacity of
    the conductors through which all of it flows, before corrections for heat
    and grouping; the current itself against their ampacity as laid and the
    rating of switches. Drawn loads on the same conductors count besides. What is
    good for the current, and not for 125 % of it, is a note. The same of several
    inverters, for what they share: a note where each feeds loads of its own.
Why it matters
    It is not the lamps drawn today that decide: a kettle plugged in later draws
    the rating, and the cable cooks or the fuse opens.
How to cure it
    The cable and the fuse that the inverter's maker names, or larger ones.
Limits
    The lowest voltage is taken as 10.5 V on 12 V and the power factor as 1.
    Conductors that share the current of parallel batteries are not judged by
    themselves. Starting currents above the rating last seconds and are left out.
Sources
    NFPA 70 (2023) 690.8(A), (B), 706.31 (all from memory); makers' manuals name
    cable and fuse by the same sum (common practice, no source).
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from linework.circuit.model import Device
from linework.codes import CodesError, size_of
from linework.design import Run
from linework.findings.mending import rerate, resize, together
from linework.findings.model import Evidence, Hit, Level, Mend, NotChecked, Outcome
from linework.findings.overcurrent._inverters_together import (
    DEVICE,
    PART,
    RUN,
    inverters_together,
    weak_text,
)
from linework.findings.rule import Rule
from linework.findings.view import Look, View
from linework.study.answers.trust import loaded_or_none
from linework.study.loads.at_rating import AtRating, at_rating
from linework.study.slack import exceeds
from linework.study.wires.rated import rated_parts
from linework.study.wires.ratings import (
    kind_of_device,
    least_size,
    rules_of,
    size_carrying,
)
from linework.wiring import Pole, is_protective
from linework.words import N_

MESSAGE = N_(
    "{inverter} takes {amps} A when it gives its {rated} VA from a battery at {volts} V, and its"
    " circuit must be made for {needed} A. {weak}."
)
FACTOR = N_(
    "{inverter} takes {amps} A when it gives its {rated} VA from a battery at {volts} V. For hours"
    " on end its circuit must be made for 125 % of that, {needed} A. {weak}."
)
NO_TABLE = N_("{fault}")


@dataclass(frozen=True)
class _Weak:
    """A device, run or switch that is too small, even for what the inverter takes without the
    factor if ``grave``; ``mend``: a way to make it larger."""

    owner: str
    text: str
    good_a: float
    grave: bool
    mend: Mend | None = None


def check(view: View) -> Iterator[Outcome]:
    """One hit for each inverter and state, with all that is too small for it in any state."""
    found: dict[str, list[tuple[Look, AtRating, list[_Weak]]]] = {}
    for look in view.orderly_looks:
        items, grave = at_rating(look.studies.situation), set[str]()
        for item in items:
            try:
                weak = [*_devices(view, look, item), *_wires(view, look, item)]
            except CodesError as fault:
                yield NotChecked(NO_TABLE, {"fault": fault}, (item.load.owner,))
                continue
            grave.update(each.owner for each in weak if each.grave)
            if weak:
                found.setdefault(item.load.owner, []).append((look, item, weak))
        yield from _together(view, look, items, grave)
    for inverter, states in found.items():
        owners = {each.owner for _, _, weak in states for each in weak}
        subjects = (inverter, *sorted(owners, key=view.order))
        for look, item, weak in states:
            yield _hit(view, look, item, weak, subjects)


def _together(
    view: View, look: Look, items: list[AtRating], told: set[str]
) -> Iterator[Hit | NotChecked]:
    try:
        yield from inverters_together(view, look, items, told)
    except CodesError as fault:
        yield NotChecked(NO_TABLE, {"fault": fault}, tuple(item.load.owner for item in items))


def _beside_a(look: Look, item: AtRating, branches: Iterable[int]) -> float:
    """What drawn loads take besides it through any of these, in ampere."""
    loaded = loaded_or_none(look.studies)
    return max((item.beside_a(loaded, i) for i in branches), default=0.0) if loaded else 0.0


def _devices(view: View, look: Look, item: AtRating) -> Iterator[_Weak]:
    """Those that let through too little, together where its batteries have one each."""
    comes, devices = item.devices()
    several = len(devices) > 1
    beside = 0.0 if several else _beside_a(look, item, (i for d in devices for i in d.branches))
    if not exceeds(item.needed_a + beside, comes.amps):
        return
    grave = exceeds(item.amps + beside, comes.amps)
    for device in devices:
        good = device.data.rating_a
        mend = None if several else _larger(view, device, item.needed_a + beside)
        yield _Weak(
            device.owner, weak_text(view, DEVICE, device.owner, good, beside), good, grave, mend
        )


def _larger(view: View, device: Device, amps: float) -> Mend | None:
    if "rating" not in view.kind(device.owner).declared:
        return None
    kind = kind_of_device(device.data.curve)
    return rerate(view, device.owner, rules_of(view.design).standard_up(amps, kind).value)


def _wires(view: View, look: Look, item: AtRating) -> Iterator[_Weak]:
    """Runs and switches through which all of its current flows."""
    circuit, told = look.studies.circuit, set[str]()
    rated = {r.part: r for r in rated_parts(circuit, view.design) if r.given}
    for index in item.alone():
        branch = circuit.branches[index]
        run, beside = view.run(branch.owner), _beside_a(look, item, (index,))
        if branch.owner in told or is_protective(Pole(branch.pole or Pole.POS)):
            continue
        if run is not None and branch.sort == "run" and view.run_values(run.id).has("size"):
            weak = _wire(view, item, run, Pole(branch.pole), beside)
        elif branch.owner in rated and exceeds(item.amps + beside, rated[branch.owner].amps):
            good = rated[branch.owner].amps
            text = weak_text(view, PART, branch.owner, good, beside)
            weak = _Weak(branch.owner, text, good, True)
        else:
            continue
        if weak is not None:
            told.add(branch.owner)
            yield weak


def _wire(view: View, item: AtRating, run: Run, pole: Pole, beside: float) -> _Weak | None:
    needed = item.needed_a + beside
    laid = view.ampacities.of_pole(run, pole, needed).value
    plain = view.ampacities.plain(run, pole, needed).value
    if not exceeds(item.amps + beside, laid) and not exceeds(needed, plain):
        return None
    good, grave = min(laid, plain), exceeds(item.amps + beside, laid)
    mend = _thicker(view, item, run, needed)
    return _Weak(run.id, weak_text(view, RUN, run.id, good, beside), good, grave, mend)


def _thicker(view: View, item: AtRating, run: Run, needed: float) -> Mend | None:
    """A size that carries it and allows the device before it, as that is or is to be."""
    _, devices = item.devices()
    sizes = [size_carrying(view.design, run, needed)]
    for device in devices if len(devices) == 1 else ():
        kind = kind_of_device(device.data.curve)
        rating = max(device.data.rating_a, rules_of(view.design).standard_up(needed, kind).value)
        sizes.append(least_size(view.design, run, rating, device=kind))
    known = [size for size in sizes if size is not None]
    if len(known) < len(sizes):
        return None
    return resize(view, run.id, max(known, key=lambda size: size_of(size).cmil))


def _hit(
    view: View, look: Look, item: AtRating, weak: list[_Weak], subjects: tuple[str, ...]
) -> Hit:
    inverter, grave = item.load.owner, any(each.grave for each in weak)
    return look.hit(
        Level.WARNING if grave else Level.NOTE,
        subjects,
        MESSAGE if grave else FACTOR,
        {
            "inverter": view.name(inverter),
            "amps": f"{item.amps:.0f}",
            "rated": f"{item.rated_va:.0f}",
            "volts": f"{item.volts:.4g}",
            "needed": f"{item.needed_a:.0f}",
            "weak": "; ".join(sorted(each.text for each in weak)),
        },
        (
            Evidence(N_("needed at its rating"), item.needed_a, "current"),
            Evidence(N_("good for"), min(each.good_a for each in weak), "current"),
            Evidence(N_("taken at its rating"), item.amps, "current"),
        ),
        touches=frozenset(system.owner for system in item.stores),
        mend=_mend(weak),
        clause=view.clause({"NA": "690.8(B)"}),
    )


def _mend(weak: list[_Weak]) -> Mend | None:
    """All that is too small made larger at once: one alone would leave the rest."""
    mends = [each.mend for each in weak]
    if not all(mends):
        return None
    known = [mend for mend in mends if mend is not None]
    title = "; ".join(mend.title for mend in known)
    return known[0] if len(known) == 1 else together(title, title, known)


RULE = Rule(
    "inverter-input-small",
    N_("Too small for the inverter's rating"),
    check,
    {"NA": "690.8(B)", "INT": "433.1, 523"},
    causes=(
        "batteries-unlike",
        "battery-turned",
    ),
)
