"""Edits of what lies beside parts and runs."""

from __future__ import annotations

from dataclasses import fields, replace

from linework.design.change import Change, EditError, changed
from linework.design.elements import Accepted, Interlock, Note, Settings, new_id
from linework.design.model import Design
from linework.words import say


def change_settings(design: Design, **answers: object) -> Change:
    """Settings of the whole design by name."""
    known = {f.name for f in fields(Settings)} - {"id"}
    for name in answers:
        if name not in known:
            raise EditError(say("there is no setting '{name}'", name=name))
    return changed(say("settings"), [(design.settings, replace(design.settings, **answers))])  # type: ignore[arg-type]


def add_interlock(design: Design, excludes: list[tuple[str, str, str]], title: str = "") -> Change:
    """Positions (part id, selector, position) of which at most one may hold."""
    if len(excludes) < 2:
        raise EditError(say("an interlock needs at least two positions"))
    for part_id, _, _ in excludes:
        design.part(part_id)
    return changed(say("interlock"), [(None, Interlock(new_id(), tuple(excludes), title))])


def add_note(design: Design, text: str, at: tuple[int, int], sheet: int = 1) -> Change:
    """A text on the sheet."""
    return changed(say("note"), [(None, Note(new_id(), text, at[0], at[1], sheet))])


def change_note(design: Design, note_id: str, text: str) -> Change:
    """Other words for a note."""
    note = design.get(note_id)
    if not isinstance(note, Note):
        raise EditError(say("this note is no longer there"))
    return changed(say("note"), [(note, replace(note, text=text))])


def accept_finding(
    design: Design,
    rule: str,
    subjects: tuple[str, ...],
    fingerprint: str,
    *,
    reason: str,
    by: str,
    date: str,
) -> Change:
    """A finding accepted; the reason is required."""
    if not reason.strip():
        raise EditError(say("write the reason why this is accepted"))
    new = Accepted(new_id(), rule, subjects, reason.strip(), by, date, fingerprint)
    old = [
        (item, None) for item in design.accepted if (item.rule, item.subjects) == (rule, subjects)
    ]
    return changed(say("accept {rule}", rule=rule), [*old, (None, new)])


def drop_element(design: Design, element_id: str) -> Change:
    """An interlock, note or acceptance taken away."""
    found = design.get(element_id)
    if not isinstance(found, Interlock | Note | Accepted):
        raise EditError(say("there is nothing to take away"))
    return changed(say("remove"), [(found, None)])
