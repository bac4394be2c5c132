"""All that is assumed of one design, each as a band."""

from __future__ import annotations

from collections.abc import Iterator

from linework.supply.assumptions import Assumption, by_figure
from linework.supply.exogenous import Scene
from linework.supply.facts import SetFacts
from linework.supply.figures import figure
from linework.supply.stores import assumptions_of, stores_of
from linework.wiring import Three
from linework.words import N_

_WHOLE_DAY = 24.0


def assumptions(scene: Scene) -> tuple[Assumption, ...]:
    """Every unknown of a scene, under the keys by which the days ask for it."""
    return (
        *_of_place(scene),
        *_of_loads(scene),
        *assumptions_of(scene),
        *_of_arrays(scene),
        *_of_engines(scene),
        *_of_sets(scene),
    )


def _exactly(key: str, what: str, value: float, assumed: bool, part: str = "") -> Assumption:
    return Assumption(key, what, Three.exactly(value), part, assumed)


def _where(key: str, what: str, matters: bool, part: str = "") -> Assumption:
    """The band of a figure where it matters, else only its usual value."""
    found = by_figure(key, what, part)
    return found if matters else _exactly(key, what, found.band.usual, False)


def _of_place(scene: Scene) -> Iterator[Assumption]:
    climate = scene.climate
    spread = Three(1.0 - climate.year_spread, 1.0, 1.0 + climate.year_spread)
    if climate.assumed:
        yield by_figure(
            "sun-anywhere", N_("sun of a whole year, over that of the place"), name="sun"
        )
    else:
        yield Assumption("sun", N_("sun of a whole year, over its mean"), spread, assumed=False)
    known = "warmth-known" if climate.known and not climate.assumed else "warmth-guessed"
    yield by_figure(known, N_("warmth of a whole year"), name="warmer")


def _of_loads(scene: Scene) -> Iterator[Assumption]:
    for load in scene.facts.loads:
        given = load.habit.given
        band = figure("habit-given" if given else "habit-assumed").band
        if load.habit.use == "never":
            band = Three.exactly(1.0)
        told = f"{load.habit.row}: {load.habit.hours:g} h, {100.0 * load.habit.share:.0f} %"
        what = N_("how long it runs, over its hours a day and its share of them")
        note = "" if given else told
        yield Assumption(f"use:{load.part}", what, band, load.part, not given, note)
    yield by_figure("charger-loss", N_("losses of converters"), name="converter-losses")


def _of_arrays(scene: Scene) -> Iterator[Assumption]:
    charges = [c for w in scene.plant.wirings.values() for c in w.charges if c.suns]
    yield _where("array-losses", N_("dirt, shade and wires of the array"), bool(charges))
    joins = any(c.joins for c in charges)
    yield _where("joined-harvest", N_("harvest of a controller without tracking"), joins)
    for array in scene.facts.arrays.values():
        if not array.tilt_given:
            yield _exactly(
                f"tilt:{array.part}", N_("tilt in degrees"), array.tilt, True, array.part
            )
        if not array.mount_given:
            what = N_("air behind it: 1 on a rack, 0 flat on a roof")
            yield _exactly(f"air:{array.part}", what, float(not array.flush), True, array.part)
    lithium = any(s is not None and not (s.lead or s.kept_warm) for s in stores_of(scene))
    yield _where("lithium-charge-above", N_("cold in which lithium takes no charge"), lithium)


def _of_engines(scene: Scene) -> Iterator[Assumption]:
    modes, facts = scene.plant.wirings, scene.facts
    engine = any(mode.engine for mode in modes)
    yield _where("alternator-share", N_("what the alternator really gives"), engine)
    if engine and facts.driven_hours is None:
        yield by_figure("driven-hours", N_("hours a day that the engine runs"), name="driven")
    else:
        hours = facts.driven_hours or 0.0
        yield _exactly("driven", N_("hours a day that the engine runs"), hours, False)
    usual = 0.0 if facts.aboard else _WHOLE_DAY
    shore = any(mode.shore for mode in modes)
    hours = usual if facts.plugged_hours is None else facts.plugged_hours
    yield _exactly(
        "plugged", N_("hours a day on shore"), hours if shore else 0.0,
        shore and facts.plugged_hours is None,
    )  # fmt: skip


def _of_sets(scene: Scene) -> Iterator[Assumption]:
    sets = sorted(scene.facts.sets.values(), key=lambda each: -each.va)
    first = sets[0] if sets else None
    part = "" if first is None else first.part
    yield _where("altitude-loss", N_("power that the set loses with height"), bool(sets), part)
    yield _where("set-power-factor", N_("watts over volt-amperes of the set"), bool(sets), part)
    yield _where("fuel", N_("what the set burns"), bool(sets), part)
    if first is not None and not first.quiet_given:
        start, end = first.quiet
        yield _exactly("quiet-from", N_("hour from which it does not run"), start, True, part)
        yield _exactly("quiet-until", N_("hour until which it does not run"), end, True, part)
    if first is not None and not first.fuel_given:
        what = N_("it burns gasoline (1)")
        yield _exactly("fuel-kind", what, 1.0, True, part)
    lead = any(s is not None and s.lead for s in stores_of(scene)[:1])
    yield _rule(first, "starts_at", "set-starts", "set-starts", N_("charge at which it is started"))
    stops = "set-stops-lead" if lead else "set-stops-lithium"
    yield _rule(first, "stops_at", "set-stops", stops, N_("charge at which it is stopped"))


def _rule(first: SetFacts | None, field: str, name: str, row: str, what: str) -> Assumption:
    given = None if first is None else getattr(first, field)
    part = "" if first is None else first.part
    if first is None or given is not None:
        value = figure(row).usual if given is None else given
        return _exactly(name, what, value, False, part)
    return by_figure(row, what, part, name)
