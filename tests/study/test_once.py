"""A question of many is worked out once, and its answer lives as long as what was asked."""

from __future__ import annotations

import gc
import weakref

import pytest

from linework.study.once import once

WORKED: list[tuple[int, ...]] = []


class Thing:
    @once
    def sum_with(self, *more: int) -> list[int]:
        WORKED.append(more)
        return [sum(more)]


@once
def fault_of(thing: Thing) -> int:
    WORKED.append(())
    raise ValueError(f"{thing}")


@pytest.fixture(autouse=True)
def _fresh() -> None:
    WORKED.clear()


def test_an_answer_is_kept_for_each_thing_and_what_is_asked_besides() -> None:
    one, other = Thing(), Thing()
    assert one.sum_with(1, 2) is one.sum_with(1, 2)
    assert one.sum_with(1, 2) == other.sum_with(1, 2) == [3]
    assert one.sum_with(2) == [2]
    assert WORKED == [(1, 2), (1, 2), (2,)]


def test_an_error_is_not_an_answer() -> None:
    thing = Thing()
    for _ in range(2):
        with pytest.raises(ValueError, match="Thing"):
            fault_of(thing)
    assert len(WORKED) == 2


def test_a_name_would_make_two_answers_of_one_and_is_refused() -> None:
    with pytest.raises(TypeError, match="positions"):
        fault_of(thing=Thing())


def test_the_answers_go_with_the_thing() -> None:
    thing = Thing()
    answer = weakref.ref(thing)
    thing.sum_with(1)
    del thing
    gc.collect()
    assert answer() is None
