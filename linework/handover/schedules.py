"""The sheets of schedules: what belongs together on one stretch of paper."""

from __future__ import annotations

from linework.handover.conductors import conductor_schedule
from linework.handover.content import Content
from linework.handover.devices import device_schedule
from linework.handover.faults import fault_table
from linework.handover.loads_pages import load_calculation
from linework.handover.panels import panel_schedules
from linework.handover.sheets import NARROW, USUAL, Band, Room, Sheet
from linework.handover.sources_pages import source_data
from linework.handover.trips import charts
from linework.words import N_


def _boards_and_runs(content: Content, room: Room) -> list[Band]:
    """The boards in narrow columns where there are so many of them."""
    usual, narrow = room.columns(USUAL), room.columns(NARROW)
    boards = sum(content.design.kind(part).board for part in content.design.parts)
    count = narrow if boards >= narrow else usual
    return [
        Band(count, panel_schedules(content, room.column(count))),
        Band(usual, conductor_schedule(content, room.column(usual))),
    ]


def _loads_and_devices(content: Content, room: Room) -> list[Band]:
    usual = room.columns(USUAL)
    column = room.column(usual)
    loads = [*source_data(content, column), *load_calculation(content, column)]
    return [Band(usual, [*loads, *device_schedule(content, column)])]


def _charts_and_faults(content: Content, room: Room) -> list[Band]:
    """The faults in narrow columns, for they are many rows of a few figures; but beside a chart
    that leaves a column free."""
    drawn = charts(content, room)
    beside = bool(drawn) and not drawn[0].head
    count = drawn[0].columns if beside else room.columns(NARROW)
    return [*drawn, Band(count, fault_table(content, room.column(count)))]


RUNS = Sheet("runs", N_("Panel and conductor schedules"), N_("schedule"), _boards_and_runs)
DEVICES = Sheet("devices", N_("Loads and devices"), N_("schedule"), _loads_and_devices)
TRIPS = Sheet("trips", N_("Faults, time and current"), N_("time-current chart"), _charts_and_faults)
