"""How many conductors a raceway or a box may hold (NFPA 70 chapter 9, 314.16)."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from linework.codes.errors import not_among, not_in_table
from linework.codes.na.edition import LATEST, cite
from linework.codes.sizes import nearest_sizes, size_of
from linework.codes.tables import by, confidence_of, rows
from linework.codes.value import Sourced, weakest
from linework.data import Confidence

_INSULATIONS = {
    "THHN": "thhn_thwn2_area_in2",
    "THWN-2": "thhn_thwn2_area_in2",
    "XHHW-2": "xhhw_area_in2",
    "THW": "thw_thhw_area_in2",
}


def conductor_area_in2(size: str, insulation: str, edition: str = LATEST) -> Sourced[float]:
    """Area in square inches of one insulated conductor (chapter 9 table 5).

    CodesError for other insulations than THHN, THWN-2, XHHW-2, THW, and sizes not in the table.
    """
    if insulation not in _INSULATIONS:
        raise not_among(insulation, _INSULATIONS)
    clause = cite("chapter 9 table 5", edition)
    table = by("na/insulated_conductors_ch9_5", "size")
    text = size_of(size).text
    row = table.get(text)
    if row is None:
        raise not_in_table(text, clause, nearest_sizes(text, table))
    where = f"{text} {insulation}"
    area = float(row[_INSULATIONS[insulation]])
    return Sourced(area, "in2", clause, where, confidence_of(row), row["sources"], edition)


def raceway_fill(conductors: int, edition: str = LATEST) -> Sourced[float]:
    """The part of its inside that so many conductors may take of a raceway (chapter 9 table 1)."""
    case = {1: "1 conductor or cable", 2: "2 conductors or cables"}.get(conductors, "3 or more")
    row = by("na/fill_ch9_1", "case")[case]
    share = float(row["max_fill_percent"]) / 100.0
    clause = cite("chapter 9 table 1", edition)
    return Sourced(share, "", clause, case, confidence_of(row), row["sources"], edition)


def raceway_room_in2(
    raceway: str, trade_size: str, conductors: int, edition: str = LATEST
) -> Sourced[float]:
    """Area in square inches that conductors may fill in a raceway (chapter 9 tables 1 and 4).

    ``raceway``: "EMT", "FMC", "LFNC-B", "LFNC-A", "LFMC", "PVC-40", "ENT", "RMC". CodesError,
    naming the sizes there are. Nipples up to 24 in have 60 % and are not considered.
    """
    clause = cite("chapter 9 tables 1 and 4", edition)
    mine = {
        r["trade_size_in"]: r for r in rows("na/raceway_areas_ch9_4") if r["raceway"] == raceway
    }
    row = mine.get(trade_size)
    if row is None:
        known = mine or dict.fromkeys(r["raceway"] for r in rows("na/raceway_areas_ch9_4"))
        raise not_in_table(f"{raceway} {trade_size}", clause, known)
    share = raceway_fill(conductors, edition)
    inside = f"{share.value:.0%} of {row['total_area_in2']} in2"
    return Sourced(
        float(row["total_area_in2"]) * share.value,
        "in2",
        clause,
        f"{raceway} {trade_size}, {share.row}: {inside}",
        weakest(confidence_of(row), share.confidence),
        f"{row['sources']}; {share.source}",
        edition,
    )


def volume_allowance_in3(size: str, edition: str = LATEST) -> Sourced[float]:
    """Volume in cubic inches that one conductor takes in a box (table 314.16(B)(1)).

    CodesError outside 18 to 6 AWG.
    """
    clause = cite("Table 314.16(B)(1)" if edition >= "2020" else "Table 314.16(B)", edition)
    table = by("na/volume_allowance_314_16_B", "size")
    text = size_of(size).text
    row = table.get(text)
    if row is None:
        raise not_in_table(text, clause, nearest_sizes(text, table))
    volume = float(row["volume_in3"])
    return Sourced(volume, "in3", clause, text, confidence_of(row), row["sources"], edition)


def ground_allowances(count: int, edition: str = LATEST) -> Sourced[float]:
    """Allowances of the largest ground wire that ``count`` ground wires take together.

    One for up to four; since 2020 a quarter more for each beyond four (from memory).
    """
    more = 0.25 * max(count - 4, 0) if edition >= "2020" else 0.0
    total = (1.0 + more) if count else 0.0
    where = f"{count} ground wires"
    mark = Confidence.MEMORY if more else Confidence.PUBLISHED
    clause = cite("314.16(B)(5)", edition)
    return Sourced(total, "", clause, where, mark, "S29; 2020 change from memory", edition)


def box_fill_in3(
    conductors: Mapping[str, int],
    *,
    grounds: Sequence[str] = (),
    yokes: Sequence[str] = (),
    clamps: bool = False,
    isolated_grounds: Sequence[str] = (),
    edition: str = LATEST,
) -> float:
    """Cubic inches that the contents of a box need (314.16(B)).

    ``conductors``: how many of each size end or pass; ``grounds`` and ``isolated_grounds``: sizes
    of ground wires; ``yokes``: for each device the size of its largest conductor; ``clamps``:
    whether there are internal cable clamps. CodesError for sizes outside the table.
    """

    def volume(size: str) -> float:
        return volume_allowance_in3(size, edition).value

    def largest(sizes: Sequence[str]) -> float:
        return max((volume(size) for size in sizes), default=0.0)

    need = sum(count * volume(size) for size, count in conductors.items())
    for group in (grounds, isolated_grounds):
        need += ground_allowances(len(group), edition).value * largest(group)
    need += sum(2.0 * volume(size) for size in yokes)
    if clamps:
        need += largest([*conductors, *grounds, *yokes])
    return need


def box_volume_in3(kind: str, trade_size: str, edition: str = LATEST) -> Sourced[float]:
    """Volume in cubic inches of a metal box (table 314.16(A)). CodesError, naming the sizes."""
    clause = cite("Table 314.16(A)", edition)
    mine = {r["trade_size_in"]: r for r in rows("na/box_volumes_314_16_A") if r["box_kind"] == kind}
    row = mine.get(trade_size)
    if row is None:
        raise not_in_table(f"{kind} {trade_size}", clause, mine)
    return Sourced(
        float(row["min_volume_in3"]),
        "in3",
        clause,
        f"{kind} {trade_size}",
        confidence_of(row),
        row["sources"],
        edition,
    )
