"""The frozen values a design is made of; each has a short random id of its own."""

from __future__ import annotations

import secrets
from dataclasses import dataclass, field, replace

from linework.design.place import PlaceKind
from linework.kinds import Answer, Ratings
from linework.wiring import Pole

_LETTERS = "abcdefghijkmnpqrstuvwxyz23456789"


def new_id() -> str:
    """A short random id, never a position in a list."""
    return "".join(secrets.choice(_LETTERS) for _ in range(8))


@dataclass(frozen=True)
class Part:
    """One thing on the sheet.

    ``x`` and ``y`` in tenths of a paper millimetre, ``turn`` in quarter turns clockwise.
    """

    id: str
    kind: str
    designation: str
    ratings: Ratings = field(default_factory=Ratings)
    title: str = ""
    x: int = 0
    y: int = 0
    turn: int = 0
    mirror: bool = False
    sheet: int = 1
    extra: tuple[tuple[str, object], ...] = field(default=(), hash=False)
    """Fields of the file that this version does not know; kept on saving."""

    def rated(self, **answers: Answer | None) -> Part:
        """A copy with ratings set (text, Band, OneOf) or removed (None)."""
        return replace(self, ratings=self.ratings.with_answers(answers))


@dataclass(frozen=True, slots=True)
class End:
    """One end of a run."""

    part: str
    terminal: str


@dataclass(frozen=True)
class Run:
    """A cable, cord or jumper between two terminals.

    ``poles``: which pole at end a goes to which at end b; None is the default,
    each pole that both terminals have. ``route``: bends kept by the user, in
    tenths of a millimetre.
    """

    id: str
    a: End
    b: End
    designation: str = ""
    poles: tuple[tuple[Pole, Pole], ...] | None = None
    ratings: Ratings = field(default_factory=Ratings)
    route: tuple[tuple[int, int], ...] = ()
    extra: tuple[tuple[str, object], ...] = field(default=(), hash=False)


@dataclass(frozen=True)
class Seat:
    """A part sits in a place of another, or (hand-moved plug) may be put there."""

    id: str
    part: str
    host: str
    place: str


@dataclass(frozen=True)
class Interlock:
    """Positions that exclude each other: at most one of (part, selector, position) holds."""

    id: str
    excludes: tuple[tuple[str, str, str], ...]
    title: str = ""


@dataclass(frozen=True)
class Note:
    """A free text on the sheet."""

    id: str
    text: str
    x: int = 0
    y: int = 0
    sheet: int = 1


@dataclass(frozen=True)
class Accepted:
    """A finding that a person accepts, with the reason; stale when its fingerprint changes."""

    id: str
    rule: str
    subjects: tuple[str, ...]
    reason: str
    by: str
    date: str
    fingerprint: str


@dataclass(frozen=True)
class Settings:
    """What holds for the whole design. ``place`` is the kind of place, asked once."""

    id: str = "settings"
    family: str = "NA"
    edition: str = "2023"
    place: str = PlaceKind.VEHICLE.value
    voltage: str = "120 V"
    frequency: str = "60 Hz"
    sheet: str = "A3"
    job: str = ""
    site: str = ""
    drawn_by: str = ""
    checked_by: str = ""
    revision: str = "A"
    owner: str = ""
    """Legal owner of the drawing."""
    reference: str = ""
    """Whom to ask about it."""
    number: str = ""
    """What the numbers of the drawings begin with."""
    status: str = ""
    """How far it is, in words; empty: a design that is not built yet."""
    revisions: str = ""
    """A line for each revision, its fields parted by semicolons: letter; change; date; by whom."""
    wet: bool = False
    climate: str = ""
    """The place whose sun and warmth are taken, by its word in the table of climates."""
    latitude: str = ""
    """In degrees, south negative: "46.5"; with own figures of the sun, or to be told the nearest
    place of the table."""
    altitude: str = ""
    """Height above the sea: "2400 m"."""
    sun: str = ""
    """Own figures: kWh a day on a square metre that lies flat, twelve from January on."""
    warmth: str = ""
    """Own figures: mean temperature in degC, twelve from January on."""
    extra: tuple[tuple[str, object], ...] = field(default=(), hash=False)

    @property
    def kind_of_place(self) -> PlaceKind:
        """``place``, to be asked what it means. ValueError for a word that is none."""
        return PlaceKind(self.place)


Element = Part | Run | Seat | Interlock | Note | Accepted | Settings
