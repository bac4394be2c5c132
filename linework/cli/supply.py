"""linework supply: whether a design carries its loads, and for how long."""

from __future__ import annotations

import argparse
import json
import sys
from pathlib import Path
from typing import Any

from linework.design import Design
from linework.words import say

NOT_WORKED_OUT = 2


def run(design: Design, arguments: argparse.Namespace) -> int:
    """Print the answer; 1 if loads were left out of it, 2 if it cannot be worked out."""
    # Late: the numerical library is wanted by few commands.
    from linework.supply import SupplyError, answer
    from linework.supply.climate import from_file
    from linework.supply.telling import run_together, sentences
    from linework.supply.together import together

    try:
        climate = None
        if arguments.climate:
            text = Path(arguments.climate).read_text(encoding="utf-8-sig")
            climate = from_file(text, design.settings.latitude)
        found = answer(design, arguments.years, arguments.seed, climate)
        sets = together(design)
    except (SupplyError, OSError, ValueError) as fault:
        print(fault, file=sys.stderr)
        return NOT_WORKED_OUT
    if arguments.json:
        print(json.dumps(as_object(design, found, sets), indent=1, ensure_ascii=False))
    else:
        print("\n".join([*run_together(design, sets), *sentences(design, found)]))
    return 1 if found.sealed or found.never_fed else 0


def as_object(design: Design, found: Any, sets: Any = ()) -> dict[str, Any]:
    """The answer as plain data: bands are lists of low, usual, high."""

    def month(each: Any) -> dict[str, list[float]]:
        return {key: [band.low, band.usual, band.high] for key, band in vars(each).items()}

    def names(parts: tuple[str, ...]) -> list[str]:
        return [design.part(part).designation for part in parts]

    return {
        "place": found.climate.place,
        "place_assumed": found.climate.assumed,
        "year": month(found.year),
        "months": [month(each) for each in found.months],
        "worst_month": found.worst + 1,
        "empty_at": list(found.floor),
        "mean_load_of_sets": found.set_load,
        "typical_charge": [
            [[round(x, 4) for x in bank] for bank in found.typical[:, :, m].T.tolist()]
            for m in range(12)
        ],
        "moves_most": [
            {"what": say(m.assumption.what), "part": _name(design, m.assumption.part),
             "low": list(m.low), "high": list(m.high)}
            for m in found.moved
        ],
        "assumptions": [
            {"what": say(a.what), "part": _name(design, a.part), "assumed": a.assumed,
             "band": [a.band.low, a.band.usual, a.band.high], "note": a.note,
             "confidence": a.confidence.value}
            for a in found.assumptions
        ],
        "together": [
            {"source": _name(design, s.source), "mode": vars(s.mode), "rated_a": s.rated_a,
             "surge_a": s.surge_a, "carried": [names(each) for each in s.carried],
             "barred": [names(each) for each in s.barred], "always_on": names(s.always)}
            for s in sets
        ],
        "not_worked_out": names(found.sealed),
        "never_fed": names(found.never_fed),
        "only_on_shore_or_set": names(found.outer_only),
    }  # fmt: skip


def _name(design: Design, part: str) -> str:
    return design.part(part).designation if part else ""
