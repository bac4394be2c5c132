"""What makes a source's power: the few facts of it that circuits and rules ask for."""

from __future__ import annotations

from enum import StrEnum


class SourceGroup(StrEnum):
    """What stands behind an electromotive force.

    Who asks about a source asks for one of the properties, never for a member: a new group then
    declares which of them it has.
    """

    SUPPLY = "supply"
    SET = "set"
    INVERTER = "inverter"
    CHARGER = "charger"
    ALTERNATOR = "alternator"
    CELLS = "cells"
    PACK = "pack"
    SOLAR = "solar"
    WINDING = "winding"
    NONE = ""

    @property
    def off_site(self) -> bool:
        """Comes from elsewhere: the network and its first device belong to others."""
        return self is SourceGroup.SUPPLY

    @property
    def driven(self) -> bool:
        """An engine turns it: it burns fuel, and its winding carries more than its rating."""
        return self is SourceGroup.SET

    @property
    def stores(self) -> bool:
        """A store: it holds its voltage, is never dead, and takes back what it gave."""
        return self is SourceGroup.CELLS

    @property
    def sealed(self) -> bool:
        """A store inside another part: it holds the voltage of what charges it, and no wire of the
        drawing ends at it."""
        return self is SourceGroup.PACK

    @property
    def charges(self) -> bool:
        """Gives its current into a store at the voltage of that, and holds none by itself."""
        return self in (SourceGroup.CHARGER, SourceGroup.ALTERNATOR)

    @property
    def needs_store(self) -> bool:
        """Must never be parted from its store while it gives: its voltage would leap."""
        return self is SourceGroup.ALTERNATOR

    @property
    def solar(self) -> bool:
        """Light makes it: live by day, with a voltage that rises as it gets colder."""
        return self is SourceGroup.SOLAR

    @property
    def limits_itself(self) -> bool:
        """Cannot be overloaded: light or electronics bound its current, and its voltage at the
        terminals is no nominal one."""
        return self.charges or self.solar
