"""linework study: every computed number of every state, as text or as one JSON object."""

from __future__ import annotations

import argparse
import json
import math
from dataclasses import asdict
from typing import Any

from linework.analysis import Analysis, analyse
from linework.design import Design
from linework.findings.evidence import value_text
from linework.findings.explain import sentence_of_tester
from linework.study.report import FaultReport, StateReport
from linework.study.tester import Reading
from linework.words import say


def run(design: Design, arguments: argparse.Namespace) -> int:
    """Print the numbers; 1 if something could not be analysed."""
    analysis = analyse(design)
    if arguments.json:
        print(json.dumps(as_object(design, analysis), indent=1, ensure_ascii=False))
    else:
        print("\n".join(as_lines(design, analysis)))
    return 1 if analysis.gaps else 0


def as_object(design: Design, analysis: Analysis) -> dict[str, Any]:
    """All states with potentials, currents, faults and readings as plain data."""
    return {
        "combinations": analysis.combinations,
        "complete": analysis.complete,
        "states": [_state(design, r) for r in analysis.reports],
        "not_checked": [
            {"id": g.rule, "reason": g.reason, "parts": list(g.where)} for g in analysis.gaps
        ],
    }


def _name(design: Design, element_id: str) -> str:
    element = design.get(element_id)
    return getattr(element, "designation", "") or element_id


def _state(design: Design, r: StateReport) -> dict[str, Any]:
    def name(element_id: str) -> str:
        return _name(design, element_id)

    return {
        "key": r.key,
        "title": r.title,
        "case": r.case,
        "passing": name(r.passing) if r.passing else "",
        "positions": {f"{name(p)}.{s}": word for (p, s), word in sorted(r.positions.items())},
        "live": {f"{name(p)}.{t}": [name(o) for o in owners] for (p, t), owners in r.live.items()},
        "bonds": [
            {
                "sources": [name(s) for s in b.sources],
                "ac": b.is_ac,
                "places": [name(p) for p in b.places],
                "ring": b.ring,
            }
            for b in r.bonds
        ],
        "potentials_v": {
            hertz: {
                f"{name(p)}.{t}.{pole}": [finite(v.real), finite(v.imag)]
                for (p, t, pole), v in volts.items()
            }
            for hertz, volts in r.volts.items()
        },
        "currents_a": {f"{name(run)}.{pole}": a for (run, pole), a in sorted(r.run_a.items())},
        "ground_a": {name(owner): a for owner, a in sorted(r.ground_a.items())},
        "residual_ma": {name(owner): a for owner, a in sorted(r.residual_ma.items())},
        "loads": [
            {**asdict(x), "part": name(x.part), "sources": [name(s) for s in x.sources]}
            for x in r.loads
        ],
        "sources": [{**asdict(s), "part": name(s.part)} for s in r.sources],
        "faults": [_fault(design, f) for f in r.faults],
        "tester": [_reading(design, x) for x in r.readings],
        "solved": r.solved,
        "cause": r.cause,
    }


def finite(value: float | None) -> float | str | None:
    """JSON knows neither infinity nor NaN: "never" and "not defined" stand for them."""
    if value is None or math.isfinite(value):
        return value
    return "not defined" if math.isnan(value) else "never"


def _fault(design: Design, f: FaultReport) -> dict[str, Any]:
    return {
        "at": f"{_name(design, f.part)}.{f.terminal}",
        "from": f.pole,
        "to": f.to,
        "kind": f.kind,
        "least_a": f.weak_a,
        "most_a": f.strong_a,
        "metal_v": finite(f.metal_v),
        "metal_later_v": finite(f.later_v),
        "ended_by": f.by if f.by == "source" else _name(design, f.by) if f.by else "nothing",
        "latest_s": finite(f.latest_s),
        "earliest_s": finite(f.earliest_s),
    }


def _reading(design: Design, x: Reading) -> dict[str, Any]:
    pairs = ("line_neutral", "line_ground", "neutral_ground")
    return {
        "outlet": _name(design, x.owner),
        "volts": dict(zip(pairs, x.volts, strict=True)),
        "lamps": dict(zip(pairs, x.lamps, strict=True)),
        "meter_v": dict(zip(pairs, map(finite, x.meter_v), strict=True)),
        "ground_wire_whole": x.ground_whole,
        "bonded": x.bonded,
        "picture": x.picture,
        "explanation": sentence_of_tester(x, design.settings.family),
    }


def as_lines(design: Design, analysis: Analysis) -> list[str]:
    """The state table as text."""
    lines: list[str] = []
    for r in analysis.reports:
        lines += _state_lines(design, r)
    return lines


def _state_lines(design: Design, r: StateReport) -> list[str]:
    head = f"{r.spoken or '-'}: {r.title}" + (f" ({r.case})" if r.case else "")
    bonds = [_bond_line(design, b.sources, b.places, b.ring) for b in r.bonds if b.is_ac]
    loads = [
        f"{_name(design, x.part)}: {value_text(x.volts, 'voltage')} {value_text(x.amps, 'current')}"
        for x in r.loads
    ]
    testers = [
        f"{_name(design, x.owner)}: {sentence_of_tester(x, design.settings.family)}"
        for x in r.readings
    ]
    return [head, *(f"    {line}" for line in (*bonds, *loads, *testers))]


def _bond_line(
    design: Design, sources: tuple[str, ...], places: tuple[str, ...], ring: bool
) -> str:
    where = ", ".join(_name(design, p) for p in places) or say("none")
    text = say(
        "{neutral_ground_link}s on {source}: {where}",
        family=design.settings.family,
        source=", ".join(_name(design, s) for s in sources),
        where=where,
    )
    return text + (say(" (on a ring)") if ring else "")
