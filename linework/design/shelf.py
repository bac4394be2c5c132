"""The elements of a design, found by id, sort or name without looking through all of them."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType
from typing import TypeVar, cast

from linework.design.elements import Element, Part, Run

_E = TypeVar("_E", bound=Element)


class Shelf:
    """Elements by id; a changed one keeps the place in the order that it had."""

    def __init__(self) -> None:
        self._by_id: dict[str, Element] = {}
        self._by_sort: dict[type, dict[str, Element]] = {}
        self._by_name: dict[tuple[type, str], list[str]] = {}

    @property
    def by_id(self) -> Mapping[str, Element]:
        """Every element by its id, to be read only."""
        return MappingProxyType(self._by_id)

    def get(self, element_id: str) -> Element | None:
        """The element with this id, or None."""
        return self._by_id.get(element_id)

    def all(self, sort: type[_E]) -> list[_E]:
        """The elements of one sort."""
        return cast("list[_E]", list(self._by_sort.get(sort, {}).values()))

    def named(self, sort: type[Part] | type[Run], designation: str) -> list[str]:
        """The ids of the parts or runs with this designation; several only in a faulty file."""
        return list(self._by_name.get((sort, designation), ()))

    def put(self, element: Element) -> None:
        """Lay an element in, in the place of the one with its id where there is one."""
        before = self._by_id.get(element.id)
        if before is not None:
            self._forget_name(before)
            if type(before) is not type(element):
                del self._by_sort[type(before)][element.id]
        self._by_id[element.id] = element
        self._by_sort.setdefault(type(element), {})[element.id] = element
        if isinstance(element, Part | Run):
            self._by_name.setdefault((type(element), element.designation), []).append(element.id)

    def drop(self, element_id: str) -> None:
        """Take an element out. KeyError if there is none."""
        element = self._by_id.pop(element_id)
        del self._by_sort[type(element)][element_id]
        self._forget_name(element)

    def _forget_name(self, element: Element) -> None:
        if isinstance(element, Part | Run):
            key = (type(element), element.designation)
            self._by_name[key].remove(element.id)
            if not self._by_name[key]:
                del self._by_name[key]
