"""Words made to fit a width."""

from __future__ import annotations

import pytest

from pourwright.render.text import clean, fitted, wrapped
from pourwright.render.type_face import width_of

SENTENCE = "Cool running water, about 20 min. Do not peel off stuck plastic. See a doctor."


def test_wrapping_loses_no_word_and_keeps_the_width():
    lines = wrapped(SENTENCE, 90, 8)
    assert " ".join(lines) == SENTENCE
    assert all(width_of(line, 8) <= 90 for line in lines)
    assert len(lines) > 2


def test_what_does_not_fit_ends_in_an_ellipsis():
    lines = wrapped(SENTENCE, 90, 8, most=2)
    assert len(lines) == 2
    assert lines[-1].endswith("…")
    assert width_of(lines[-1], 8) <= 90


@pytest.mark.parametrize("width", [3.0, 20.0, 60.0])
def test_one_endless_word_is_cut(width):
    assert width_of(fitted("W" * 200, width, 8, bold=True), 8, bold=True) <= width
    assert all(width_of(line, 8) <= width for line in wrapped("W" * 200, width, 8))


def test_line_breaks_and_control_characters_become_spaces():
    assert clean("one\ntwo\x00three\t four") == "one two three four"
    assert wrapped("", 50, 8) == ()
