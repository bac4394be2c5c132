"""What is measured on the finished installation, with the value to expect: a pure function.

Dead tests stand before insulation, and both before what is measured live. Every measurement has a
key that does not change with the order or the language, so that what is written beside it can be
read back.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from enum import IntEnum
from hashlib import blake2b

from linework.circuit import expand
from linework.circuit.conductors import pole_size, wire_ohm
from linework.design import Part, Run, pole_map
from linework.design.names import natural
from linework.findings.explain import picture_word
from linework.handover.content import Content
from linework.handover.ends import end_text
from linework.handover.positions import Position, positions
from linework.kinds import OneOf, Values
from linework.quantity import show
from linework.wiring import Pole, SourceGroup, is_protective
from linework.words import N_, begun_small

CLIPS_OHM = 0.1
"""What the clips and joints may add to a wire's own resistance (common practice, no source)."""
INSULATION_MOHM, INSULATION_V = 1.0, 500.0
"""Least insulation resistance and test voltage of circuits up to 500 V (IEC 60364-6 table 6.1)."""
VOLTS_SHARE = 0.05
"""How far a voltage may lie off (common practice, no source)."""


class Block(IntEnum):
    """The order in which it is safe."""

    DEAD = 1
    INSULATION = 2
    LIVE = 3


Bounds = tuple[float | None, float | None]
_JOINED, _APART = ((None, 1.0),), ((1e5, None),)
"""In ohm, of a joint and of what must not be one (common practice, no source)."""


@dataclass(frozen=True)
class Measurement:
    """One line of the test sheet.

    ``expected`` and ``tolerance`` in words; ``bounds`` as numbers of ``unit``: lowest and highest
    of each value that is read (None: no bound). ``key``: of what is read, "ground:W6".
    """

    key: str
    block: Block
    what: str
    detail: str
    expected: str
    tolerance: str = ""
    unit: str = ""
    bounds: tuple[Bounds, ...] = ()

    @property
    def field(self) -> str:
        """What names its fields in a form: letters and figures only, whatever a file calls a part,
        and the same as long as the key is."""
        return blake2b(self.key.encode(), digest_size=8).hexdigest()


def measurements(content: Content) -> list[Measurement]:
    """In the order in which they are made."""
    found = [
        *_grounds(content),
        *_links(content),
        *_minus(content),
        *_polarity(content),
        *_insulation(content),
        *_outlets(content),
        *_boards(content),
        *_frequencies(content),
        *_trips(content),
        *_transfers(content),
    ]
    return sorted(found, key=lambda each: each.block)


def insulation_first(content: Content) -> list[str]:
    """What has to be disconnected before insulation is measured."""
    design = content.design
    circuit = expand(design)
    guarded = {sensor.owner for sensor in circuit.sensors}
    found = [
        part.designation
        for part in design.parts
        if part.id in guarded
        or design.kind(part).arrests
        or design.kind(part).consumes
        or design.kind(part).source not in (SourceGroup.NONE, SourceGroup.SUPPLY)
    ]
    return sorted(found, key=natural)


# dead


def _grounds(content: Content) -> Iterator[Measurement]:
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


def _links(content: Content) -> Iterator[Measurement]:
    """Where neutral and ground are joined with everything off, and where not."""
    for part in _sorted(content, lambda part: "bond" in content.design.kind(part).declared):
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
    for part in _sorted(content, lambda part: content.design.kind(part).source is SourceGroup.SET):
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


def _minus(content: Content) -> Iterator[Measurement]:
    """Where minus is joined to the frame."""
    places: dict[str, list[tuple[str, ...]]] = {}
    for bond in (bond for report in content.reports for bond in report.bonds if not bond.is_ac):
        for source in bond.sources:
            places.setdefault(source, []).append(bond.places)
    for part in _sorted(content, lambda part: content.design.kind(part).source.stores):
        if part.id not in places:
            continue
        told = {bool(each) for each in places[part.id]}
        joined = None if len(told) > 1 else told == {True}
        at = sorted({content.name(p) for each in places[part.id] for p in each}, key=natural)
        yield Measurement(
            f"minus:{part.id}",
            Block.DEAD,
            content.say("Minus of {part} to the frame, its switch open", part=part.designation),
            content.say("joined by {names}", names=", ".join(at)) if at else "",
            _joined_words(content, joined),
            unit="Ω",
            bounds=_BOUNDS[joined],
        )


def _polarity(content: Content) -> Iterator[Measurement]:
    kinds = content.design.kind
    faces = _sorted(content, lambda part: kinds(part).receptacle or kinds(part).lets_in)
    if faces:
        names = ", ".join(part.designation for part in faces)
        yield Measurement(
            "polarity",
            Block.DEAD,
            content.say("Polarity of {names}, contact by contact", names=names),
            "",
            content.say("as marked"),
        )


# insulation


def _insulation(content: Content) -> Iterator[Measurement]:
    for part in _sorted(content, lambda part: content.design.kind(part).board):
        values = content.design.values(part)
        direct = "circuit" in values.declared and values.pick("circuit") == "dc"
        if direct:
            continue
        yield Measurement(
            f"insulation:{part.id}",
            Block.INSULATION,
            content.say(
                "All lines and {neutral} together to {ground} at {part}, {volts} V DC",
                part=part.designation,
                volts=round(INSULATION_V),
            ),
            "",
            content.say("{mohm} MΩ at least", mohm=f"{INSULATION_MOHM:g}"),
            "",
            "MΩ",
            ((INSULATION_MOHM, None),),
        )


# live


def _outlets(content: Content) -> Iterator[Measurement]:
    """What a meter and a tester show at each outlet in each position."""
    for number, position in enumerate(_told(content), start=1):
        readings = [r for r in position.shown.readings if r.picture != "dead"]
        for reading in sorted(readings, key=lambda r: natural(content.name(r.owner))):
            volts = " / ".join(f"{v:.0f}" for v in reading.volts)
            yield Measurement(
                f"outlet:{reading.owner}:{number}",
                Block.LIVE,
                content.say(
                    "{part} {position}",
                    part=content.name(reading.owner),
                    position=begun_small(position.title),
                ),
                content.say(
                    "tester: {word}",
                    word=picture_word(reading, content.family),
                ),
                f"{volts} V",
                content.say("±{volts} V [p]", volts=round(VOLTS_SHARE * max(reading.volts))),
                "V",
                tuple(_about(volts, max(reading.volts)) for volts in reading.volts),
            )


def _about(volts: float, most: float) -> Bounds:
    """As far off as the largest of them may lie."""
    return max(0.0, volts - VOLTS_SHARE * most), volts + VOLTS_SHARE * most


def _told(content: Content) -> list[Position]:
    """The positions of the operator's sheet, those further ones left out."""
    return positions(content)[:5]


def _boards(content: Content) -> Iterator[Measurement]:
    """Direct current at its boards, at the load that gets least."""
    loads = {load.part: load for r in content.reports for load in r.loads if load.rated_v}
    for part in _sorted(content, lambda part: content.design.kind(part).consumes):
        load = loads.get(part.id)
        values = content.design.values(part)
        if load is None or "circuit" not in values.declared or values.pick("circuit") != "dc":
            continue
        fed = [x for r in content.reports for x in r.loads if x.part == part.id and x.volts > 0.5]
        if not fed:
            continue
        low, high = min(x.volts for x in fed), max(x.volts for x in fed)
        yield Measurement(
            f"volts:{part.id}",
            Block.LIVE,
            content.say("{part}: plus to minus, all loads on", part=part.designation),
            "",
            f"{low:.1f} V" if high - low < 0.1 else f"{low:.1f} to {high:.1f} V",
            content.say("±{percent} % [p]", percent=round(100 * VOLTS_SHARE)),
            "V",
            ((low * (1 - VOLTS_SHARE), high * (1 + VOLTS_SHARE)),),
        )


def _frequencies(content: Content) -> Iterator[Measurement]:
    hertz = {
        source.part: source.hertz
        for report in content.reports
        for source in report.sources
        if source.hertz > 0.0
    }
    for part in sorted(hertz, key=lambda p: natural(content.name(p))):
        if content.design.kind(content.design.part(part)).source.off_site:
            continue
        yield Measurement(
            f"hertz:{part}",
            Block.LIVE,
            content.say("Frequency on {part}, without and with load", part=content.name(part)),
            content.say("what is beyond is a question to its maker"),
            f"{hertz[part]:g} Hz",
            "",
            "Hz",
            ((None, None),),
        )


def _trips(content: Content) -> Iterator[Measurement]:
    """Ground-fault devices, by their own button and by an instrument."""
    for sensor in expand(content.design).sensors:
        trip = sensor.data.trip_ma
        yield Measurement(
            f"trip:{sensor.owner}",
            Block.LIVE,
            content.say("{part} trips at, and by its own button", part=content.name(sensor.owner)),
            "",
            content.say("{low} to {high} mA", low=f"{trip.low:g}", high=f"{trip.high:g}"),
            "",
            "mA",
            ((trip.low, trip.high),),
        )


def _transfers(content: Content) -> Iterator[Measurement]:
    """No position of a transfer switch lets one source reach another."""
    for part in _sorted(content, lambda part: bool(content.design.kind(part).inputs)):
        yield Measurement(
            f"transfer:{part.id}",
            Block.LIVE,
            content.say(
                "{part}: at the input that is not chosen, in every position",
                part=part.designation,
            ),
            content.say("the source of that input off and its plug out"),
            content.say("0 V"),
            "",
            "V",
            ((None, 1.0),),
        )


def _sorted(content: Content, fact: Callable[[Part], bool]) -> list[Part]:
    return sorted(
        (part for part in content.design.parts if fact(part)),
        key=lambda part: natural(part.designation),
    )
