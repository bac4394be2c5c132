"""Insulation, and what has to be disconnected before: with 500 V, less where less is there."""

from __future__ import annotations

from collections.abc import Iterator

from linework.design import Part, pole_map
from linework.design.names import natural
from linework.handover.content import Content
from linework.handover.measurements.line import Block, Measurement, basis, chosen
from linework.kinds.solar_array import open_v
from linework.wiring import Pole, SourceGroup

MOHM, TEST_V = 1.0, 500.0
"""Least insulation resistance and test voltage of circuits up to 500 V (IEC 60364-6 table 6.1)."""
LOW_MOHM, LOW_TEST_V, LOW_V = 0.5, 250.0, 120.0
"""The same of extra-low voltage, which on direct current ends at 120 V (IEC 60364-6 table 6.1; the
limit of 120 V from memory)."""

ASKED = {"NA": "IEC 60364-6", "INT": "61.6.4.3.3"}
ARRAYS = {"NA": "IEC 62446-1", "INT": "IEC 62446-1"}
FACTORY = {"NA": "551.60"}
"""What asks for them; from memory. NFPA 70 has no figure of its own for a finished building."""


def insulation_first(content: Content) -> list[str]:
    """What has to be disconnected before insulation is measured."""
    design, circuit = content.design, content.circuit
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


def insulation(content: Content) -> Iterator[Measurement]:
    """Each board on alternating current, in a vehicle by its maker's test too; each on direct
    current that can be parted from the frame; each array."""
    boards = chosen(content, lambda part: content.design.kind(part).board)
    alternating = [board for board in boards if not _direct(content, board)]
    for board in alternating:
        yield _board(content, board)
    yield from _factory(content, alternating)
    for board in boards:
        if _direct(content, board) and _parted(content):
            yield _low(content, board)
    for array in chosen(content, lambda part: content.design.kind(part).source.solar):
        yield _array(content, array)


def _direct(content: Content, part: Part) -> bool:
    values = content.design.values(part)
    return "circuit" in values.declared and values.pick("circuit") == "dc"


def _board(content: Content, board: Part) -> Measurement:
    say = content.say
    what = say(
        "All lines and {neutral} together to {ground} at {part}, {volts} V DC",
        part=board.designation,
        volts=round(TEST_V),
    )
    return _line(content, f"insulation:{board.id}", what, MOHM, basis(content, ASKED, board))


def _line(
    content: Content, key: str, what: str, mohm: float, asked: str, detail: str = ""
) -> Measurement:
    least = content.say("{mohm} MΩ at least", mohm=f"{mohm:g}")
    return Measurement(key, Block.INSULATION, what, detail, least, "", "MΩ", ((mohm, None),), asked)


def _factory(content: Content, boards: list[Part]) -> Iterator[Measurement]:
    """What the maker of a recreational vehicle does before it is sold."""
    asked = basis(content, FACTORY, boards[0]) if boards else ""
    if asked and content.design.settings.place == "recreational":
        yield Measurement(
            "dielectric",
            Block.INSULATION,
            content.say(
                "By the maker: all lines and {neutral} to {ground} at {parts}, switches closed,"
                " 900 V AC for 1 min or 1080 V AC for 1 s",
                parts=", ".join(board.designation for board in boards),
            ),
            content.say("appliances, lamps and electronics out; not by an owner"),
            content.say("no breakdown"),
            basis=asked,
        )


def _parted(content: Content) -> bool:
    """Whether its minus can be lifted off the metal: not where loads come back through that."""
    design = content.design
    return not any(
        design.kind(design.part(one.part)).consumes and design.kind(design.part(other.part)).body
        for run in design.runs
        for one, other in ((run.a, run.b), (run.b, run.a))
        if any(Pole.NEG in pair for pair in pole_map(design, run))
    )


def _low(content: Content, board: Part) -> Measurement:
    say = content.say
    high = content.design.values(board).num("voltage") > LOW_V
    volts, mohm = (TEST_V, MOHM) if high else (LOW_TEST_V, LOW_MOHM)
    what = say(
        "Plus and minus together to the {frame} at {part}, {volts} V DC",
        part=board.designation,
        volts=round(volts),
    )
    detail = say("its joint to the {frame} lifted, then put back")
    return _line(
        content, f"insulation:{board.id}", what, mohm, basis(content, ASKED, board), detail
    )


def _array(content: Content, array: Part) -> Measurement:
    """Steps by the voltage of the array, from memory: 250 V and 0.5 megohm below 120 V, 500 V and
    1 megohm up to 500 V, 1000 V and 1 megohm above."""
    most = open_v(content.design.values(array)).high if _rated(content, array) else 0.0
    volts, mohm = (250, 0.5) if most < 120.0 else (500, 1.0) if most <= 500.0 else (1000, 1.0)
    what = content.say(
        "Plus, then minus, of {part} to its {frame}, {volts} V DC",
        part=array.designation,
        volts=volts,
    )
    detail = content.say("parted from everything; live in light")
    return _line(content, f"insulation:{array.id}", what, mohm, basis(content, ARRAYS), detail)


def _rated(content: Content, array: Part) -> bool:
    values = content.design.values(array)
    return "voc" in values.declared and values.has("voc")
