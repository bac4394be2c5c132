"""A device larger than the conductor it protects.

What is checked
    In every state: for each ungrounded conductor of each run the smallest
    device between it and each source, against the largest that its corrected
    ampacity allows.
Why it matters
    The conductor overheats and the device never notices.
How to cure it
    A smaller device or a thicker conductor.
Limits
    The nameplate of an air conditioner or motor may allow a larger device on
    its own run; the note says when it did. Ground wires are not sized by
    ampacity. Cords on circuits of 20 A are protected by them (240.5).
Sources
    NFPA 70 (2023) 240.4, 240.5, 310.15, 110.14(C), 440.22, 552.10(E)(1).
"""

from __future__ import annotations

from collections.abc import Iterator

from linework.codes import CodesError, Worked, family
from linework.design import Change, Design, Run
from linework.design.edits import rate
from linework.findings.model import Clear, Evidence, Hit, Level, Mend, NotChecked, Outcome, Rule
from linework.findings.view import Look, View
from linework.quantity import write
from linework.study.protection import Feed, feeds_of_runs, smallest
from linework.study.ratings import run_ampacity
from linework.words import N_, say

MESSAGE = N_(
    "{device} of {rating} A protects {run}, whose conductors allow {allowed} A at the most"
    " ({ampacity} A: {decided})."
)
NAMEPLATE = N_(
    "{device} of {rating} A on {run} is larger than its {ampacity} A, and right: the nameplate of"
    " {load} allows {largest} A."
)
NO_TABLE = N_("{fault}")


def check(view: View) -> Iterator[Outcome]:
    """One hit for each run and device."""
    told: set[tuple[str, str]] = set()
    for look in view.settled_looks:
        for feed in feeds_of_runs(look.studies.situation):
            device = smallest(look.studies.situation, feed)
            run = view.run(feed.run)
            if device is None or run is None or not view.run_values(run.id).has("size"):
                continue
            for outcome in _judged(view, look, feed, run):
                key = (feed.run, type(outcome).__name__)
                if isinstance(outcome, Hit) or key not in told:
                    told.add(key)
                    yield outcome


def _judged(view: View, look: Look, feed: Feed, run: Run) -> Iterator[Outcome]:
    device = smallest(look.studies.situation, feed)
    assert device is not None
    rating = device.data.rating_a
    try:
        ampacity, allowed = limits(view, run, rating, device.data.curve)
    except CodesError as fault:
        yield NotChecked(NO_TABLE, {"fault": fault}, (run.id,))
        return
    if rating <= allowed.value * (1.0 + 1e-9) or _carries_all(look, feed, ampacity):
        return
    if _short_lead(view, look, run, feed, allowed.value):
        return
    plate = _nameplate(view, run)
    if plate is not None and rating <= plate[1] and ampacity.value >= plate[2]:
        yield _allowed_by_plate(view, device.owner, rating, run, ampacity, plate)
        return
    yield Hit(
        Level.DANGER,
        (run.id, device.owner),
        MESSAGE,
        {
            "device": view.name(device.owner),
            "rating": f"{rating:g}",
            "run": view.name(run.id),
            "allowed": f"{allowed.value:g}",
            "ampacity": f"{ampacity.value:.3g}",
            "decided": allowed.decided_by.what.lower(),
        },
        (
            Evidence(N_("device"), rating, "current"),
            Evidence(N_("largest allowed"), allowed.value, "current"),
            Evidence(N_("ampacity as installed"), ampacity.value, "current"),
        ),
        look.state,
        look.case,
        frozenset({feed.system.owner}),
        _mend(view, device.owner, allowed.value),
        allowed.clause.removeprefix("NFPA 70 "),
    )


def limits(
    view: View, run: Run, device_a: float, curve: str
) -> tuple[Worked[float], Worked[float]]:
    """Ampacity as installed and the largest device for it. CodesError where no table has it."""
    rules = family(view.family, view.design.settings.edition)
    values = view.run_values(run.id)
    size, material = values.text("size"), values.pick("material")
    ampacity = run_ampacity(view.design, run, device_a)
    kind = "breaker" if curve in ("breaker", "iec_b", "iec_c", "iec_d") else "fuse"
    allowed = rules.largest_device(
        ampacity,
        size,
        material,
        device=kind,  # type: ignore[arg-type]
        several_outlets=_outlets_behind(view, run) > 1,
    )
    return ampacity, allowed


def _outlets_behind(view: View, run: Run) -> int:
    """Outlets at the ends of a run, counted by their faces."""
    count = 0
    for end in (run.a, run.b):
        part = view.part(end.part)
        if part is not None and part.kind == "outlet" and end.terminal == "feed":
            count += int(view.values(part.id).num("duplex"))
    return count


def _carries_all(look: Look, feed: Feed, ampacity: Worked[float]) -> bool:
    """A source that can never drive more than the conductor carries needs no device for it."""
    source = look.studies.circuit.sources[feed.system.source].data
    if source.limit is None or source.rated_a is None:
        return False
    lasting = source.rated_a if source.limit.off_s is not None else source.limit.sustained_a.high
    return lasting <= ampacity.value


def _short_lead(view: View, look: Look, run: Run, feed: Feed, allowed_a: float) -> bool:
    """A battery's lead that ends, within the distance for its place, at a device small enough:
    what it carries in use is bounded by that device, whatever else is joined to the battery."""
    circuit = look.studies.circuit
    if circuit.sources[feed.system.source].data.hertz != 0.0:
        return False
    values = view.run_values(run.id)
    rules = family(view.family, view.design.settings.edition)
    if not values.has("length") or values.num("length") > rules.device_distance_m(view.place).value:
        return False
    ends = {circuit.branches[feed.branch].a, circuit.branches[feed.branch].b}
    return any(
        device.data.rating_a <= allowed_a
        and ends & {n for i in device.branches for n in (circuit.branches[i].a, circuit.branches[i].b)}
        for device in circuit.devices
    )


Plate = tuple[str, float, float]


def _nameplate(view: View, run: Run) -> Plate | None:
    """Load, largest device and least ampacity of the motor on which a run ends."""
    for end in (run.a, run.b):
        part = view.part(end.part)
        if part is None or part.kind != "motor":
            continue
        values = view.values(part.id)
        if values.has("largest_device"):
            least = values.opt("least_ampacity") or 0.0
            return part.id, values.num("largest_device"), least
    return None


def _allowed_by_plate(
    view: View, device: str, rating: float, run: Run, ampacity: Worked[float], plate: Plate
) -> Clear:
    return Clear(
        (run.id, device),
        NAMEPLATE,
        {
            "device": view.name(device),
            "rating": f"{rating:g}",
            "run": view.name(run.id),
            "ampacity": f"{ampacity.value:.3g}",
            "load": view.name(plate[0]),
            "largest": f"{plate[1]:g}",
        },
        "440.22, 240.4(G)",
    )


def _mend(view: View, owner: str, allowed_a: float) -> Mend | None:
    part = view.part(owner)
    if part is None or "rating" not in view.kind(owner).declared:
        return None

    def edit(design: Design) -> Change:
        return rate(design, owner, {"rating": write(allowed_a, "current")})

    title = say("Make {what} {amps} A", what=part.designation, amps=f"{allowed_a:g}")
    return Mend(title, edit)


RULE = Rule(
    "device-above-ampacity",
    N_("Device too large for the conductor"),
    check,
    {"NA": "240.4", "INT": "433.1, 523"},
    causes=("run-unprotected",),
)
