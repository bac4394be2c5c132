"""What came of every situation, in a table."""

from __future__ import annotations

import importlib
import pkgutil
from collections.abc import Iterator, Mapping

import tests.cases as home
from tests.cases.case import Case, Verdict

_HEAD = ("no.", "family", "truth", "", "expected", "hit", "figures", "false alarms")


def cases() -> dict[str, Case]:
    """Every situation drawn here, by its number."""
    found = {}
    for name in sorted(m.name for m in pkgutil.iter_modules(home.__path__)):
        if name.startswith("test_case_"):
            case = getattr(importlib.import_module(f"{home.__name__}.{name}"), "CASE", None)
            if isinstance(case, Case):
                found[name.removeprefix("test_case_")] = case
    return found


def table(verdicts: Mapping[str, tuple[Case, Verdict]]) -> str:
    """The table, what was missed or falsely told and why, and the totals."""
    rows = [_HEAD, *(_row(number, *held) for number, held in verdicts.items())]
    widths = [max(len(row[i]) for row in rows) for i in range(len(_HEAD))]
    lines = [
        "  ".join(cell.ljust(width) for cell, width in zip(row, widths, strict=True)).rstrip()
        for row in rows
    ]
    return "\n".join([*lines, "", *_told(verdicts), *_totals(verdicts)])


def _row(number: str, case: Case, verdict: Verdict) -> tuple[str, ...]:
    expected, hit = (sum(e.counts for e in part) for part in (case.expected, verdict.hit))
    figures = f"{len(verdict.figures) - len(verdict.off)} of {len(verdict.figures)}"
    return (
        number,
        case.family,
        case.truth,
        " ".join(("surprising",) * case.surprising + ("arguable",) * case.doubtful),
        str(expected) if expected else "-",
        str(hit) if expected else "-",
        figures if verdict.figures else "-",
        str(len(verdict.alarms)) if verdict.alarms else "-",
    )


def _told(verdicts: Mapping[str, tuple[Case, Verdict]]) -> Iterator[str]:
    for number, (_, verdict) in verdicts.items():
        for missed in verdict.missed:
            level = "" if missed.counts else " (only worth knowing)"
            reason = missed.why_missed or "not found there"
            yield f"{number} misses {missed.key} at {missed.at}{level}: {reason}"
        for alarm in verdict.alarms:
            yield f"{number} false alarm: {alarm}"
        for missed, value in verdict.off:
            yield f"{number} figure of {missed.key} off: {value:g}"


def _totals(verdicts: Mapping[str, tuple[Case, Verdict]]) -> Iterator[str]:
    held = list(verdicts.values())
    for title, part in (
        ("all", held),
        ("surprising", [item for item in held if item[0].surprising]),
        ("arguable, as experts differ", [item for item in held if item[0].doubtful]),
    ):
        asked = [e.counts for case, _ in part for e in case.expected]
        hits = sum(e.counts for _, verdict in part for e in verdict.hit)
        fine = [verdict for case, verdict in part if case.truth == "fine"]
        alarmed = sum(bool(verdict.alarms) for verdict in fine)
        wrong = sum(len(verdict.alarms) for _, verdict in part)
        yield (
            f"{title}: {len(part)} situations; expected dangers and warnings found {hits} of"
            f" {sum(asked)}; fine ones with a false alarm {alarmed} of {len(fine)}; false alarms"
            f" in all {wrong}"
        )
    figures = [len(verdict.figures) for _, verdict in held]
    off = [len(verdict.off) for _, verdict in held]
    yield f"figures within their limits {sum(figures) - sum(off)} of {sum(figures)}"
