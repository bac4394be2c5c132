"""Each sort of element from its object in the file, and back to the object that is written."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import fields

from linework.design import (
    Accepted,
    Element,
    End,
    Interlock,
    Note,
    Part,
    Run,
    Seat,
    Settings,
)
from linework.kinds import (
    RUN_RATINGS,
    Answer,
    Band,
    OneOf,
    Rating,
    Ratings,
    is_known,
    kind_of,
    kinds,
)
from linework.quantity.errors import quoted
from linework.storage.fields import FAR, Fields, answer_of
from linework.storage.kept import ELSEWHERE, Extra, given_back, kept
from linework.wiring import Pole
from linework.words import N_, say

Read = Callable[[Fields], Element]
Plain = dict[str, object]

MOST_SHEETS = 9_999

_END = N_('a list of a part\'s id and its terminal, such as ["G1", "out"],')
_POLES = N_('a list of two poles, such as ["L", "L"],')
_EXCLUDED = N_(
    'a list of a part\'s id, what moves and where, such as ["QF1", "breaker", "closed"],'
)
_ANSWER = N_("a text with its unit, low, usual and high, or one_of with a list")
_POINT = N_("a list of two whole numbers up to 1000000000")

# settings

_NEEDED = ("family", "edition", "place", "voltage", "frequency")
"""What decides the rules and the figures is never taken for granted from a file."""
_SETTINGS = {f.name: f.default for f in fields(Settings) if f.name not in ("id", "extra")}


def read_settings(one: Fields) -> Settings:
    """The settings of the design."""
    texts = {
        name: one.name(name, None if name in _NEEDED else default)
        for name, default in _SETTINGS.items()
        if isinstance(default, str)
    }
    flags = {
        name: one.flag(name, default)
        for name, default in _SETTINGS.items()
        if isinstance(default, bool)
    }
    if ELSEWHERE in one.raw:
        one.fault(ELSEWHERE, say("no field can have this name"))
    return Settings(**texts, **flags, extra=kept(one.left_over()))  # type: ignore[arg-type]


_WHERE = ("climate", "latitude", "altitude", "sun", "warmth")
"""Nothing stands in for these where they are empty, so that they need not be written then."""


def write_settings(settings: Settings) -> Plain:
    """Every setting, even those that stand at their default: another version may have another."""
    known = {n: getattr(settings, n) for n in _SETTINGS if n not in _WHERE or getattr(settings, n)}
    extra = given_back(settings.extra)
    return {**known, **{name: extra[name] for name in extra if name != ELSEWHERE}}


# parts and runs


def read_part(one: Fields) -> Part:
    """A part; one of an unknown kind keeps whatever it holds."""
    key, kind = one.name("id"), one.name("kind")
    declared = kind_of(kind).declared if is_known(kind) else None
    if kind and declared is None:
        text = say("'{kind}' is no known kind and is kept as a plain box", kind=quoted(kind))
        one.warn("kind", text, kind, kinds())
    designation = one.name("designation")
    ratings, odd = _ratings(one, declared)
    x, y = _at(one)
    return Part(
        key,
        kind,
        designation,
        ratings,
        title=one.text("title", ""),
        x=x,
        y=y,
        turn=one.whole("turn", 0, 0, 3),
        mirror=one.flag("mirror", default=False),
        sheet=one.whole("sheet", 1, 1, MOST_SHEETS),
        extra=_extra(one, odd),
    )


def write_part(part: Part) -> Plain:
    """A part; what stands at its default is left out."""
    ratings, extra = _ratings_back(part.ratings, part.extra)
    return {
        "id": part.id,
        "designation": part.designation,
        "kind": part.kind,
        **_unless({"title": part.title}, ""),
        "at": [part.x, part.y],
        **_unless({"turn": part.turn, "mirror": part.mirror}, 0, False),
        **_unless({"sheet": part.sheet}, 1),
        "ratings": ratings,
        **extra,
    }


def read_run(one: Fields) -> Run:
    """A run; its poles are absent where they are the default."""
    key, designation = one.name("id"), one.name("designation", "")
    a, b = (End(*one.names(name, 2, _END)) for name in ("from", "to"))
    poles = one.rows("poles", 2, _POLES)
    ratings, odd = _ratings(one, RUN_RATINGS)
    route = one.listed("route", lambda at, value: _point(one, at, value))
    return Run(
        key,
        a,
        b,
        designation,
        None if poles is None else _pole_map(one, poles),
        ratings,
        tuple(route or ()),
        _extra(one, odd),
    )


def write_run(run: Run) -> Plain:
    """A run; what stands at its default is left out."""
    ratings, extra = _ratings_back(run.ratings, run.extra)
    poles = None if run.poles is None else [[str(a), str(b)] for a, b in run.poles]
    return {
        "id": run.id,
        **_unless({"designation": run.designation}, ""),
        "from": [run.a.part, run.a.terminal],
        "to": [run.b.part, run.b.terminal],
        **_unless({"poles": poles}, None),
        "ratings": ratings,
        **_unless({"route": [list(point) for point in run.route]}, []),
        **extra,
    }


def _at(one: Fields) -> tuple[int, int]:
    """Where something lies, in tenths of a millimetre; at the corner where it is not given."""
    value = one.plain("at", [0, 0])
    return _point(one, "at", value) or (0, 0)


def _point(one: Fields, at: str, value: object) -> tuple[int, int] | None:
    if isinstance(value, list) and len(value) == 2:
        whole = [v for v in value if isinstance(v, int) and not isinstance(v, bool)]
        if len(whole) == 2 and all(abs(v) <= FAR for v in whole):
            return whole[0], whole[1]
    one.fault(at, say("{wanted} is needed here", wanted=say(_POINT)))
    return None


def _pole_map(one: Fields, rows: tuple[tuple[str, ...], ...]) -> tuple[tuple[Pole, Pole], ...]:
    known = [str(pole) for pole in Pole]
    for number, row in enumerate(rows):
        for name in row:
            if name not in known:
                text = say(
                    "there is no pole '{name}', only {known}",
                    name=quoted(name),
                    known=", ".join(known),
                )
                one.fault(f"poles[{number}]", text)
    return tuple((Pole(a), Pole(b)) for a, b in rows if a in known and b in known)


# ratings


def _ratings(one: Fields, declared: Mapping[str, Rating] | None) -> tuple[Ratings, Plain]:
    """The answers as they stand, and what is not known as a rating. Nothing is declared for an
    unknown kind: what looks like an answer is one there, all else is kept."""
    answers: dict[str, Answer] = {}
    odd: Plain = {}
    for key, value in one.inner("ratings").items():
        answer = answer_of(value)
        if answer is not None and (declared is None or key in declared):
            answers[key] = answer
        elif declared is not None and key in declared:
            one.fault(f"ratings.{key}", say("{wanted} is needed here", wanted=say(_ANSWER)))
        else:
            odd[key] = value
    return Ratings.of(answers), one.unknown("ratings.", odd, declared or {})


def _ratings_back(ratings: Ratings, extra: Extra) -> tuple[Plain, Plain]:
    """The ratings to be written with the unknown ones among them, and the other unknown fields."""
    rest = given_back(extra)
    odd = rest.pop("ratings", {})
    known = {key: _answer_back(answer) for key, answer in ratings.items()}
    merged = {**odd, **known} if isinstance(odd, dict) else known
    return dict(sorted(merged.items())), rest


def _answer_back(answer: Answer) -> object:
    if isinstance(answer, Band):
        return {"low": answer.low, "usual": answer.usual, "high": answer.high}
    if isinstance(answer, OneOf):
        return {"one_of": list(answer.options)}
    return answer


def _extra(one: Fields, odd_ratings: Plain) -> Extra:
    unknown = one.left_over()
    if odd_ratings:
        unknown["ratings"] = odd_ratings
    return kept(unknown)


def _unless(values: Plain, *defaults: object) -> Plain:
    """The fields that do not stand at one of these values."""
    return {name: value for name, value in values.items() if value not in defaults}


# what lies beside them


def read_seat(one: Fields) -> Seat:
    """A seat: a part in a place of another."""
    return Seat(one.name("id"), one.name("part"), one.name("in"), one.name("place"))


def write_seat(seat: Seat) -> Plain:
    """A seat, all fields."""
    return {"id": seat.id, "part": seat.part, "in": seat.host, "place": seat.place}


def read_interlock(one: Fields) -> Interlock:
    """Positions that exclude each other."""
    key = one.name("id")
    rows = one.rows("excludes", 3, _EXCLUDED) or ()
    return Interlock(key, tuple((a, b, c) for a, b, c in rows), one.text("title", ""))


def write_interlock(lock: Interlock) -> Plain:
    """An interlock, all fields."""
    excludes = [list(item) for item in lock.excludes]
    return {"id": lock.id, "title": lock.title, "excludes": excludes}


def read_note(one: Fields) -> Note:
    """A text on the sheet."""
    key, text = one.name("id"), one.text("text")
    return Note(key, text, *_at(one), one.whole("sheet", 1, 1, MOST_SHEETS))


def write_note(note: Note) -> Plain:
    """A note, all fields."""
    return {"id": note.id, "text": note.text, "at": [note.x, note.y], "sheet": note.sheet}


def read_accepted(one: Fields) -> Accepted:
    """A finding that a person accepts."""
    key, rule = one.name("id"), one.name("rule")
    subjects = one.listed("subjects", lambda at, value: _subject(one, at, value))
    texts = [one.text(name) for name in ("reason", "by", "date", "fingerprint")]
    return Accepted(key, rule, tuple(subjects or ()), *texts)


def _subject(one: Fields, at: str, value: object) -> str | None:
    if isinstance(value, str):
        return value
    one.fault(at, say("{wanted} is needed here", wanted=say("a text")))
    return None


def write_accepted(item: Accepted) -> Plain:
    """An accepted finding, all fields."""
    return {
        "id": item.id,
        "rule": item.rule,
        "subjects": list(item.subjects),
        "reason": item.reason,
        "by": item.by,
        "date": item.date,
        "fingerprint": item.fingerprint,
    }


READERS: dict[str, Read] = {
    "parts": read_part,
    "runs": read_run,
    "seats": read_seat,
    "interlocks": read_interlock,
    "notes": read_note,
    "accepted": read_accepted,
}
"""How each section of the file is read, in the order in which they are written."""
