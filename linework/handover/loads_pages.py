"""Load calculation: what each source gives, what each load takes, and at which voltage."""

from __future__ import annotations

from reportlab.platypus import Flowable

from linework.design.names import natural
from linework.findings.evidence import value_text
from linework.handover.assumed_pages import in_a_row
from linework.handover.content import Content
from linework.handover.sheets import Room
from linework.handover.styles import Cell, table, text, with_room
from linework.study.report import LoadReport, SourceReport, StateReport


def load_calculation(content: Content, room: Room) -> list[Flowable]:
    """Sources with their share of what they are rated for, then loads with their voltage."""
    say = content.say
    sources, loads = _source_rows(content), _load_rows(content)
    out: list[Flowable] = []
    if sources:
        heads = [say("source"), say("of it"), say("gives A"), say("rated A"), say("%"), say("VA")]
        heads.append(say("in the state that takes most"))
        out += [
            with_room(),
            text(say("Load calculation: sources"), "heading", anchor="loads"),
            table(heads, sources, room.width, right=(2, 3, 4, 5)),
        ]
    if loads:
        heads = [
            say("load"),
            say("VA"),
            say("A"),
            say("V least"),
            say("V rated"),
            say("% of rated"),
        ]
        heads.append(say("fed by"))
        out += [
            with_room(),
            text(say("Load calculation: loads"), "heading"),
            text(say("All drawn loads on together; starting currents are not in it."), "small"),
            table(heads, loads, room.width, right=(1, 2, 3, 4, 5)),
        ]
    return out


def _source_rows(content: Content) -> list[list[Cell]]:
    """Each source where it gives most; cells of a string that give the same, once."""
    worst: dict[tuple[str, str], tuple[SourceReport, StateReport]] = {}
    for report in content.reports:
        for source in report.sources:
            key = (source.part, source.name)
            if key not in worst or source.amps > worst[key][0].amps:
                worst[key] = (source, report)
    rows: list[list[Cell]] = []
    for (part, name), (source, report) in sorted(
        worst.items(), key=lambda x: _order(content, x[0])
    ):
        rated = source.rated_a
        amps = source.amps if source.amps >= 1e-3 else 0.0
        rows.append(
            [
                text(content.full_name(part), "cell", link=content.link_to(part)),
                content.say(name),
                f"{amps:.3g}",
                f"{rated:.3g}" if rated else content.say("not limited"),
                f"{100 * amps / rated:.0f}" if rated else "",
                f"{abs(source.watts):.0f}" if abs(source.watts) >= 0.5 else "",
                report.spoken if amps else "",
            ]
        )
    return rows


def _order(content: Content, key: tuple[str, str]) -> tuple[object, ...]:
    return natural(content.name(key[0])), key[1]


def _load_rows(content: Content) -> list[list[Cell]]:
    found: dict[str, list[LoadReport]] = {}
    for report in content.reports:
        for load in report.loads:
            if load.amps > 1e-6 and content.design.kind(content.design.part(load.part)).consumes:
                found.setdefault(load.part, []).append(load)
    rows: list[list[Cell]] = []
    for part in sorted(found, key=lambda p: natural(content.name(p))):
        fed = found[part]
        most = max(fed, key=lambda load: load.amps * load.volts)
        least = min(fed, key=lambda load: load.volts / load.rated_v if load.rated_v else 1.0)
        sources = {content.name(s) for load in fed for s in load.sources}
        rows.append(
            [
                text(content.full_name(part), "cell", link=content.link_to(part)),
                f"{most.amps * most.volts:.0f}",
                f"{max(load.amps for load in fed):.3g}",
                f"{least.volts:.4g}",
                value_text(least.rated_v, "voltage").removesuffix(" V") if least.rated_v else "",
                f"{100 * least.volts / least.rated_v:.0f}" if least.rated_v else "",
                in_a_row(sources),
            ]
        )
    return rows
