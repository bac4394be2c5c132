"""Motor starting: what each motor asks of each source, and what is left for it and for lamps."""

from __future__ import annotations

from reportlab.platypus import Flowable

from linework.design.names import natural
from linework.handover.banks import names_of, string_of
from linework.handover.content import Content
from linework.handover.sheets import Room
from linework.handover.styles import Cell, table, text, with_room
from linework.study.report import StartReport
from linework.study.slack import exceeds


def motor_starting(content: Content, room: Room) -> list[Flowable]:
    """One line for each motor and source; nothing where no starting current is known."""
    say, rows = content.say, _rows(content)
    if not rows:
        return []
    heads = [say("motor"), say("starts A"), say("on"), say("gives then A"), say("for a start A")]
    heads += [say("holds"), say("V at motor"), say("%"), say("V at lights"), say("% there")]
    note = say(
        "One motor at a time, the other drawn loads on; worst state. Voltage: source at its"
        " weakest, wires hot; of the lights the worst. In [brackets] what is assumed."
    )
    return [
        with_room(),
        text(say("Motor starting"), "heading", anchor="starting"),
        text(note, "small"),
        table(heads, rows, room.width, right=(1, 3, 4, 6, 7, 8, 9)),
    ]


def _rows(content: Content) -> list[list[Cell]]:
    """Of each motor on each source; batteries in series, which give the same, once."""
    found: dict[tuple[str, str], list[StartReport]] = {}
    for report in content.reports:
        for start in report.starts:
            if start.source != string_of(content, content.design.part(start.source))[0]:
                continue
            found.setdefault((start.motor, start.source), []).append(start)
    keys = sorted(found, key=lambda k: (natural(content.name(k[0])), natural(content.name(k[1]))))
    return [_row(content, found[key]) for key in keys]


def _row(content: Content, starts: list[StartReport]) -> list[Cell]:
    """The most that is asked, and the least voltage, each in the state where it is worst."""
    most = max(starts, key=lambda s: s.asked_a / (s.surge_a or 1.0))
    motor = min(starts, key=lambda s: s.motor_v / s.rated_v)
    lit = [s for s in starts if s.lights_v is not None and s.lights_rated_v]
    string = string_of(content, content.design.part(most.source))
    lights = min(lit, key=lambda s: (s.lights_v or 0.0) / s.lights_rated_v, default=None)
    return [
        text(content.full_name(most.motor), "cell", link=content.link_to(most.motor)),
        _start(content, most),
        text(names_of(content, string), "cell", link=content.link_to(most.source)),
        f"{most.asked_a:.3g}",
        _surge(content, most),
        _holds(content, most),
        f"{motor.motor_v:.4g}",
        f"{100 * motor.motor_v / motor.rated_v:.0f}",
        "" if lights is None else f"{lights.lights_v:.4g}",
        "" if lights is None else f"{100 * (lights.lights_v or 0.0) / lights.lights_rated_v:.0f}",
    ]


def _start(content: Content, start: StartReport) -> str:
    """Given on the plate or by its soft starter; else assumed."""
    values = content.design.values(content.design.part(start.motor))
    known = any(k in values.declared and values.given(k) for k in ("start_current", "soft_start"))
    shown = f"{start.start_a:.3g}"
    return shown if known else f"[{shown}]"


def _surge(content: Content, start: StartReport) -> str:
    """Its short-time rating, where it has one."""
    if start.surge_a is None:
        return ""
    values = content.design.values(content.design.part(start.source))
    keys = ("surge", "discharge_peak", "discharge_limit")
    known = any(k in values.declared and values.given(k) for k in keys)
    shown = f"{start.surge_a:.3g}"
    return shown if known else f"[{shown}]"


def _holds(content: Content, start: StartReport) -> str:
    """By the short-time rating; of a source without one only the voltage tells."""
    if start.surge_a is None:
        return content.say("see voltage")
    return content.say("no") if exceeds(start.asked_a, start.surge_a) else content.say("yes")
