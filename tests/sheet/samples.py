"""Designs for the tests of the sheet."""

from __future__ import annotations

import random

from linework.design import Change, Design, Draft, EditError
from linework.design.edits.seats import places_of
from linework.kinds import kinds

_RATINGS = {
    "generator": {"power": "5 kVA"},
    "inverter_charger": {"power": "2 kVA"},
    "battery": {"capacity": "200 Ah"},
    "fuse": {"rating": "200 A", "type": "class_t"},
    "breaker": {"rating": "20 A"},
    "motor": {"power": "1500 W"},
    "load": {"power": "240 W"},
    "plug_load": {"power": "60 W"},
    "lamp": {"power": "60 W"},
}


def trailer() -> Design:
    """A trailer with a generator, a shore cord, an inverter-charger and a board, placed by hand."""
    draft = Draft(place="vehicle", job="Travelling clinic trailer", site="Any road")
    _sources(draft)
    _board(draft)
    _battery(draft)
    _grounding(draft)
    return draft.design


def reversed_order(design: Design) -> Design:
    """The same elements, put in the other way round."""
    copy = Design(design.settings)
    rest = [element for element in design.elements.values() if element.id != "settings"]
    copy.apply(Change("", {element.id: (None, element) for element in reversed(rest)}))
    return copy


def _part(
    draft: Draft, kind: str, name: str, title: str = "", at: tuple[int, int] = (0, 0)
) -> None:
    draft.part(kind, name, title=title, at=at, **_RATINGS.get(kind, {}))


def _sources(draft: Draft) -> None:
    _part(draft, "generator", "G1", "generator", (500, 900))
    _part(draft, "breaker", "QF11")
    _part(draft, "outlet", "XD11")
    draft.seat("QF11", "G1", "1")
    draft.seat("XD11", "QF11", "load")
    _part(draft, "supply", "GS1", "shore pedestal", (500, 1500))
    _part(draft, "outlet", "XD1", at=(1000, 1500))
    draft.run("GS1.out", "XD1.feed", size="10 AWG", length="3 ft")
    _part(draft, "plug", "XP1", "shore cord", (1400, 1200))
    draft.seat("XP1", "XD1", "face")
    draft.seat("XP1", "XD11", "face")
    _part(draft, "inlet", "XI1", at=(1800, 1200))
    draft.run("XP1.cord", "XI1.outside", size="10 AWG", length="25 ft", installation="cord")
    _part(draft, "transfer_switch", "QT1", at=(2150, 1250))
    draft.run("XI1.inside", "QT1.in1", size="10 AWG", length="6 ft")


def _board(draft: Draft) -> None:
    draft.part("panel", "QP1", title="main panel", at=(2500, 800), main="30 A", bond="absent")
    draft.run("QT1.load", "QP1.feed", size="10 AWG", length="5 ft")
    loads = ("motor", "outlet", "load", "lamp", "plug_load")
    titles = ("air conditioner", "outlets, bench", "vaccine refrigerator", "lamps", "kettle")
    for row, (kind, title) in enumerate(zip(loads, titles, strict=True)):
        _part(draft, "breaker", f"QF{row + 1}")
        draft.seat(f"QF{row + 1}", "QP1", str(row + 1))
        name = f"EX{row + 1}"
        _part(draft, kind, name, title, (3575, 800 + 150 * row))
        feed = "feed" if kind == "outlet" else "in"
        draft.run(f"QF{row + 1}.load", f"{name}.{feed}", size="12 AWG", length=f"{10 + row} ft")


def _battery(draft: Draft) -> None:
    _part(draft, "inverter_charger", "TB1", at=(1700, 1850))
    draft.run("TB1.ac_out", "QT1.in2", size="10 AWG", length="4 ft")
    _part(draft, "breaker", "QF6")
    draft.seat("QF6", "QP1", "6")
    draft.run("QF6.load", "TB1.ac_in", size="12 AWG", length="3 ft")
    _part(draft, "battery", "GB1", "house battery", (700, 2200))
    _part(draft, "fuse", "F1")
    draft.seat("F1", "GB1", "post")
    draft.run("F1.load", "TB1.dc", size="2/0 AWG", length="3 ft")


def _grounding(draft: Draft) -> None:
    _part(draft, "body", "XB1", at=(2200, 2500))
    _part(draft, "electrode", "XE1", at=(900, 2550))
    draft.run("QP1.ground", "XB1.tie", size="8 AWG", length="4 ft")
    draft.run("TB1.case", "XB1.tie", size="8 AWG", length="4 ft")
    draft.run("G1.frame", "XE1.ground", size="8 AWG", length="14 ft")


def unplaced(board_rows: int = 6) -> Design:
    """A supply and a board with that many lamps, built from Python: everything at the origin."""
    draft = Draft(place="building")
    _part(draft, "supply", "GS1")
    draft.part("panel", "QP1", places=str(board_rows), bond="fitted")
    draft.run("GS1.out", "QP1.feed", size="6 AWG", length="40 ft")
    _part(draft, "electrode", "XE1")
    draft.run("QP1.ground", "XE1.ground", size="6 AWG", length="12 ft")
    for row in range(1, board_rows + 1):
        _part(draft, "breaker", f"QF{row}")
        draft.seat(f"QF{row}", "QP1", str(row))
        _part(draft, "lamp", f"EL{row}", "lamps")
        draft.run(f"QF{row}.load", f"EL{row}.in", size="12 AWG", length="15 ft")
    return draft.design


def at_random(seed: int, parts: int = 14) -> Design:
    """Parts of any kind on a coarse raster, seated and joined at random as far as they fit."""
    chance = random.Random(seed)
    draft = Draft(sheet="A3")
    cells = [(x, y) for x in range(450, 3800, 475) for y in range(450, 2300, 375)]
    chance.shuffle(cells)
    names: list[str] = []
    for number, at in zip(range(parts), cells, strict=False):
        kind = chance.choice(sorted(kinds()))
        title = chance.choice(("", "spare", "for the long bench at the window"))
        _part(draft, kind, f"P{number}", title, at)
        names.append(f"P{number}")
    _seat_some(draft, names, chance)
    _join_some(draft, names, chance)
    return draft.design


def _seat_some(draft: Draft, names: list[str], chance: random.Random) -> None:
    for name in names:
        host = chance.choice(names)
        places = places_of(draft.design, draft.design.part(host))
        if places:
            try:
                draft.seat(name, host, chance.choice(places).name)
            except EditError:
                continue


def _join_some(draft: Draft, names: list[str], chance: random.Random) -> None:
    for _ in range(3 * len(names)):
        ends = [_terminal(draft.design, chance.choice(names), chance) for _ in range(2)]
        if all(ends):
            try:
                draft.run(ends[0], ends[1], size="12 AWG", length="9 ft")
            except EditError:
                continue


def _terminal(design: Design, name: str, chance: random.Random) -> str:
    part = design.part(name)
    terminals = design.kind(part).terminals(design.values(part))
    return f"{name}.{chance.choice(terminals).name}" if terminals else ""
