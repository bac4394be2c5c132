"""Questions that many ask of the same thing, worked out once for all of them."""

from __future__ import annotations

from collections.abc import Callable
from functools import wraps
from typing import Any, ParamSpec, TypeVar

_T = TypeVar("_T")
_P = ParamSpec("_P")

_KEPT = "answers of "


def once(question: Callable[_P, _T]) -> Callable[_P, _T]:
    """A question, as a function or a method, whose answers are kept.

    It is asked with positions only: first of what (a situation, the studies of a state, a class
    of queries), then of what besides, by hashable values. The answers lie in the first, as a
    :func:`functools.cached_property` lies in its object, and go with it; they are to be read
    only. What is raised is raised anew each time.
    """
    kept_as = f"{_KEPT}{question.__module__}.{question.__qualname__}"

    @wraps(question)
    def asked(*args: _P.args, **kwargs: _P.kwargs) -> _T:
        if kwargs:
            raise TypeError(f"{question.__qualname__} is asked with positions only")
        thing, *besides = args
        known: dict[Any, _T] = vars(thing).setdefault(kept_as, {})
        key = tuple(besides)
        if key not in known:
            known[key] = question(*args, **kwargs)
        return known[key]

    return asked


def forget(thing: object) -> None:
    """Drop the answers of a thing that hang on what else was asked: on a design, which may have
    become another since."""
    for name, known in vars(thing).items():
        if name.startswith(_KEPT):
            for key in [key for key in known if key]:
                del known[key]
