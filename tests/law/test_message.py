"""Laws of reading a message: what is named reads back exactly, nothing else is ever understood."""

from __future__ import annotations

import datetime as dt
import itertools

from hypothesis import given, settings
from hypothesis import strategies as st

from pourwright.shop.message.mark import Sense
from pourwright.shop.message.read import MessageInput, NamedBait, NamedRecord, read_message
from pourwright.shop.message.word import NUMBERS, words_of

TODAY = dt.date(2026, 6, 1)
BAITS = {
    "worm": ("Seven-inch marsh worm", 8), "shad": ("Four-inch slough shad", 6),
    "grub": ("Curly grub", 10), "stick": ("Reed stick 5 in", 12),
}  # fmt: skip
LOOKS = {
    "green": "Marsh green, copper flake", "pearl": "Slough shad: brown back, pearl belly",
    "june": "June bug", "pumpkin": "Green pumpkin", "ink": "Ink & frost",
}  # fmt: skip
CUSTOMERS = {"ada": "Ada Reed", "bo": "Bo Green"}
# How people write one pack or many, and baits by the piece.
PACKS = (
    "pack", "packs", "bag", "bags", "packets", "packages", "pk", "pks", "baggies", "pouches",
)  # fmt: skip
PIECES = ("baits", "pieces", "pc", "pcs", "lures", "plastics")
# Words people write, those that name records, count and turn a meaning among them.
VOCABULARY = [
    *(w for name, _ in BAITS.values() for w in name.split()),
    *(w for name in (*LOOKS.values(), *CUSTOMERS.values()) for w in name.split()),
    "0", "zero",
    "3", "12", "two", "dozen", "a", "packs", "pack", "of", "bags", "8-pack", "x5", "baits", "each",
    "and", "or", "not", "please", "by", "Friday", "next", "June", "2026-06-09", "6/3", "before",
    "in", "the", "\n", ",", ".", ";", "4.5", "$20", "hi", "couple", "worms", "no", "555-1234",
]  # fmt: skip


def asked(message: str):
    return read_message(
        MessageInput(
            message=message,
            on_day=TODAY.isoformat(),
            baits=tuple(NamedBait(id=k, name=n, packs=(p,)) for k, (n, p) in BAITS.items()),
            looks=tuple(NamedRecord(id=k, name=n) for k, n in LOOKS.items()),
            customers=tuple(NamedRecord(id=k, name=n) for k, n in CUSTOMERS.items()),
        )
    )


def spelled(draw, name: str) -> str:
    """A name as people type it: in any case, the last word as many."""
    name = draw(st.sampled_from([str.lower, str.upper, str.title, str]))(name)
    return name.replace("-", draw(st.sampled_from("- ")))


@st.composite
def orders(draw):
    """An order and a message that says it."""
    lines = draw(
        st.lists(
            st.tuples(
                st.sampled_from(sorted(BAITS)), st.sampled_from(sorted(LOOKS)),
                st.integers(1, 400),
            ),
            min_size=1, max_size=5,
        )
    )  # fmt: skip
    joint = draw(st.sampled_from(["\n", "; ", ", ", " and ", ". "]))
    packs = draw(st.sampled_from(["packs of", "bags of", "packs"]))
    said = joint.join(
        f"{n} {packs} {spelled(draw, BAITS[b][0])} in {spelled(draw, LOOKS[k])}"
        for b, k, n in lines
    )
    days = draw(st.integers(1, 180))
    due = TODAY + dt.timedelta(days=days)
    by = draw(st.sampled_from([f"{due}", f"{due:%B} {due.day}", f"{due.day} {due:%b} {due.year}"]))
    who = draw(st.sampled_from(sorted(CUSTOMERS)))
    return lines, due, who, f"{said}\nby {by}\n{CUSTOMERS[who]}"


@settings(max_examples=120)
@given(orders())
def test_an_order_told_in_the_bench_s_own_words_reads_back_exactly(order):
    lines, due, who, message = order
    answer = asked(message)
    read = [
        (it.bait.options, it.look.options, it.packs.options, it.baits_each.options)
        for it in answer.lines
    ]
    assert read == [((b,), (k,), (n,), (BAITS[b][1],)) for b, k, n in lines]
    for it in answer.lines:
        assert all(choice.sure for choice in (it.bait, it.look, it.packs))
    assert (answer.due.options, answer.due.sure) == ((due.isoformat(),), True)
    assert (answer.customer.options, answer.customer.sure) == ((who,), True)
    assert not answer.doubts


@settings(max_examples=250)
@given(st.lists(st.sampled_from(VOCABULARY), max_size=24), st.sampled_from([" ", ", "]))
def test_nothing_is_understood_that_does_not_stand_in_the_text(words, joint):
    message = joint.join(words) or "?"
    answer = asked(message)
    keys = {w.key for w in words_of(message)} | {
        str(NUMBERS[w.key]) for w in words_of(message) if w.key in NUMBERS
    }
    names = {k: n for k, (n, _) in BAITS.items()} | LOOKS | CUSTOMERS
    for it in answer.lines:
        for choice in (it.bait, it.look):
            if choice.sure:
                (key,) = choice.options
                assert keys & {w.key for w in words_of(names[key]) if w.is_word}, key
        if it.packs.sure:
            said = message[it.start : it.end]
            assert any(w.is_number or w.key in {*NUMBERS, "dozen", "a"} for w in words_of(said))
    if answer.customer.sure:
        assert CUSTOMERS[answer.customer.options[0]].casefold() in message.casefold()


@settings(max_examples=250)
@given(st.lists(st.sampled_from(VOCABULARY), max_size=24))
def test_no_number_is_dropped_in_silence(words):
    message = " ".join(words) or "?"
    answer = asked(message)
    marked = {c for m in answer.marks for c in range(m.start, m.end)}
    for word in words_of(message):
        if word.text[0].isdigit():
            assert word.start in marked, word.text


@settings(max_examples=250)
@given(st.lists(st.sampled_from(VOCABULARY), max_size=24))
def test_marks_stand_in_order_and_none_over_another(words):
    message = " ".join(words) or "?"
    marks = asked(message).marks
    assert all(0 <= m.start < m.end <= len(message) for m in marks)
    assert all(a.end <= b.start for a, b in itertools.pairwise(marks))


@given(st.text(max_size=200, alphabet=st.characters(exclude_categories=["Cs", "Cc"])))
def test_any_text_is_read_without_a_fault(text):
    answer = asked(text or "-")
    assert all(m.sense in Sense for m in answer.marks)


@given(
    st.integers(1, 99), st.sampled_from(PACKS), st.sampled_from(sorted(BAITS)),
    st.sampled_from(sorted(LOOKS)),
)  # fmt: skip
def test_every_word_for_a_pack_counts_packs(number, word, bait, look):
    (line,) = asked(f"{number} {word} of {BAITS[bait][0]} in {LOOKS[look]}").lines
    assert line.packs.options == (number,)
    assert line.packs.sure == (number == 1 or word.endswith("s"))


@given(
    st.integers(2, 99), st.sampled_from(PIECES), st.sampled_from(sorted(BAITS)),
    st.sampled_from(sorted(LOOKS)),
)  # fmt: skip
def test_baits_are_never_taken_for_packs_unasked(number, word, bait, look):
    (line,) = asked(f"{number} {word} of {BAITS[bait][0]} in {LOOKS[look]}").lines
    assert not line.packs.sure
    for packs in line.packs.options:
        assert abs(packs * BAITS[bait][1] - number) < BAITS[bait][1]


def test_each_turn_of_a_meaning_is_asked():
    for word in ("not", "no", "instead of", "or", "maybe", "without"):
        (line, *_) = asked(f"3 packs of curly grubs in {word} june bug").lines
        assert not line.packs.sure, word
