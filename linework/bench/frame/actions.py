"""The menus as data: what can be done, by which key, and which command does it."""

from __future__ import annotations

from dataclasses import dataclass

from linework.words import N_


@dataclass(frozen=True)
class Item:
    """One line of a menu. ``does``: a command; ``check``: it holds a choice."""

    does: str
    label: str
    keys: tuple[str, ...] = ()
    tip: str = ""
    check: bool = False


@dataclass(frozen=True)
class Line:
    """A line between two groups."""


@dataclass(frozen=True)
class Sub:
    """A menu inside a menu that the window fills."""

    name: str
    label: str


@dataclass(frozen=True)
class Menu:
    """One menu of the bar."""

    label: str
    entries: tuple[Item | Line | Sub, ...]


MENUS = (
    Menu(
        N_("&File"),
        (
            Item("new", N_("&New…"), ("Ctrl+N",)),
            Item("open", N_("&Open…"), ("Ctrl+O",)),
            Sub("recent", N_("Open a&gain")),
            Line(),
            Item("save", N_("&Save"), ("Ctrl+S",)),
            Item("save_as", N_("Save &as…"), ("Ctrl+Shift+S",)),
            Item("hand_over", N_("&Drawing set…"), ("Ctrl+P",), N_("Write the drawing set as PDF")),
            Line(),
            Item("job", N_("The &job…"), ("Ctrl+J",), N_("What holds for the whole drawing")),
            Line(),
            Item("close", N_("&Quit"), ("Ctrl+Q",)),
        ),
    ),
    Menu(
        N_("&Edit"),
        (
            Item("undo", N_("&Undo"), ("Ctrl+Z",)),
            Item("redo", N_("&Redo"), ("Ctrl+Y", "Ctrl+Shift+Z")),
            Line(),
            Item("cut", N_("Cu&t"), ("Ctrl+X",)),
            Item("copy", N_("&Copy"), ("Ctrl+C",)),
            Item("paste", N_("&Paste"), ("Ctrl+V",)),
            Item("duplicate", N_("&Duplicate"), ("Ctrl+D",)),
            # its key belongs to whatever has the focus: a field deletes a letter with it
            Item("remove", N_("De&lete\tDel")),
            Item("choose_all", N_("Choose &all"), ("Ctrl+A",)),
            Item(
                "assumed",
                N_("What is assu&med…"),
                ("Ctrl+G",),
                N_("Go through what was assumed, one question after the other"),
            ),
            Item("find", N_("&Find…"), ("Ctrl+F",), N_("Find a part, run, note or finding")),
            Line(),
            Item(
                "run", N_("Dra&w a run…"), ("Ctrl+R",), N_("Draw a run from terminal to terminal")
            ),
            Item("interlock", N_("&Interlock what is chosen"), ("Ctrl+L",)),
            Item("unlock", N_("Remove their interloc&ks"), ("Ctrl+Shift+L",)),
            Item("note", N_("&Note…"), ("Ctrl+T",), N_("A text on the sheet")),
            Item(
                "arrange",
                N_("Arran&ge the sheet"),
                (),
                N_("Lay everything out anew"),
            ),
        ),
    ),
    Menu(
        N_("&View"),
        (
            Item("closer", N_("Zoom &in"), ("Ctrl++", "Ctrl+=")),
            Item("further", N_("Zoom &out"), ("Ctrl+-",)),
            Item("whole_page", N_("&Whole sheet"), ("Ctrl+0",)),
            Line(),
            Item(
                "card", N_("The car&d"), ("F2",), N_("Put the hand on the card of what is chosen")
            ),
            Item(
                "tree",
                N_("Parts &tree"),
                ("F3",),
                N_("All parts, runs and findings as a list"),
                True,
            ),
            Item("to_margin", N_("&Margin"), ("F4",), N_("Put the hand on the findings")),
            Item("to_levers", N_("&Levers"), ("F5",), N_("Put the hand on the levers")),
            Item("to_sheet", N_("&Sheet"), ("F6",), N_("Put the hand on the sheet")),
            Line(),
            Item("walk", N_("W&alk the states"), ("F8",), N_("Step to the next operating state")),
            Item("walk_back", N_("Walk &back"), ("Shift+F8",)),
            Line(),
            Sub("sheets", N_("S&heets")),
            Sub("looks", N_("Colo&rs")),
        ),
    ),
    Menu(
        N_("&Help"),
        (
            Item(
                "guide",
                N_("&Guide"),
                ("F1",),
                N_("How to work; what is chosen and why a rule is, in words"),
            ),
            Item("keys", N_("&Keys"), ("Shift+F1",)),
            Item("about", N_("&About")),
        ),
    ),
)
"""All menus, in their order."""


def items() -> list[Item]:
    """Every line that does something."""
    return [entry for menu in MENUS for entry in menu.entries if isinstance(entry, Item)]
