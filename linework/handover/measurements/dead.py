"""What is looked at and measured with everything off: looks, wires, joints, links, polarity."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from linework.circuit.conductors import pole_size, wire_ohm
from linework.design import Part, Run, pole_map
from linework.design.names import natural
from linework.handover.charged_banks import banks
from linework.handover.content import Content
from linework.handover.devices import schedule_sheet
from linework.handover.ends import end_text
from linework.handover.measurements.line import (
    Block,
    Bounds,
    Measurement,
    basis,
    chosen,
    names,
)
from linework.kinds import OneOf, Values
from linework.quantity import show
from linework.wiring import Pole, SourceGroup, is_protective
from linework.words import N_

CLIPS_OHM = 0.1
"""What the clips and joints may add to a wire's own resistance (common practice, no source)."""
_JOINED, _APART = ((None, 1.0),), ((1e5, None),)
"""In ohm, of a joint and of what must not be one (common practice, no source)."""

LINKS = {"NA": "250.24(A)(5), 250.30(A)(1), 551.54(C)", "INT": "61.6.4.3.2"}
POLARITY = {"NA": "200.11, 551.60", "INT": "61.6.4.3.6"}
LOOK = {"NA": "110.3(B), 110.12, 110.14(D)", "INT": "61.6.4.2"}
AUDIT = {"NA": "110.9, 240.4", "INT": "434.5"}
"""What asks for them; from memory."""


def looks(content: Content) -> Iterator[Measurement]:
    """What eyes and a torque wrench tell, and the devices against their schedule."""
    say = content.say
    yield Measurement(
        "look",
        Block.DEAD,
        say("Look: as drawn, terminals at their torque, nothing damaged, placards in place"),
        "",
        say("all so"),
        basis=basis(content, LOOK),
    )
    circuit = content.circuit
    owners = {device.owner for device in circuit.devices}
    owners -= {p.id for p in content.design.parts if content.design.kind(p).source.off_site}
    if owners:
        yield Measurement(
            "devices",
            Block.DEAD,
            say(
                "Rating, poles and breaking figure on each of: {parts}",
                parts=names(content, owners),
            ),
            "",
            say("as sheet {sheet}", sheet=schedule_sheet(content)),
            basis=basis(content, AUDIT),
        )


def grounds(content: Content) -> Iterator[Measurement]:
    """Each ground wire and bonding jumper from end to end."""
    for run in sorted(content.design.runs, key=lambda r: natural(content.name(r.id))):
        values = content.design.run_values(run)
        pole = next((p for p, _ in pole_map(content.design, run) if is_protective(p)), None)
        jumper = values.pick("installation") == "jumper"
        if pole is None and not jumper:
            continue
        pole = pole or next((p for p, _ in pole_map(content.design, run)), Pole.PE)
        wire = wire_ohm(values, pole, 0.0)
        told = N_("Joint {a} to {b}") if jumper else N_("Ground {a} to {b}")
        yield Measurement(
            f"ground:{run.id}",
            Block.DEAD,
            content.say(told, a=end_text(content, run.a), b=end_text(content, run.b)),
            _wire_words(content, run, pole),
            _ohms(wire.cold) if wire.known else content.say("joined"),
            content.say("+{ohm} Ω [p]", ohm=CLIPS_OHM),
            "Ω",
            ((None, wire.cold + CLIPS_OHM),) if wire.known else _JOINED,
        )


def _ohms(ohm: float) -> str:
    return f"{ohm:.3f} Ω" if ohm >= 0.0005 else "< 0.001 Ω"


def _wire_words(content: Content, run: Run, pole: Pole) -> str:
    values = content.design.run_values(run)
    size = pole_size(values, pole)
    length = (
        show(values.num("length"), "length", family=content.family) if values.has("length") else ""
    )
    return ", ".join(filter(None, (content.name(run.id), length, size)))


def links(content: Content) -> Iterator[Measurement]:
    """Where neutral and ground are joined with everything off, and where not."""
    for part in chosen(content, lambda part: "bond" in content.design.kind(part).declared):
        values = content.design.values(part)
        if not values.applies("bond"):
            continue
        fitted = _known(values, "bond", "fitted")
        yield Measurement(
            f"link:{part.id}",
            Block.DEAD,
            content.say("{Neutral} to {ground} at {part}, feeder off", part=part.designation),
            "",
            _joined_words(content, fitted),
            unit="Ω",
            bounds=_BOUNDS[fitted],
        )
    for part in chosen(content, lambda part: content.design.kind(part).source is SourceGroup.SET):
        values = content.design.values(part)
        if "neutral" not in values.declared or not values.applies("neutral"):
            continue
        bonded = _known(values, "neutral", "bonded")
        yield Measurement(
            f"link:{part.id}",
            Block.DEAD,
            content.say(
                "{Neutral} to frame at an outlet of {part}, stopped", part=part.designation
            ),
            "",
            _joined_words(content, bonded),
            unit="Ω",
            bounds=_BOUNDS[bonded],
        )


def _known(values: Values, key: str, joined: str) -> bool | None:
    """Whether two are joined; None where nobody has said so."""
    return None if isinstance(values.answer(key), OneOf) else values.pick(key) == joined


def _joined_words(content: Content, joined: bool | None) -> str:
    if joined is None:
        return content.say("not known: write it down")
    return content.say("joined") if joined else content.say("not joined")


_BOUNDS: dict[bool | None, tuple[Bounds, ...]] = {
    True: _JOINED,
    False: _APART,
    None: ((None, None),),
}


def counts(content: Content) -> Iterator[Measurement]:
    """For each source on alternating current how many links its neutral has, and where."""
    say = content.say
    told: dict[tuple[str, ...], dict[str, set[tuple[str, ...]]]] = {}
    outside: dict[tuple[str, ...], set[str]] = {}
    for r in content.reports:
        for bond in r.bonds:
            if bond.is_ac and _feeds_some(content, r.live, bond.sources):
                here = told.setdefault(bond.sources, {})
                here.setdefault(r.case, set()).add(_on_site(content, bond.places))
                away = (place for place in bond.places if _off_site(content, place))
                outside.setdefault(bond.sources, set()).update(away)
    for sources in sorted(told, key=lambda each: natural(content.name(each[0]))):
        every = set().union(*told[sources].values())
        known = len(every) == 1
        places = next(iter(every)) if known else ()
        number = len(places)
        expected = say("{count}: {parts}", count=number, parts=names(content, places))
        if known and not places:
            expected = say("none: it floats")
        yield Measurement(
            f"count:{' '.join(sources)}",
            Block.DEAD,
            say(
                "Links of {neutral} to {ground}, set to feed from {sources}, all dead",
                sources=names(content, sources),
            ),
            _lifted(content, places, outside.get(sources, set())) if known else "",
            expected if known else say("by position: write it down"),
            bounds=((float(number), float(number)),) if known else ((None, None),),
            basis=basis(content, LINKS),
        )


def _feeds_some(
    content: Content, live: dict[tuple[str, str], tuple[str, ...]], sources: Iterable[str]
) -> bool:
    """Whether a board or outlet hangs on them, so that somebody can measure there."""
    design, own = content.design, {*sources}
    return any(
        own & {*owners}
        for (part, _), owners in live.items()
        if design.kind(design.part(part)).board
    )


def _on_site(content: Content, places: tuple[str, ...]) -> tuple[str, ...]:
    """The links that can be lifted here; that of a supply only where it is the only one."""
    return tuple(p for p in places if not _off_site(content, p)) or places


def _off_site(content: Content, place: str) -> bool:
    element = content.design.get(place)
    return isinstance(element, Part) and content.design.kind(element).source.off_site


def _lifted(content: Content, places: tuple[str, ...], outside: set[str]) -> str:
    """What is read with the links lifted; that of a supply (``outside``) cannot be lifted here, and
    joins until its neutral is parted."""
    say = content.say
    if not outside:
        return say("with each lifted it reads open") if places else say("it reads open")
    supplies = names(content, outside)
    if outside >= {*places}:
        return say(
            "joined off site: with the {neutral} of {supplies} parted it reads open",
            supplies=supplies,
        )
    return say(
        "with each lifted, and the {neutral} of {supplies} parted, it reads open",
        supplies=supplies,
    )


def minus(content: Content) -> Iterator[Measurement]:
    """Where the minus of each bank is joined to the frame."""
    places: dict[str, list[tuple[str, ...]]] = {}
    for bond in (bond for report in content.reports for bond in report.bonds if not bond.is_ac):
        for source in bond.sources:
            places.setdefault(source, []).append(bond.places)
    for bank in banks(content):
        found = [place for owner in bank.owners for place in places.get(owner, ())]
        if not found:
            continue
        told = {bool(each) for each in found}
        joined = None if len(told) > 1 else told == {True}
        at = names(content, (p for each in found for p in each))
        yield Measurement(
            f"minus:{bank.owners[0]}",
            Block.DEAD,
            content.say(
                "Minus of {part} to the frame, its switch open", part=names(content, bank.owners)
            ),
            content.say("joined by {names}", names=at) if at else "",
            _joined_words(content, joined),
            unit="Ω",
            bounds=_BOUNDS[joined],
        )


def polarity(content: Content) -> Iterator[Measurement]:
    """Contact by contact on alternating current, plus and minus on direct."""
    say = content.say
    kinds = content.design.kind
    faces = chosen(content, lambda part: kinds(part).receptacle or kinds(part).lets_in)
    if faces:
        yield Measurement(
            "polarity",
            Block.DEAD,
            say(
                "Polarity of {names}, contact by contact",
                names=", ".join(part.designation for part in faces),
            ),
            "",
            say("as marked"),
            basis=basis(content, POLARITY),
        )
    direct = [p for p in chosen(content, lambda part: True) if _turned_harms(content, p)]
    if direct:
        yield Measurement(
            "polarity:dc",
            Block.DEAD,
            say(
                "Plus and minus at {names}, before anything is joined",
                names=", ".join(part.designation for part in direct),
            ),
            "",
            say("as marked"),
            say("[p]"),
        )


def _turned_harms(content: Content, part: Part) -> bool:
    """Whether it has plus and minus and makes, stores or shares out power."""
    kind = content.design.kind(part)
    terminals = kind.terminals(content.design.values(part))
    direct = any({Pole.POS, Pole.NEG} <= {*t.poles} for t in terminals)
    return direct and (kind.board or bool(kind.source))
