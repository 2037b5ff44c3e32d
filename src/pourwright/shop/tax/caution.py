"""What the sheet says beside its figures, each with the place in the law; and what it leaves open.

Read in copies of the law marked as of June 2026 unless it says from memory.
"""

from __future__ import annotations

from dataclasses import dataclass

from pourwright.base.field import out

NOT_ADVICE = (
    "Not tax advice. This sheet adds up what you typed; whether the tax applies to you, at which "
    "rate and on which price, is for a licensed adviser."
)


@dataclass(frozen=True, slots=True)
class TaxCaution:
    """One point to know before the figure is used."""

    words: str = out("The point")
    source: str = out("Where it stands in the law")
    ask: bool = out("Whether it is for a licensed adviser to settle")


def _know(words: str, source: str) -> TaxCaution:
    return TaxCaution(words, source, ask=False)


def _ask(words: str, source: str) -> TaxCaution:
    return TaxCaution(words, source, ask=True)


CAUTIONS = (
    _know(
        "The tax is 10 % of the price of each sale, owed by whoever made or imported the baits.",
        "26 USC 4161(a)(1)(A)",
    ),
    _know(
        "Sections 4161 and 4162 name no amount of sales below which a small maker owes nothing.",
        "26 USC 4161, 4162",
    ),
    _know(
        "Artificial lures and artificial baits are on the list of what is taxed. So are hooks, "
        "sinkers and leaders, also as part of a set.",
        "26 USC 4162(a)(5)",
    ),
    _know(
        "The lower rate is for electric outboard motors and tackle boxes, the cap in dollars for "
        "rods and poles: neither is for baits.",
        "26 USC 4161(a)(1)(B), (2), (3)",
    ),
    _know(
        "The regulation on sport fishing equipment still prints a list from before the change of "
        "1984. The statute rules over it.",
        "26 CFR 48.4161(a)-1; Pub. L. 98-369 sec. 1015; Rev. Rul. 85-152, 88-52",
    ),
    _ask(
        "Whoever makes an article out of new, scrap or salvaged material is its maker. Where "
        "somebody else supplies the material and keeps title to it, that person is.",
        "26 CFR 48.0-2(a)(4)(i), (ii)",
    ),
    _know(
        "Bags, boxes and packing belong to the price. The tax itself does not, whether or not it "
        "has its own line on the bill.",
        "26 USC 4216(a); 26 CFR 48.4216(a)-1, -2",
    ),
    _ask(
        "Delivery stays out of the price only where its amount is established: keep the carrier's "
        "receipts. Charging more for it than it costs is a question of its own.",
        "26 USC 4216(a); 26 CFR 48.4216(a)-2",
    ),
    _know(
        "A price without a line for the tax is taken to hold the tax.",
        "Rev. Rul. 65-41, 1965-1 C.B. 454",
    ),
    _ask(
        "For a maker who sells at retail the law has a price of its own, which may be lower than "
        "the price that was asked. This sheet takes the price that was asked, or the share typed "
        "in the tax profile.",
        "26 USC 4216(b)(1)(A), (b)(2); 26 CFR 48.4216(b)-2(b), -3; Rev. Rul. 80-273, 1980-2 C.B. "
        "315; Rev. Rul. 81-73, 1981-1 C.B. 501",
    ),
    _ask(
        "What you make and fish yourself bears no tax. What you use in your business is taxed as "
        "if it were sold, and stands on this sheet only if it was entered as a sale.",
        "26 CFR 48.4218-1(b), 48.4218-2(a), (b)",
    ),
    _ask(
        "A sale for export or for further manufacture is free only for a seller registered on "
        "Form 637, who has the proof within 6 months. Without both the seller owes the tax, and "
        "this sheet reckons it. Other free sales are not on this sheet.",
        "26 USC 4221(a), (b), 4222, 4225; Rev. Rul. 86-18",
    ),
    _know(
        "Form 720, Part II, IRS No. 41, once a quarter: by April 30, July 31, October 31 and "
        "January 31, or the next business day. Days were moved before; check this one.",
        "Instructions for Form 720; Notice 2020-55",
    ),
    _know(
        "There are no deposits for this tax: it is paid with the return.",
        "IRS Publication 510, sport fishing equipment",
    ),
    _know(
        "Once you have filed, file for quarters without any sale as well, until a final return.",
        "Instructions for Form 720, who must file",
    ),
)

ASK_ADVISER = (
    (
        "Any share below the price that was asked, also a lower one that others speak of "
        "(Rev. Rul. 81-226, known here only at second hand)."
    ),
    "Giveaways, samples, prizes and swaps.",
    "Sales through a marketplace or on consignment.",
    "Sales to related persons (26 USC 4162(b)).",
    "Sets with parts that are not taxed (Rev. Rul. 75-18).",
    "A credit for tax already paid inside bought hooks or weights (26 USC 6416(c), from memory).",
    (
        "Sales taken back after their quarter: a credit or a corrected return (26 USC 6416(b)(1), "
        "from memory)."
    ),
    (
        "State sales tax, licenses, insurance, and how income tax counts stock (26 USC 471(c), "
        "from memory)."
    ),
    "Making or selling outside the United States.",
)

ELSEWHERE = (
    "No figure is reckoned outside the United States. Makers' and sales taxes, registration and "
    "product rules differ from country to country: ask a licensed adviser where you are."
)
