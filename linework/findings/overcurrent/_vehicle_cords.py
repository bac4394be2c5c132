"""Cords to the inlet of a vehicle, where a standard gives their least size."""

from __future__ import annotations

from collections.abc import Iterator

from linework.codes import CodesError, configuration, size_of
from linework.findings.mending import resize
from linework.findings.model import Evidence, Hit, Level
from linework.findings.view import View
from linework.study.wires.ratings import rules_of
from linework.words import N_

MESSAGE = N_(
    "{cord} leads to the {amps} A inlet {inlet} with conductors of {size}; the cord of a vehicle"
    " must have {least} there, whatever its plugs say: it is long, and coiled or in the sun it runs"
    " hot."
)


def vehicle_cords(view: View) -> Iterator[Hit]:
    """One hit for each that is thinner; none where the family has no sizes for them."""
    for cord, inlet in _to_inlets(view):
        if not view.place_of(inlet).on_wheels:
            continue
        try:
            amps = configuration(view.values(inlet).text("configuration")).amps
            least = rules_of(view.design).vehicle_cord(amps)
        except CodesError:
            continue
        values = view.values(cord) if view.run(cord) is None else view.run_values(cord)
        if least is None or not values.has("size"):
            continue
        size = size_of(values.text("size"))
        if size.cmil < size_of(least.value).cmil:
            yield Hit(
                Level.WARNING,
                (cord,),
                MESSAGE,
                {
                    "cord": view.name(cord),
                    "inlet": view.name(inlet),
                    "amps": f"{amps:g}",
                    "size": size.text,
                    "least": least.value,
                },
                (
                    Evidence(N_("area needed"), size_of(least.value).area_mm2, "area"),
                    Evidence(N_("area"), size.area_mm2, "area"),
                ),
                touches=frozenset({inlet}),
                mend=resize(view, cord, least.value),
                clause=view.clause({"INT": least.clause.removeprefix("IEC 60364 ")}),
            )


def _to_inlets(view: View) -> Iterator[tuple[str, str]]:
    """Each cord, drawn as a run or as a cord set, with the inlet on which it goes."""
    for inlet in view.parts_that(lambda kind: kind.lets_in):
        if not view.values(inlet).has("configuration"):
            continue
        for run in view.design.runs_at(inlet):
            if view.run_values(run.id).pick("installation") == "cord":
                yield run.id, inlet
        yield from ((cord, inlet) for cord in _on(view, inlet))


def _on(view: View, part: str) -> Iterator[str]:
    """The cord set on an inlet, and those beyond it, adapters between them or not."""
    for seat in view.design.seats_of(part):
        kind = view.kind(seat.host)
        if kind.cord:
            yield seat.host
        if kind.loose:
            yield from _on(view, seat.host)
