"""More wires in a box than its volume allows.

What is checked
    For every box of junctions and outlets of which the volume is given: the room
    that its conductors, ground wires, devices and clamps take.
Why it matters
    Wires are crushed when the device is pushed in, and joints get hot.
How to cure it
    A deeper box, an extension, or fewer wires.
Limits
    Each conductor of each run drawn to it counts once; loops and pigtails are
    not drawn. Fittings like studs are not counted. Boxes of which nothing is
    said are not judged, nor conductors thicker than 6 AWG.
Sources
    NFPA 70 (2023) 314.16, tables 314.16(A) and (B)(1).
"""

from __future__ import annotations

from collections.abc import Iterator

from linework.codes import CodesError, size_of
from linework.findings.mending import change_part
from linework.findings.model import Evidence, Hit, Level, Mend, NotChecked, Outcome
from linework.findings.rule import Rule
from linework.findings.view import View
from linework.kinds.boxes import BOXES
from linework.kinds.run import NOT_GIVEN
from linework.study.slack import exceeds
from linework.study.wires.fill import Contents, box_contents, boxes
from linework.study.wires.ratings import rules_of
from linework.words import N_, say

MESSAGE = N_("{box} has {volume} in3; its wires and fittings take {need} in3.")
CLAMPS = N_("whether its cable clamps sit inside decides whether its wires find room")
NO_TABLE = N_("{fault}")


def check(view: View) -> Iterator[Outcome]:
    """One hit for each box."""
    for parts in boxes(view.design):
        try:
            yield from _judged(view, parts)
        except CodesError as fault:
            yield NotChecked(NO_TABLE, {"fault": fault}, parts)


def _judged(view: View, parts: tuple[str, ...]) -> Iterator[Outcome]:
    volume = next((v for part in parts if (v := _volume_in3(view, part)) is not None), None)
    contents = box_contents(view.design, parts)
    sizes = [*contents.conductors, *contents.grounds]
    if volume is None or not sizes or not all(sizes):
        return  # a size that is not given is told by "value-missing"
    clamps = {view.values(part).pick("clamps") for part in parts} - {NOT_GIVEN}
    least = _need_in3(view, parts, contents, "yes" in clamps)
    if exceeds(least, volume):
        yield _hit(view, parts, volume, least)
    elif not clamps and exceeds(_need_in3(view, parts, contents, True), volume):
        yield NotChecked(CLAMPS, {}, parts)


def _volume_in3(view: View, part: str) -> float | None:
    """As marked, else by the table for metal boxes; None where nothing is said."""
    values = view.values(part)
    if values.has("volume"):
        return values.num("volume")
    box = values.pick("box")
    if box == NOT_GIVEN:
        return None
    kind, _, size = box.partition(" ")
    return rules_of(view.design).box_volume_in3(kind, size).value


def _need_in3(view: View, parts: tuple[str, ...], contents: Contents, clamps: bool) -> float:
    yokes = [_thickest(contents) for part in parts if view.kind(part).receptacle]
    return rules_of(view.design).box_fill_in3(
        contents.conductors, grounds=contents.grounds, yokes=yokes, clamps=clamps
    )


def _thickest(contents: Contents) -> str:
    sizes = contents.conductors or contents.grounds
    return max(sizes, key=lambda text: size_of(text).cmil)


def _hit(view: View, parts: tuple[str, ...], volume: float, need: float) -> Hit:
    names = ", ".join(map(view.name, parts))
    return Hit(
        Level.WARNING,
        parts,
        MESSAGE,
        {"box": names, "volume": f"{volume:g}", "need": f"{need:g}"},
        (
            Evidence(N_("volume needed"), need, "volume"),
            Evidence(N_("volume of the box"), volume, "volume"),
        ),
        mend=_mend(view, parts, need),
    )


def _mend(view: View, parts: tuple[str, ...], need: float) -> Mend | None:
    """The least metal box of the same kind that has room; None for a box with a marked volume."""
    part = next(part for part in parts if _volume_in3(view, part) is not None)
    kind, _, _ = view.values(part).pick("box").partition(" ")
    if view.values(part).has("volume"):
        return None
    rules = rules_of(view.design)
    rooms = sorted((rules.box_volume_in3(kind, size).value, size) for size in BOXES[kind])
    size = next((size for room, size in rooms if room >= need), None)
    if size is None:
        return None

    title = say("Put {what} into a box of {size} in", what=view.name(part), size=size)
    return change_part(title, part, {"box": f"{kind} {size}"})


RULE = Rule(
    "box-overfilled",
    N_("Box too full"),
    check,
    {"NA": "314.16", "INT": "522"},
)
