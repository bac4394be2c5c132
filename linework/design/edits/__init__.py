"""Edits: pure functions from a design to a named Change. One that cannot be raises EditError."""

from linework.design.edits.annotations import (
    accept_finding,
    add_interlock,
    add_note,
    change_note,
    change_settings,
    drop_element,
)
from linework.design.edits.insertion import insert_on_run
from linework.design.edits.parts import (
    add_part,
    move_parts,
    rate,
    remove,
    rename,
    retitle,
    turn_parts,
)
from linework.design.edits.runs import add_run, rate_run, rename_run, reroute, set_poles
from linework.design.edits.seats import seat, unseat

__all__ = [
    "accept_finding",
    "add_interlock",
    "add_note",
    "add_part",
    "add_run",
    "change_note",
    "change_settings",
    "drop_element",
    "insert_on_run",
    "move_parts",
    "rate",
    "rate_run",
    "remove",
    "rename",
    "rename_run",
    "reroute",
    "retitle",
    "seat",
    "set_poles",
    "turn_parts",
    "unseat",
]
