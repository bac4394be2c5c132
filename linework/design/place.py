"""The kinds of place that a system may serve, and what of them standards and rules ask for."""

from __future__ import annotations

from enum import StrEnum


class PlaceKind(StrEnum):
    """What the system stands in; asked once for the whole design."""

    RECREATIONAL = "recreational"
    VEHICLE = "vehicle"
    BOAT = "boat"
    BUILDING = "building"
    FIELD = "field"

    @property
    def on_wheels(self) -> bool:
        """A vehicle: its chassis may serve as a conductor, and vehicle standards hold."""
        return self in (PlaceKind.RECREATIONAL, PlaceKind.VEHICLE)

    @property
    def afloat(self) -> bool:
        """In water, which joins all metal below the line: marine standards hold."""
        return self is PlaceKind.BOAT

    @property
    def aboard(self) -> bool:
        """The wiring moves with what it stands in: no electrode of its own, mains by a cord."""
        return self.on_wheels or self.afloat

    @property
    def slept_in(self) -> bool:
        """People may sleep there, near engines and batteries."""
        return self in (PlaceKind.RECREATIONAL, PlaceKind.BOAT, PlaceKind.BUILDING)
