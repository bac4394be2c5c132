"""The sheets of schedules: what belongs together on one stretch of paper."""

from __future__ import annotations

from reportlab.platypus import Flowable

from linework.handover.conductors import conductor_schedule
from linework.handover.content import Content
from linework.handover.devices import device_schedule
from linework.handover.faults import fault_table
from linework.handover.loads_pages import load_calculation
from linework.handover.panels import panel_schedules
from linework.handover.sheets import Room, Sheet
from linework.handover.sources_pages import source_data
from linework.words import N_


def _boards_and_runs(content: Content, room: Room) -> list[Flowable]:
    return [*panel_schedules(content, room), *conductor_schedule(content, room)]


def _loads_devices_faults(content: Content, room: Room) -> list[Flowable]:
    loads = [*source_data(content, room), *load_calculation(content, room)]
    return [*loads, *device_schedule(content, room), *fault_table(content, room)]


RUNS = Sheet(
    "runs",
    N_("Panel and conductor schedules"),
    N_("schedule"),
    _boards_and_runs,
    flows=True,
    narrow=True,
)
DEVICES = Sheet(
    "devices",
    N_("Loads, devices, faults"),
    N_("schedule"),
    _loads_devices_faults,
    flows=True,
    narrow=True,
)
