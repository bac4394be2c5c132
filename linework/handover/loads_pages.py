"""Load calculation: what each source must give, what each load takes, and at which voltage."""

from __future__ import annotations

from reportlab.platypus import Flowable

from linework.codes import CodesError
from linework.codes.demands import Demands
from linework.design.names import natural
from linework.findings.evidence import value_text
from linework.handover.assumed_pages import in_a_row
from linework.handover.banks import names_of, string_of
from linework.handover.content import Content
from linework.handover.dwelling_pages import dwellings
from linework.handover.sheets import Room
from linework.handover.starting_pages import motor_starting
from linework.handover.styles import Cell, table, text, with_room
from linework.study.demand.connected import connected
from linework.study.report import LoadReport, SourceReport, StateReport
from linework.study.stands import place_of, places
from linework.study.wires.ratings import rules_of


def load_calculation(content: Content, room: Room) -> list[Flowable]:
    """Sources with their share of what they are rated for, dwellings and vehicles by their own
    methods, loads with their voltage, motors that start."""
    return [
        *_sources(content, room),
        *dwellings(content, room),
        *_loads(content, room),
        *motor_starting(content, room),
    ]


# sources


def _sources(content: Content, room: Room) -> list[Flowable]:
    say, demands = content.say, _demands(content)
    rows = _source_rows(content, demands)
    if not rows:
        return []
    heads = [say("source"), say("of it"), say("gives A"), say("3 h A"), say("motor A")]
    heads += [say("counts A"), say("rated A"), say("%"), say("W")]
    heads.append(say("in the state that takes most"))
    counted = any(row[5] for row in rows)
    return [
        with_room(),
        text(say("Load calculation: sources"), "heading", anchor="loads"),
        text(_method(content, demands, counted), "small"),
        table(heads, rows, room.width, right=(2, 3, 4, 5, 6, 7, 8)),
    ]


def _demands(content: Content) -> Demands | None:
    """None where the family does not tell how loads are added up."""
    try:
        return rules_of(content.design).demands()
    except CodesError:
        return None


def _method(content: Content, demands: Demands | None, counted: bool) -> str:
    """What was summed, and by which clauses; ``counted``: whether any source counts more than it
    gives."""
    say = content.say
    all_on = say("All drawn loads on together; starting currents are not in it.")
    if any(place.afloat for place in places(content.design)):
        told = say(
            "Aboard a boat as connected: this version has no method of {abyc} for it.",
            abyc="ABYC E-11",
        )
        all_on = f"{all_on} {told}"
        if content.design.settings.kind_of_place.afloat:
            return all_on
    if demands is None:
        told = say("Not added: what a standard asks for loads that run for hours.")
        return f"{all_on} {told}"
    if not counted:
        return all_on
    lasting, motor = demands.figure("continuous"), demands.figure("largest_motor")
    return all_on + say(
        " By connected load: counts is the loads, wires without loss, + {more} % of what runs three"
        " hours and is no motor ({long}) + {part} % of the largest motor ({turning}).",
        more=f"{100 * (lasting.value - 1):.0f}",
        long=lasting.clause,
        part=f"{100 * motor.value:.0f}",
        turning=motor.clause,
    )


def _source_rows(content: Content, demands: Demands | None) -> list[list[Cell]]:
    """Each source where most counts of it; cells of a string that give the same, once; what is
    charged besides where it takes most."""
    worst: dict[tuple[str, str, bool], tuple[float, SourceReport, StateReport]] = {}
    for report in content.reports:
        for source in report.sources:
            ashore = not place_of(content.design, source.part).afloat
            counts = _counts(source, demands if ashore else None)
            key = (source.part, source.name, _takes(source))
            if key not in worst or counts > worst[key][0]:
                worst[key] = (counts, source, report)
    own = {d.owner: d.data.rating_a for d in content.circuit.devices}
    rows: list[list[Cell]] = []
    for (part, _, _), (counts, source, report) in sorted(
        worst.items(), key=lambda item: _order(content, item[0])
    ):
        string = string_of(content, content.design.part(part))
        if part == string[0]:  # the others of a string give the same
            rows.append(_source_row(content, string, source, report, counts, own.get(part)))
    return rows


def _takes(source: SourceReport) -> bool:
    """Whether it is charged, by what is worth telling."""
    return source.watts < 0.0 and source.amps >= _TAKEN_A


_TAKEN_A = 0.1


def _counts(source: SourceReport, demands: Demands | None) -> float:
    """What a source of alternating current must be made for, in ampere; what others give, and what
    holds its current itself, as it is."""
    needed = source.needed
    if demands is None or not source.hertz or source.group.limits_itself:
        return source.amps
    return connected(needed.amps, needed.long_a, needed.motor_a, demands).total


def _source_row(
    content: Content,
    string: tuple[str, ...],
    source: SourceReport,
    report: StateReport,
    counts: float,
    own_a: float | None,
) -> list[Cell]:
    """``string``: the source with the batteries in series with it, which together give so many
    times its power; ``own_a``: of its own device, which stands for what a supply gives."""
    takes, needed = _takes(source), source.needed
    rated = None if takes else source.rated_a or own_a
    amps = source.amps if source.amps >= 1e-3 else 0.0
    more = counts > needed.amps * (1.0 + 1e-3)
    watts = abs(source.watts) * len(string)
    return [
        text(names_of(content, string), "cell", link=content.link_to(source.part)),
        content.say("charged with") if takes else content.say(source.name),
        f"{amps:.3g}",
        f"{needed.long_a:.3g}" if more and needed.long_a >= 1e-3 else "",
        f"{needed.motor_a:.3g} {content.name(needed.motor)}"
        if more and needed.motor_a >= 1e-3
        else "",
        f"{counts:.3g}" if more else "",
        f"{rated:.3g}" if rated else "" if takes else content.say("not limited"),
        f"{100 * (counts if amps else 0.0) / rated:.0f}" if rated else "",
        f"{watts:.0f}" if watts >= 0.5 else "",
        _state(content, report) if amps else "",
    ]


def _state(content: Content, report: StateReport) -> Cell:
    """By its number in the annex and what feeds then; without that annex by its positions."""
    if "states" not in content.titles:
        return report.spoken
    number = content.state_numbers[report.key]
    return text(f"{number}: {report.title}", "cell", link=f"state-{number}")


def _order(content: Content, key: tuple[str, str, bool]) -> tuple[object, ...]:
    return natural(content.name(key[0])), *key[1:]


# loads


def _loads(content: Content, room: Room) -> list[Flowable]:
    say, rows = content.say, _load_rows(content)
    if not rows:
        return []
    heads = [
        say("load"),
        say("VA or W"),
        say("A"),
        say("V least"),
        say("V rated"),
        say("% of rated"),
    ]
    heads.append(say("fed by"))
    return [
        with_room(),
        text(say("Load calculation: loads"), "heading"),
        table(heads, rows, room.width, right=(1, 2, 3, 4, 5)),
    ]


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
