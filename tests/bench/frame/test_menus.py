"""The lines of the menus, their keys and commands."""

from __future__ import annotations

from itertools import combinations

from PySide6.QtGui import QKeySequence

from linework.bench.frame.actions import items
from linework.bench.frame.commands import Commands


def test_every_menu_line_has_a_command_and_no_key_twice() -> None:
    for item in items():
        assert callable(getattr(Commands, f"do_{item.does}"))
    keys = [QKeySequence(k).toString() for item in items() for k in item.keys]
    assert all(keys)
    assert len(keys) == len(set(keys))


def test_every_command_is_in_a_menu() -> None:
    known = {f"do_{item.does}" for item in items()}
    assert {name for name in dir(Commands) if name.startswith("do_")} == known


def test_no_two_lines_of_a_menu_share_their_letter() -> None:
    from linework.bench.frame.actions import MENUS, Item, Sub

    for menu in MENUS:
        labels = [e.label for e in menu.entries if isinstance(e, Item | Sub)]
        letters = [label[label.index("&") + 1].lower() for label in labels]
        lines = zip(letters, labels, strict=True)
        assert [pair for pair in combinations(lines, 2) if pair[0][0] == pair[1][0]] == []
