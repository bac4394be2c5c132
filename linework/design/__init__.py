"""The document: what the user drew, its edits, its history."""

from linework.design.change import Change, EditError, changed, merged
from linework.design.draft import Draft
from linework.design.elements import (
    Accepted,
    Element,
    End,
    Interlock,
    Note,
    Part,
    Run,
    Seat,
    Settings,
    new_id,
)
from linework.design.history import History
from linework.design.model import Design
from linework.design.place import PlaceKind
from linework.design.poles import PoleMap, default_map, pole_map, terminal_at

__all__ = [
    "Accepted",
    "Change",
    "Design",
    "Draft",
    "EditError",
    "Element",
    "End",
    "History",
    "Interlock",
    "Note",
    "Part",
    "PlaceKind",
    "PoleMap",
    "Run",
    "Seat",
    "Settings",
    "changed",
    "default_map",
    "merged",
    "new_id",
    "pole_map",
    "terminal_at",
]
