"""A fault to metal that nothing ends in time.

What is checked
    In every state and case, for a dead short from each live conductor to the
    ground wire or body at every terminal: the voltage on touchable metal, and
    what ends it, with the slowest edge of every device and the weakest source;
    and whether a conductor passes its limit temperature before it is ended.
Why it matters
    Metal stays at a voltage that kills until somebody switches off, or until a
    conductor burns.
How to cure it
    Give the fault a way back of low resistance (bond, whole and thicker ground
    wire), a ground-fault device, or a smaller breaker. Never a rod.
Limits
    Limits of voltage and time are those of IEC 60364-4-41 table 41.1; North
    America has none, there they are practice: a current below twice the
    rating of the device counts as not cleared, below five times as slow. Heat
    is judged up to five seconds and by the fast edge of a device, unless its
    maker states its magnetic release: what is told as burnt burns for certain,
    the maker's let-through figure may show more. A breaker whose release is not
    given and decides is told among the values assumed. Live conductors behind an
    ordinary breaker are taken to be tested with it. A first fault of direct
    current that floats drives nothing and is no danger on grounded metal.
Sources
    NFPA 70 (2023) 250.4(A)(5), 110.10; IEC 60364-4-41 411.3.2; IEC 60364-4-43
    434.5.2; IEC 60949.
"""

from __future__ import annotations

from collections.abc import Iterator

from linework.codes import CodesError
from linework.findings.grounding._levels import missing_bond_level
from linework.findings.grounding._sound import sound_outlets
from linework.findings.model import Evidence, Hit, Level, Outcome
from linework.findings.rule import Rule
from linework.findings.view import Look, View
from linework.study.answers.scorched import Scorched, scorched
from linework.study.answers.shocks import Shock, shocks, touched
from linework.study.wires.ratings import rules_of
from linework.words import N_

NO_RETURN = N_(
    "A fault to metal at {where} drives no current: nothing trips, and metal can take the voltage"
    " of {source}."
)
STAYS = N_(
    "A fault to metal at {where} leaves {volts} V on it, and nothing opens in time: {amps} A flow."
)
HELD_DOWN = N_(
    "A fault to metal at {where} leaves {volts} V on it, and nothing opens in time: {amps} A flow,"
    " held down most by {run}."
)
BURNS = N_(
    "A fault to metal at {where} heats {run} beyond {limit} C before it is ended: {amps} A for"
    " {seconds} s."
)


def check(view: View) -> Iterator[Outcome]:
    """One hit for each source or cut-off metal without a return, one for each place that stays
    live, one for each conductor that burns; outlets at which every fault ends are sound."""
    for look in view.settled_looks:
        lost: dict[tuple[tuple[str, ...], int | None], list[Shock]] = {}
        stays: list[Shock] = []
        for shock in shocks(look.studies, view.design):
            if not shock.returns and shock.system_v > shock.limit_v:
                metal = _cut_off(look, shock)
                if metal is not None or _alternating(look, shock):
                    lost.setdefault((shock.owners, metal), []).append(shock)
            elif shock.returns and shock.dangerous and not_cleared(view, look, shock):
                stays.append(shock)
        yield from (_stays(view, look, shock) for shock in _at_metal(look, stays))
        for (owners, metal), group in lost.items():
            hit = _no_return(view, look, owners, metal, group)
            if hit.level > Level.NOTE or look.studies.energised.fed:
                yield hit
        for item in scorched(look.studies, view.design):
            yield _burns(view, look, item)
    yield from sound_outlets(view)


def _at_metal(look: Look, found: list[Shock]) -> list[Shock]:
    """Those at parts with metal of their own, and of the rest those that no such tells of."""
    situation = look.studies.situation
    label = situation.metallic
    own = {metal.owner for metal in situation.circuit.metals}
    told = {label[s.fault.point.to_node] for s in found if s.fault.point.part in own}
    return [
        s for s in found if s.fault.point.part in own or label[s.fault.point.to_node] not in told
    ]


def _cut_off(look: Look, shock: Shock) -> int | None:
    """The metal that is cut off from a bonded source; None where the source lacks the link."""
    bonded = any(set(n.owners) & set(shock.owners) and n.bonds for n in look.studies.neutrals)
    return look.studies.situation.metallic[shock.fault.point.to_node] if bonded else None


def _alternating(look: Look, shock: Shock) -> bool:
    """Whether a source of alternating current lacks its link. Direct current without one floats on
    purpose: a first fault joins it to metal that is grounded, and ground-open asks who finds it."""
    return any(s.owner in shock.owners and s.is_ac for s in look.studies.situation.systems)


def driven(look: Look, shock: Shock) -> tuple[float, float]:
    """The least fault current over the rating of the device that it drives hardest, and that
    rating in ampere; 0 and 0 without one."""
    devices = look.studies.circuit.devices
    found = [
        (amps / devices[index].data.rating_a, devices[index].data.rating_a)
        for index, amps in shock.fault.weak.device_a.pairs()
    ]
    return max(found, default=(0.0, 0.0))


def not_cleared(view: View, look: Look, shock: Shock) -> bool:
    """Whether a dangerous shock counts as not cleared rather than as slow."""
    try:
        least = rules_of(view.design).clearing_multiple().value
    except CodesError:  # a family without such a limit: every one counts
        return True
    return driven(look, shock)[0] < least


def _no_return(
    view: View, look: Look, owners: tuple[str, ...], metal: int | None, group: list[Shock]
) -> Hit:
    places = touched(look.studies.situation, group)
    volts = max(shock.system_v for shock in group)
    return look.hit(
        missing_bond_level(view, look, owners) if metal is None else Level.DANGER,
        owners if metal is None else places,
        NO_RETURN,
        {
            "where": ", ".join(view.name(p) for p in places),
            "source": ", ".join(view.name(o) for o in owners),
        },
        (
            Evidence(N_("fault current"), 0.0, "current"),
            Evidence(N_("voltage that metal can take"), volts, "voltage"),
        ),
        touches=frozenset({*places, *(shock.fault.point.part for shock in group)}),
    )


def _stays(view: View, look: Look, shock: Shock) -> Hit:
    point, worst, run = shock.fault.point, shock.worst, _narrowest(look, shock)
    return look.hit(
        Level.DANGER,
        (point.part,),
        HELD_DOWN if run else STAYS,
        {
            "where": view.name(point.part),
            "run": view.name(run) if run else "",
            "volts": f"{shock.metal_v:.0f}",
            "amps": f"{shock.fault.weak.current_a:.3g}",
        },
        (
            Evidence(N_("voltage on metal"), shock.metal_v, "voltage"),
            Evidence(N_("least fault current"), shock.fault.weak.current_a, "current"),
            Evidence(N_("latest end"), worst.latest_s, "time"),
            Evidence(N_("allowed"), shock.limit_s, "time"),
        ),
    )


def _narrowest(look: Look, shock: Shock) -> str:
    """The run in which the weakest fault current loses most; "" where it passes none."""
    lost: dict[str, float] = {}
    for index, amps in shock.fault.weak.branch_a.pairs():
        branch = look.studies.circuit.branches[index]
        if branch.sort == "run":
            lost[branch.owner] = lost.get(branch.owner, 0.0) + amps * branch.r_hot
    return max(lost, key=lambda run: (lost[run], run), default="")


def _burns(view: View, look: Look, item: Scorched) -> Hit:
    burnt, where = item.burnt, item.shock.fault.point.part
    return look.hit(
        Level.DANGER,
        (item.run,),
        BURNS,
        {
            "where": view.name(where),
            "run": view.name(item.run),
            "limit": f"{burnt.withstand.limit_c:g}",
            "amps": f"{burnt.current_a:.3g}",
            "seconds": f"{burnt.time_s:.2g}",
        },
        (
            Evidence(N_("current in it"), burnt.current_a, "current"),
            Evidence(N_("lasts"), burnt.time_s, "time"),
            Evidence(N_("area that would survive it"), burnt.least_mm2, "area"),
        ),
        touches=frozenset({where}),
        clause=view.clause({"NA": "110.10, 250.4(A)(5)", "INT": "434.5.2"}),
    )


RULE = Rule(
    "fault-not-cleared",
    N_("A fault to metal is not cleared"),
    check,
    {"NA": "250.4(A)(5), 110.10", "INT": "411.3.2"},
    causes=("bond-missing", "ground-open", "rod-as-return", "neutral-used-as-ground"),
    hangs_on=("device-in-grounded-conductor", "polarity-reversed", "neutral-missing", "metal-live"),
)
