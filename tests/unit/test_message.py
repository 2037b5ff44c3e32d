"""Messages as people write them, and what is clear in them."""

from __future__ import annotations

import pytest

from pourwright.base.errors import BadInput
from pourwright.shop.message.mark import Sense
from pourwright.shop.message.read import MessageInput, NamedBait, NamedRecord, read_message

BAITS = (
    NamedBait(id="worm", name="Seven-inch marsh worm", packs=(8,)),
    NamedBait(id="shad", name="Four-inch slough shad", packs=(6,)),
    NamedBait(id="grub", name="Curly grub", packs=(10, 20)),
    NamedBait(id="tube", name="Tube 4"),
    NamedBait(id="single", name="Big eel", packs=(1,)),
)
LOOKS = tuple(
    NamedRecord(id=key, name=name)
    for key, name in {
        "marsh": "Marsh green, copper flake", "shadlook": "Slough shad: brown back, pearl belly",
        "june": "June bug", "pumpkin": "Green pumpkin", "pearl": "Pearl",
    }.items()
)  # fmt: skip
CUSTOMERS = (NamedRecord(id="ada", name="Ada Reed"), NamedRecord(id="bo", name="Bo Green"))


def asked(message: str, on_day: str = "2026-05-28"):
    return read_message(
        MessageInput(message=message, on_day=on_day, baits=BAITS, looks=LOOKS, customers=CUSTOMERS)
    )


def line_of(message: str):
    (line,) = asked(message).lines
    return line


# What a person would say these orders are: common practice, no source.
CLEAR = {
    "3 packs of marsh worms in marsh green": ("worm", "marsh", 3, 8),
    "Three bags 7 inch worms, june bug": ("worm", "june", 3, 8),
    '2 packs 7" worms green pumpkin': ("worm", "pumpkin", 2, 8),
    "4in shad pearl 3 packs": ("shad", "pearl", 3, 6),
    "half a dozen packs of slough shads in June Bug": ("shad", "june", 6, 6),
    "twenty-four packs marsh worms pearl": ("worm", "pearl", 24, 8),
    "two packs of 20 curly grubs in pearl": ("grub", "pearl", 2, 20),
    "3 x 10-pack grubs pearl": ("grub", "pearl", 3, 10),
    "1 pack grubs 20 ct pearl": ("grub", "pearl", 1, 20),
    "2 packs grubs pearl (10 per pack)": ("grub", "pearl", 2, 10),
    "5 big eels in pearl": ("single", "pearl", 5, 1),
    "a pack of marsh worm in marsh green w/ copper": ("worm", "marsh", 1, 8),
    "marsh-green marsh-worms: 4 packs": ("worm", "marsh", 4, 8),
    "10 packs slough shad in slough shad": ("shad", "shadlook", 10, 6),
    "20 baits of curly grub in pearl, packs of 10": ("grub", "pearl", 2, 10),
}


@pytest.mark.parametrize("message", CLEAR)
def test_a_clear_order_is_understood(message):
    line = line_of(message)
    found = (line.bait, line.look, line.packs, line.baits_each)
    assert tuple(it.options[0] for it in found) == CLEAR[message]
    assert all(it.sure for it in found), found


UNCLEAR = {
    "5 marsh worms in june bug": ("packs", (5,)),
    "24 marsh worms in june bug": ("packs", (24, 3)),
    "2 packs of marsh worms in green": ("look", ("marsh", "pumpkin")),
    "2 packs of slough shad": ("bait", ("shad",)),
    "2 packs of grubs in pearl": ("baits_each", (10, 20)),
    "8 pack marsh worms june bug": ("packs", (8,)),
    "2-3 packs of marsh worms pearl": ("packs", (2, 3)),
    "2 or 3 packs of marsh worms pearl": ("packs", (2, 3)),
    "a couple packs of marsh worms in pearl": ("packs", ()),
    "some packs of marsh worms in pearl": ("packs", ()),
    "13 pieces marsh worm pearl": ("packs", (1, 2)),
    "4 packs in pearl": ("bait", ()),
    "4 packs of tube 4 in june bug": ("baits_each", ()),
    "marsh worms in pearl please": ("packs", ()),
}


@pytest.mark.parametrize("message", UNCLEAR)
def test_what_is_unclear_is_asked_with_its_choices(message):
    field, options = UNCLEAR[message]
    found = getattr(line_of(message), field)
    assert (found.options, found.sure) == (options, False)
    assert found.why


def test_looks_named_with_one_number_are_of_each_only_where_it_says_so():
    sure, unsure = (
        asked(f"{n} of marsh worms in pearl and june bug").lines
        for n in ("3 packs each", "3 packs")
    )
    assert [line.packs.sure for line in sure] == [True, True]
    assert [line.packs.sure for line in unsure] == [False, False]
    assert [line.look.options for line in sure] == [("pearl",), ("june",)]


def test_a_bait_named_once_is_asked_for_the_lines_below():
    first, second = asked("marsh worms: 3 packs in june bug\n2 packs in green pumpkin").lines
    assert first.bait.sure
    assert (second.bait.options, second.bait.sure) == (("worm",), False)


def test_numbers_may_stand_behind_the_names():
    first, second = asked("marsh worms pearl x5, slough shad june bug x3").lines
    assert (first.bait.options, first.packs.options) == (("worm",), (5,))
    assert (second.bait.options, second.packs.options) == (("shad",), (3,))


# Days by the Gregorian calendar; May 28, 2026 is a Thursday: from memory.
DAYS = {
    "by Friday": (("2026-05-29",), True),
    "for this saturday": (("2026-05-30",), True),
    "by sat": (("2026-05-30",), True),
    "by June 3": (("2026-06-03",), True),
    "due june 3rd, 2026": (("2026-06-03",), True),
    "by 3 June": (("2026-06-03",), True),
    "by the 3rd of June": (("2026-06-03",), True),
    "by the 3rd": (("2026-06-03",), True),
    "by 2026-06-03": (("2026-06-03",), True),
    "by 6/23": (("2026-06-23",), True),
    "by 6/7/2026": (("2026-06-07", "2026-07-06"), False),
    "by tomorrow": (("2026-05-29",), True),
    "by Thursday": (("2026-05-28", "2026-06-04"), False),
    "by next Friday": (("2026-05-29", "2026-06-05"), False),
    "before Friday": (("2026-05-28", "2026-05-29"), False),
    "see you Friday": (("2026-05-29",), False),
    "by May 3": (("2027-05-03",), False),
    "by Friday or Saturday, by May 31": (("2026-05-29", "2026-05-30", "2026-05-31"), False),
}


@pytest.mark.parametrize("words", DAYS)
def test_days_are_read_or_asked(words):
    due = asked(f"2 packs of marsh worms in pearl {words}").due
    assert (due.options, due.sure) == DAYS[words]


def test_a_day_that_does_not_exist_is_said():
    answer = asked("2 packs of marsh worms in pearl by February 30")
    assert not answer.due.options
    assert any("no day of the calendar" in it for it in answer.doubts)


def test_a_look_called_like_a_month_is_no_day():
    answer = asked("3 june bug marsh worms packs")
    assert not answer.due.options
    assert [line.look.options for line in answer.lines] == [("june",)]


def test_may_i_is_no_month():
    assert not asked("may 3 packs of marsh worms in pearl be had").due.options


def test_a_customer_counts_by_the_whole_name_and_is_asked_by_a_part():
    whole, part = (asked(f"1 pack marsh worms pearl. {n}").customer for n in ("ada reed", "Ada"))
    assert (whole.options, whole.sure) == (("ada",), True)
    assert (part.options, part.sure) == (("ada",), False)
    assert not asked("1 pack marsh worms green pumpkin").customer.options


def test_what_no_rule_took_is_listed_word_by_word():
    answer = asked("Yo 2 packs marsh worms pearl, 555-1234, $20 ok")
    assert answer.unread == ("Yo", "ok")
    assert [it.split(":")[0] for it in answer.doubts] == ["“555 - 1234”", "“20”"]
    assert {m.sense for m in answer.marks} == {Sense.COUNT, Sense.BAIT, Sense.LOOK, Sense.NUMBER}


@pytest.mark.parametrize(
    "message",
    [
        "20 baits of curly grub in pearl, packs of 0", "5 curly grubs 0 ct pearl",
        "20 baits marsh worms pearl 0-pack", "0 packs of marsh worms in pearl",
    ],
)  # fmt: skip
def test_a_nought_orders_nothing_and_is_asked(message):
    answer = asked(message)
    assert all(0 not in (*it.packs.options, *it.baits_each.options) for it in answer.lines)
    assert any("“0”" in it for it in answer.doubts)


def test_a_formula_is_read_as_the_words_it_is():
    message = "=cmd|' /C calc'!A0\n2 packs of marsh worms in pearl"
    answer = asked(message)
    assert [line.packs.options for line in answer.lines] == [(2,)]
    assert "cmd" in answer.unread


def test_numbers_of_a_list_are_no_orders():
    answer = asked("1. two packs marsh worms pearl\n2) 1 pack slough shad pearl")
    assert [line.packs.options for line in answer.lines] == [(2,), (1,)]
    assert not answer.doubts


def test_a_day_out_of_the_calendar_is_refused():
    with pytest.raises(BadInput, match="on_day: is no day"):
        asked("hi", on_day="2026-02-30")
