"""What of a drawing stands on shore, seen from a vehicle or boat."""

from __future__ import annotations

from linework.findings.view import View


def ashore(view: View, owner: str) -> set[str]:
    """All that hangs together with a source from which a hand-moved plug leads on board.

    Empty where no plug parts them: then everything drawn with it counts as on board.
    """
    found, waiting, parted = {owner}, [owner], False
    while waiting:
        part = waiting.pop()
        if view.kind(part).key == "body":
            return set()
        beside = {end.part for run in view.design.runs_at(part) for end in (run.a, run.b)}
        for seat in (*view.design.seated_in(part), *view.design.seats_of(part)):
            if "plug" in view.kind(seat.part).roles:
                parted = parted or seat.host == part
            else:
                beside |= {seat.part, seat.host}
        waiting += beside - found
        found |= beside
    return found if parted else set()
