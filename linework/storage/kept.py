"""What a file holds that this version does not know: kept as it is, to be written back."""

from __future__ import annotations

import json
from dataclasses import dataclass

Extra = tuple[tuple[str, object], ...]

ELSEWHERE = "*"
"""The entry of Settings.extra under which unknown fields lie that have no element of their own
to stay with: {"": those of the document itself, id: those of a seat, interlock, note or
accepted finding}."""


@dataclass(frozen=True, slots=True)
class Kept:
    """One unknown value, as JSON text: frozen like all that a design holds, and exact."""

    text: str

    @classmethod
    def of(cls, value: object) -> Kept:
        """A plain JSON value, kept."""
        return cls(json.dumps(value, ensure_ascii=False, sort_keys=True))

    @property
    def value(self) -> object:
        """The plain JSON value."""
        value: object = json.loads(self.text)
        return value


def kept(fields: dict[str, object]) -> Extra:
    """Unknown fields of one element, by name, as the element holds them."""
    return tuple(sorted((name, Kept.of(value)) for name, value in fields.items()))


def given_back(extra: Extra) -> dict[str, object]:
    """The same fields as plain JSON values."""
    return {name: value.value if isinstance(value, Kept) else value for name, value in extra}
