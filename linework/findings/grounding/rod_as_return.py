"""Earth as the only way back for a fault.

What is checked
    In every state, for a fault to metal at every terminal: whether its current
    gets back to the source through soil only. That is enough only where a
    ground-fault device ends every such fault in time and the resistance of the
    electrode times its threshold is at most 50 V.
Why it matters
    Soil carries some ampere. No breaker or fuse notices, and the metal stays
    near the full voltage.
How to cure it
    A ground wire back to the source. A rod beside it may stay.
Limits
    Resistances to earth change with the weather; the highest figure given
    counts.
Sources
    NFPA 70 (2023) 250.4(A)(5), 250.54; IEC 60364-4-41 411.5.3.
"""

from __future__ import annotations

from collections.abc import Iterator

from linework.codes import stated
from linework.findings.model import Evidence, Hit, Level, Outcome
from linework.findings.rule import Rule
from linework.findings.view import Look, View
from linework.study.answers.shocks import Shock, shocks
from linework.study.neutral.earth import earthed
from linework.study.shorts.clearing import Ending
from linework.words import N_

MESSAGE = N_(
    "A fault to metal at {where} finds its way back to {source} through soil only: {amps} A flow,"
    " no breaker or fuse notices, and {volts} V stay on the metal."
)
RISES = N_(
    "A fault to metal at {where} finds its way back to {source} through soil only. A ground-fault"
    " device ends it, but {ohms} ohm to earth lift the metal to {volts} V before it notices."
)


def check(view: View) -> Iterator[Outcome]:
    """One hit for all metal that hangs together, and the sources that can make it live."""
    for look in view.settled_looks:
        groups: dict[tuple[int, tuple[str, ...]], list[Shock]] = {}
        for shock in shocks(look.studies, view.design):
            if shock.by_soil and shock.system_v > shock.limit_v:
                here = look.studies.situation.metallic[shock.fault.point.to_node]
                groups.setdefault((here, shock.owners), []).append(shock)
        soil = earthed(look.studies.situation) if groups else {}
        for (here, _), group in groups.items():
            yield from _judged(view, look, soil.get(here, 0.0), group)


def _judged(view: View, look: Look, ohm: float, group: list[Shock]) -> Iterator[Hit]:
    """Silent where a ground-fault device makes the soil enough."""
    lasting = [shock for shock in group if not _ended_by_residual(shock)]
    if lasting:
        yield _hit(view, look, MESSAGE, ohm, lasting, max(s.metal_v for s in lasting))
        return
    threshold_a = max(_threshold_a(look, end) for s in group for end in (s.weak, s.strong))
    rise = ohm * threshold_a
    if rise > stated("common", "electrode_rise").value:
        yield _hit(view, look, RISES, ohm, group, rise)


def _ended_by_residual(shock: Shock) -> bool:
    return all(
        end.by == "ground-fault" and end.latest_s <= shock.limit_s
        for end in (shock.weak, shock.strong)
    )


def _threshold_a(look: Look, end: Ending) -> float:
    """The residual current in ampere at which the device that ends a fault must open."""
    assert end.device is not None
    return look.studies.circuit.sensors[end.device].data.trip_ma.high / 1000.0


def _hit(view: View, look: Look, message: str, ohm: float, group: list[Shock], volts: float) -> Hit:
    parts = tuple(sorted({shock.fault.point.part for shock in group}))
    amps = max(shock.fault.strong.current_a for shock in group)
    return look.hit(
        Level.DANGER,
        parts,
        message,
        {
            "where": ", ".join(view.name(part) for part in parts),
            "source": ", ".join(view.name(owner) for owner in group[0].owners),
            "amps": f"{amps:.3g}",
            "volts": f"{volts:.0f}",
            "ohms": f"{ohm:.3g}",
        },
        (
            Evidence(N_("voltage on metal"), volts, "voltage"),
            Evidence(N_("fault current"), amps, "current"),
            Evidence(N_("its resistance to earth"), ohm, "resistance"),
        ),
        touches=_rods(look, group),
    )


def _rods(look: Look, group: list[Shock]) -> frozenset[str]:
    """The electrodes through which the current goes to earth."""
    situation = look.studies.situation
    here = {situation.metallic[shock.fault.point.to_node] for shock in group}
    return frozenset(
        branch.owner
        for branch in situation.branches
        if branch.sort == "soil"
        and here & {situation.metallic[branch.a], situation.metallic[branch.b]}
    )


RULE = Rule(
    "rod-as-return",
    N_("Earth is the only way back for a fault"),
    check,
    {"NA": "250.4(A)(5), 250.54", "INT": "411.5"},
    causes=("bond-missing", "ground-open"),
)
