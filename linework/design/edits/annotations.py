"""Edits of what lies beside parts and runs."""

from __future__ import annotations

from collections.abc import Collection
from dataclasses import fields, replace

from linework.design.change import Change, EditError, changed
from linework.design.edits.found import guessed, part_in
from linework.design.elements import Accepted, Interlock, Note, Settings, new_id
from linework.design.model import Design
from linework.design.positions import positions_of
from linework.design.settings import in_plain_units, setting_faults
from linework.words import say

_ASKED = {f.name: type(f.default) for f in fields(Settings) if f.name != "id"}


def change_settings(design: Design, **answers: object) -> Change:
    """Settings of the whole design by name."""
    for name, answer in answers.items():
        if name not in _ASKED:
            raise EditError(guessed(say("there is no setting '{name}'", name=name), name, _ASKED))
        if not isinstance(answer, _ASKED[name]):
            raise EditError(say("'{name}' cannot be {answer}", name=name, answer=repr(answer)))
    after = replace(design.settings, **answers)  # type: ignore[arg-type]
    for name, message in setting_faults(after, guessed):
        raise EditError(f"{name}: {message}")
    return changed(say("settings"), [(design.settings, in_plain_units(after))])


def add_interlock(design: Design, excludes: list[tuple[str, str, str]], title: str = "") -> Change:
    """Positions (part id, selector, position) of which at most one may hold."""
    if len(set(excludes)) < max(2, len(excludes)):
        raise EditError(say("an interlock needs at least two positions, each named once"))
    for part_id, selector, position in excludes:
        part = part_in(design, part_id)
        if position not in positions_of(design, part, design.seats_of(part_id)).get(selector, ()):
            raise EditError(
                say(
                    "{what} has no position '{position}' of '{selector}'",
                    what=part.designation,
                    selector=selector,
                    position=position,
                )
            )
    return changed(say("interlock"), [(None, Interlock(new_id(), tuple(excludes), title))])


def add_note(design: Design, text: str, at: tuple[int, int], sheet: int = 1) -> Change:
    """A text on the sheet."""
    new = Note(new_id(), _written(text), at[0], at[1], sheet)
    return changed(say("note"), [(None, new)])


def change_note(design: Design, note_id: str, text: str) -> Change:
    """Other words for a note."""
    note = design.get(note_id)
    if not isinstance(note, Note):
        raise EditError(say("this note is no longer there"))
    return changed(say("note"), [(note, replace(note, text=_written(text)))])


def _written(text: str) -> str:
    if not text.strip():
        raise EditError(say("write the text of the note"))
    return text


def accept_finding(
    design: Design,
    rule: str,
    subjects: tuple[str, ...],
    fingerprint: str,
    *,
    reason: str,
    by: str,
    date: str,
    instead_of: Collection[str] = (),
) -> Change:
    """A finding accepted; the reason is required.

    ``instead_of``: ids of acceptances that it takes the place of, besides one of the same
    fingerprint.
    """
    if not reason.strip():
        raise EditError(say("write the reason why this is accepted"))
    new = Accepted(new_id(), rule, subjects, reason.strip(), by, date, fingerprint)
    old = [
        (item, None)
        for item in design.accepted
        if item.id in instead_of or item.fingerprint == fingerprint
    ]
    return changed(say("accept {rule}", rule=rule), [*old, (None, new)])


def drop_element(design: Design, element_id: str) -> Change:
    """An interlock, note or acceptance taken away."""
    found = design.get(element_id)
    if not isinstance(found, Interlock | Note | Accepted):
        raise EditError(say("there is nothing to take away"))
    return changed(say("remove"), [(found, None)])
