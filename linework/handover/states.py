"""The state table: what is energised by what, where neutral meets ground, what a tester shows."""

from __future__ import annotations

from collections.abc import Sequence

from reportlab.lib.units import mm
from reportlab.platypus import Flowable, Spacer, Table

from linework.design.names import natural
from linework.findings.evidence import value_text
from linework.findings.explain import picture_word
from linework.handover.assumed_pages import in_a_row
from linework.handover.columns import widths
from linework.handover.content import Content
from linework.handover.sheets import Band, Room, Sheet
from linework.handover.styles import FONT, WIDE, Cell, table, text
from linework.study.report import StateReport
from linework.words import N_


def state_pages(content: Content, room: Room) -> list[Band]:
    """The table across the page: its columns hold many words."""
    say = content.say
    heads = [
        say("no."),
        say("positions"),
        say("if"),
        say("energised by"),
        say("{neutral_ground_links} (AC)"),
        say("outlet tester"),
        say("sources in use"),
    ]
    counted = say(
        "{count} of {combinations} states, in which every circuit that is ever live stands;"
        " others combine these.",
        count=len(content.states_at_rest),
        combinations=content.analysis.combinations,
    )
    tester = say(
        'A tester\'s "correct" also shows for a {neutral} used as {ground} or a second link; its'
        " volts: line-{neutral} / line-{ground} / {neutral}-{ground}. Lamps between 46 and 67 V are"
        " dark or dim."
    )
    rows = [_row(content, r) for r in _in_order(content)]
    made_of = _over_each_other if room.width < WIDE else table
    made: list[Flowable] = [
        text(say("State table"), "title", anchor="states"),
        text(f"{counted} {tester}" if content.has_outlets else counted),
        Spacer(1, 4),
        made_of(heads, rows, room.width),
    ]
    return [Band(1, made)]


_OVER = 3
"""So many columns stand over the others where the paper is narrow: number, positions, case."""


def _over_each_other(heads: Sequence[str], rows: Sequence[Sequence[Cell]], width: float) -> Table:
    """The positions of each state on lines of their own, under them what holds in it."""
    lower = [[[text(head, "head")] for head in heads[_OVER:]]]
    lower += [[[text(str(cell), "cell")] for cell in row[_OVER:]] for row in rows]
    shares = widths(lower, width, 2.0 * mm, fill=True)
    abreast = [f"{100 * one / sum(shares):.2f}%" for one in shares]
    joined: list[list[Cell]] = []
    for row, cells in zip(rows, lower[1:], strict=True):
        number, positions, case = row[:_OVER]
        told = str(positions) if case == "-" else f"{positions} ({heads[2]} {case})"
        joined.append([number, [text(told, "strong"), _abreast(cells, abreast)]])
    head = [text(heads[1], "head"), _abreast(lower[0], abreast)]
    return table([heads[0], head], joined, width)


def _abreast(cells: Sequence[Sequence[Flowable]], shares: list[str]) -> Table:
    made = Table([list(map(list, cells))], colWidths=shares, hAlign="LEFT")
    none = [(side, (0, 0), (-1, -1), 0) for side in ("LEFTPADDING", "TOPPADDING", "BOTTOMPADDING")]
    made.setStyle([FONT, ("VALIGN", (0, 0), (-1, -1), "TOP"), *none])
    return made


def _in_order(content: Content) -> list[StateReport]:
    """By their numbers; of keys that are electrically the same only the first."""
    numbers = content.state_numbers
    first: dict[int, str] = {}
    for r in content.analysis.reports:
        first.setdefault(numbers[r.key], r.key)
    shown = (r for r in content.analysis.reports if r.key == first[numbers[r.key]])
    return sorted(shown, key=lambda r: numbers[r.key])


def _row(content: Content, r: StateReport) -> list[Cell]:
    number = str(content.state_numbers[r.key])
    return [
        text(number, "cell", anchor=f"state-{number}" if r is _first(content, r) else ""),
        f"{r.title}: {r.spoken}" if r.spoken else r.title,
        r.case or "-",
        _fed(content, r),
        _bonds(content, r),
        "-" if r.passing and content.has_outlets else _tester(content, r),
        "-" if r.passing else _sources(content, r),
    ]


def _first(content: Content, r: StateReport) -> StateReport:
    return next(x for x in content.analysis.reports if x.key == r.key)


def _fed(content: Content, r: StateReport) -> str:
    """Every source that is on with what it makes live; one that feeds nothing is live itself."""
    found = fed_by(content, r)
    lines = [
        f"{', '.join(map(content.name, owners))}: {', '.join(map(content.name, parts))}"
        for owners, parts in found.items()
        if parts
    ]
    alone = [
        content.name(owner) for owners, parts in found.items() for owner in owners if not parts
    ]
    if alone:
        message = _OWN if len(alone) == 1 else _OWN_EACH
        lines.append(content.say(message, sources=", ".join(sorted(alone, key=natural))))
    return "; ".join(lines) or content.say("nothing")


_OWN = N_("{sources}: only its own terminals and wires")
_OWN_EACH = N_("{sources}: only their own terminals and wires")


def fed_by(content: Content, r: StateReport) -> dict[tuple[str, ...], list[str]]:
    """For sources that feed together the boards, outlets and loads that they make live; for each
    source that is live besides an empty list."""
    design = content.design
    found: dict[tuple[str, ...], list[str]] = {}
    for part, terminal in sorted(r.live, key=lambda place: (content.name(place[0]), place)):
        kind, owners = design.kind(design.part(part)), r.live[part, terminal]
        if (
            (kind.board and terminal == "feed")
            or (kind.consumes and terminal == "in")
            or kind.receptacle
        ):
            parts = found.setdefault(owners, [])
            parts += [part] if part not in parts else []
    told = {owner for owners in found for owner in owners}
    live = {owner for owners in r.live.values() for owner in owners}
    for owner in sorted(live - told, key=content.name):
        found[owner,] = []
    return found


def _bonds(content: Content, r: StateReport) -> str:
    lines = []
    for bond in r.bonds:
        if bond.is_ac:
            where = ", ".join(content.name(p) for p in bond.places) or content.say("none")
            ring = content.say(", on a ring") if bond.ring else ""
            source = ", ".join(content.name(s) for s in bond.sources)
            lines.append(f"{source}: {len(bond.places)} ({where}{ring})")
    return "; ".join(lines) or "-"


def _tester(content: Content, r: StateReport) -> str:
    if not content.has_outlets:
        return ""
    same: dict[str, list[str]] = {}
    for reading in r.readings:
        if reading.picture == "dead":
            continue
        volts = "/".join(f"{v:.0f}" for v in reading.volts)
        told = f"{volts} V {picture_word(reading, content.family)}"
        same.setdefault(told, []).append(content.name(reading.owner))
    lines = [f"{in_a_row(names)} {told}" for told, names in same.items()]
    return "; ".join(lines) or (content.say("all dead") if r.readings else "-")


def _sources(content: Content, r: StateReport) -> str:
    """What each source gives, or is charged with; sources that give the same, as batteries in a
    string do, together."""
    same: dict[tuple[str, str], list[str]] = {}
    for source in r.sources:
        rated = f" / {value_text(source.rated_a, 'current')}" if source.rated_a else ""
        amps = value_text(source.amps if source.amps >= 1e-3 else 0.0, "current")
        if source.watts < 0.0 and source.amps >= 1e-3:
            amps, rated = content.say("charged with {amps}", amps=amps), ""
        same.setdefault((source.name, f"{amps}{rated}"), []).append(content.name(source.part))
    lines = [f"{', '.join(names)} {name} {amps}" for (name, amps), names in same.items()]
    return "; ".join(lines) or "-"


STATES = Sheet("states", N_("All states"), N_("table"), state_pages, annex=True)
