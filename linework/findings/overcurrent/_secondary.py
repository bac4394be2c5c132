"""Short conductors behind a transformer, up to the single device in which they end."""

from __future__ import annotations

import math

from linework.circuit.model import LiveSource
from linework.codes import CodesError
from linework.findings.mending import change_part
from linework.findings.model import Clear, Mend
from linework.findings.view import Look, View
from linework.quantity import write
from linework.study.slack import within
from linework.study.ways.leads import Lead
from linework.study.ways.protection import Guard, guards
from linework.study.ways.windings import Core, cores, drivers
from linework.study.wires.ratings import largest_device, rules_of
from linework.words import N_, say

SHORT = N_(
    "{run} may do without a device at {source}: it is short, ends in {device} alone, and carries"
    " what that lets through."
)


def short_secondary(view: View, look: Look, lead: Lead, source: LiveSource) -> Clear | None:
    """Why a conductor behind a transformer needs no device at its beginning (240.21(C)(2) and (6));
    None where it does.

    It ends in one device that it carries, its length is known and allowed, and it carries a part
    of what the device before the transformer lets through. CodesError where no table tells.
    """
    run, core = view.run(lead.feed.run), _core(look, lead)
    if run is None or core is None or len(lead.devices) != 1 or lead.far_m is None:
        return None
    device = look.studies.circuit.devices[lead.devices[0]]
    ampacity = view.ampacities.of_run(run).value
    before_a = _before_a(look, source, core)
    fits = within(device.data.rating_a, ampacity) and any(
        within(lead.far_m, most.value) and within(before_a, times.value * ampacity)
        for most, times in rules_of(view.design).taps()
    )
    if not fits:
        return None
    words = {
        "run": view.name(run.id),
        "source": view.name(source.owner),
        "device": view.name(device.owner),
    }
    return Clear((run.id,), SHORT, words, view.clause({"NA": "240.21(C)"}))


def _core(look: Look, lead: Lead) -> Core | None:
    """The transformer whose winding feeds it."""
    winding = lead.feed.system.source
    return next((c for c in cores(look.studies.situation) if winding in c.windings), None)


def _before_a(look: Look, source: LiveSource, core: Core) -> float:
    """What the device before a transformer lets through to its secondary, all windings as one."""
    situation = look.studies.situation
    turns = sum(situation.circuit.sources[i].data.turns for i in core.windings)
    rated = (
        guards(situation, system).get(node, Guard()).rating_a
        for system, node in drivers(situation, source)
    )
    return max(rated, default=math.inf) / turns


def breaker_mend(view: View, look: Look, lead: Lead, source: LiveSource) -> Mend | None:
    """A breaker on the transformer itself, as large as run and windings allow."""
    run, core, values = view.run(lead.feed.run), _core(look, lead), view.values(source.owner)
    if run is None or core is None or "breaker" not in values.declared or values.has("breaker"):
        return None
    try:
        most = largest_device(view.design, run, view.ampacities.of_run(run), device="breaker").value
        rated = max(core.windings.values())
        behind = rules_of(view.design).transformer_device("secondary", rated).value
        amps = _standard_down(view, min(most, behind))
    except CodesError:
        return None
    if not amps or look.studies.loaded.amps(lead.feed.branch) > amps:
        return None
    words = {"what": view.name(source.owner), "amps": f"{amps:g}"}
    title = say("Fit a breaker of {amps} A on the secondary of {what}", **words)
    return change_part(title, source.owner, {"breaker": write(amps, "current")})


def _standard_down(view: View, most: float) -> float:
    """The greatest standard rating of breakers not above ``most`` ampere; zero where none is."""
    found, amps = 0.0, rules_of(view.design).standard_up(1.0, "breaker").value
    while amps <= most:
        found, amps = amps, rules_of(view.design).standard_up(amps + 0.1, "breaker").value
    return found
