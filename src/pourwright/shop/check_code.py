"""Check a code that was typed or read: a lot's, or an article number the maker was issued."""

from __future__ import annotations

from dataclasses import dataclass

from pourwright.base.calc import calculation
from pourwright.base.field import flag, out, pick, text
from pourwright.base.record import Record
from pourwright.base.source import memory, published
from pourwright.shop.check_scheme import SCHEMES, Scheme

NOT_MINTED = (
    "Nothing here issues article numbers: one is yours only if a numbering organization issued "
    "its prefix to you, and two makers with one number are two wrong numbers."
)
ONLY_TYPED_WELL = (
    "A check that fits says that nothing was mistyped, as far as it sees; whether such a lot or "
    "article exists is another question."
)


@dataclass(frozen=True, slots=True, kw_only=True)
class CodeInput(Record):
    """A code, with or without its check characters."""

    code: str = text("The code", most=40, pattern="[0-9A-Z]{1,39}[0-9A-Z*]")
    complete: bool = flag("It carries its check characters", default=True)
    scheme: Scheme = pick(
        "How it is checked: MOD 37,36 for lot codes of this bench, GS1 mod 10 for article numbers "
        "of 8, 12, 13 or 14 digits, the other two for codes of others",
        label="Scheme", default=Scheme.MOD_37_36,
    )  # fmt: skip


@dataclass(frozen=True, slots=True)
class CodeAnswer:
    """What the check characters should be, and whether they are."""

    check: str = out("The check characters that fit")
    valid: bool = out("Whether the code carries them; false for a code without any")
    verdict: str = out("The same in words")
    misses: str = out("Which slips this scheme cannot see")
    notes: tuple[str, ...] = out("Cautions")


@calculation(
    "shop.check_code",
    purpose="check characters of a lot code or an article number, and whether a code carries them",
    sources=(
        published("ISO/IEC 7064:2003, pure systems MOD 37-2 and MOD 97-10, hybrid MOD 37,36"),
        memory("GS1 General Specifications, section 7.9, check digit of data structures"),
    ),
    example={"code": "A12425GABC1234002M"},
)
def check_code(inputs: CodeInput) -> CodeAnswer:
    """The check characters of a code's body, and the verdict on a complete code.

    Raises: BadInput for a character the scheme does not know, and for an article number of
    another length than 8, 12, 13 or 14 digits.
    """
    scheme = SCHEMES[inputs.scheme]
    body, given = scheme.parted(inputs.code) if inputs.complete else (inputs.code, "")
    wanted = scheme.check_of(body)
    article = inputs.scheme is Scheme.MOD_10
    return CodeAnswer(
        wanted,
        valid=given == wanted,
        verdict=_verdict(body, given, wanted),
        misses=scheme.misses,
        notes=(NOT_MINTED, ONLY_TYPED_WELL) if article else (ONLY_TYPED_WELL,),
    )


def _verdict(body: str, given: str, wanted: str) -> str:
    if not given:
        return f"{body} would end in {wanted}"
    if given == wanted:
        return f"{given} at its end fits"
    return f"mistyped: after {body} comes {wanted}, not {given}"
