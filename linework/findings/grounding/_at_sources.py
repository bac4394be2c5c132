"""Ground wires between a source that holds its own current and the first device."""

from __future__ import annotations

import math
from collections.abc import Collection, Iterator

from linework.codes import CodesError, area_mm2
from linework.design import pole_map
from linework.findings.grounding._jumpers import areas
from linework.findings.mending import change_run
from linework.findings.model import Evidence, Hit, Level, NotChecked
from linework.findings.view import Look, View
from linework.study.ways.protection import held_a
from linework.study.wires.ratings import rules_of
from linework.wiring import Pole
from linework.words import N_, say

MESSAGE = N_(
    "The {ground_wire} of {run} is {size}; even behind {source}, which gives no more than {amps} A,"
    " it must be {need} at least."
)
NO_TABLE = N_("{fault}")


def at_sources(view: View, look: Look, told: Collection[str]) -> Iterator[Hit | NotChecked]:
    """One hit for each that is thinner than the table by what the source holds; none for runs that
    a device protects in some state (``told``). How the conductors grew is not known there."""
    for feed in look.studies.feeds:
        run = view.run(feed.run)
        if run is None or not feed.unguarded or not feed.system.is_ac or run.id in told:
            continue
        values, amps = view.run_values(run.id), held_a(look.studies.situation, feed.system)
        wired = any(pole is Pole.PE for pole, _ in pole_map(view.design, run))
        if math.isinf(amps) or not wired or not all(map(values.has, ("size", "ground_size"))):
            continue
        metal, size = values.pick("material"), values.text("ground_size")
        try:
            need = rules_of(view.design).ground_wire(
                amps, values.text("size"), material=metal, circuit_material=metal
            )
        except CodesError as fault:
            yield NotChecked(NO_TABLE, {"fault": fault}, (run.id,))
            continue
        if not need.met_by(size):
            yield _hit(view, look, (run.id, feed.system.owner), size, need.size, amps)


def _hit(view: View, look: Look, places: tuple[str, str], size: str, need: str, amps: float) -> Hit:
    run, source = places
    words = {"run": view.name(run), "source": view.name(source), "size": size, "need": need}
    title = say(
        "Make the {ground_wire} of {what} {size}",
        family=view.family,
        what=view.name(run),
        size=need,
    )
    return look.hit(
        Level.WARNING,
        (run,),
        MESSAGE,
        {**words, "amps": f"{amps:.3g}"},
        (Evidence(N_("most that the source gives"), amps, "current"), *areas(size, area_mm2(need))),
        touches=frozenset({source}),
        mend=change_run(title, run, {"ground_size": need}),
    )
