"""The edit of many mends: a part put into a run, with the length of the run shared out."""

from __future__ import annotations

from collections.abc import Mapping

from linework.design import Change, Design, Part, Run, merged
from linework.design.edits import insert_on_run, rate_run
from linework.kinds import Answer
from linework.quantity import write


def put_into(
    design: Design,
    run: Run,
    kind: str,
    ratings: Mapping[str, Answer],
    lengths_m: tuple[float, float],
) -> Change:
    """The run cut in two round a new part; ``lengths_m`` of the piece at its end a, and the rest.

    The part lies between the parts at the run's ends.
    """
    ends = [design.part(end.part) for end in (run.a, run.b)]
    middle = (ends[0].x + ends[1].x) // 50 * 25, (ends[0].y + ends[1].y) // 50 * 25
    inserted = insert_on_run(design, run.id, kind, at=middle, ratings=ratings)
    copy = design.snapshot()
    copy.apply(inserted)
    added = next(new for new in _new(inserted) if isinstance(new, Run))
    change = merged(inserted.title, inserted)
    for run_id, length in zip((run.id, added.id), lengths_m, strict=True):
        step = rate_run(copy, run_id, {"length": write(length, "length")})
        copy.apply(step)
        change = merged(inserted.title, change, step)
    return change


def _new(change: Change) -> list[Part | Run]:
    return [
        now
        for before, now in change.pairs.values()
        if before is None and isinstance(now, Part | Run)
    ]
