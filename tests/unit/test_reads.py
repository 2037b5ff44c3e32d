"""Values kept under their keys: asked for once, the oldest let go."""

from __future__ import annotations

import pytest

from pourwright.store.reads import Reads


def read_into(asked: list[list[str]]):
    def read(keys: list[str]) -> dict[str, str]:
        asked.append(keys)
        return {key: key.upper() for key in keys}

    return read


def test_only_what_is_not_kept_is_read_and_the_order_is_that_of_the_keys():
    asked: list[list[str]] = []
    reads: Reads[str, str] = Reads(3)
    assert list(reads.of("ab", read_into(asked)).items()) == [("a", "A"), ("b", "B")]
    assert list(reads.of("cba", read_into(asked)).values()) == ["C", "B", "A"]
    assert asked == [["a", "b"], ["c"]]


def test_what_was_asked_for_longest_ago_goes_first():
    asked: list[list[str]] = []
    reads: Reads[str, str] = Reads(2)
    for keys in ("ab", "a", "c", "a", "b"):
        reads.of(keys, read_into(asked))
    assert asked == [["a", "b"], ["c"], ["b"]]


def test_more_than_is_kept_is_answered_all_the_same():
    reads: Reads[str, str] = Reads(1)
    assert list(reads.of("abc", read_into([])).values()) == ["A", "B", "C"]


def test_a_key_that_is_not_there_is_an_error_and_is_not_kept():
    reads: Reads[str, str] = Reads(2)
    with pytest.raises(KeyError, match="a"):
        reads.of("a", lambda _: {})
    assert reads.of("a", read_into([])) == {"a": "A"}
