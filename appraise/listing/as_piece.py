"""The claims of a listing as a piece, all of it known from the seller."""

from collections.abc import Sequence
from functools import lru_cache

from appraise.base.dates import Dating
from appraise.base.errors import InputError
from appraise.base.measures import Measure
from appraise.base.money import Money
from appraise.knowledge.records import Knowledge
from appraise.listing.records import Claim
from appraise.listing.sizes import measure_of
from appraise.records.piece import BY_SELLER, MEASURED, SELLER, Finding, Inscription, Piece

LONGEST_TITLE = 120


def as_piece(
    text: str,
    claims: Sequence[Claim],
    knowledge: Knowledge,
    money: Sequence[Claim] = (),
    kind: str = "cased",
) -> Piece:
    """The claims as a piece, everything known from the seller.

    Args:
        text: The listing.
        claims: What it says of the piece, the first of a field to be kept.
        knowledge: The trade's knowledge.
        money: Claims of what is asked.
        kind: The kind of piece where no claim tells it.
    """
    first: dict[str, Claim] = {}
    for claim in (*claims, *money):
        first.setdefault(claim.field, claim)
    said = {field: claim.value for field, claim in first.items()}
    line = next((" ".join(line.split()) for line in text.splitlines() if line.strip()), "")
    short = line if len(line) <= LONGEST_TITLE else f"{line[: LONGEST_TITLE - 3]}..."
    called = said.get("kind", kind)
    return Piece(
        title=short,
        kind=called,
        channel="online",
        region=said.get("region", "unknown"),
        asking=_money(said["asking"]) if "asking" in said else None,
        shipping=_money(said["postage"]) if "postage" in said else None,
        subjects=_subjects(claims),
        maker=f"{said['maker']}{BY_SELLER}" if "maker" in said else "",
        measured=_measured(claims),
        inscription=_inscription(said),
        named_format=said.get("format", ""),
        findings=_findings(claims, called, knowledge),
    )


@lru_cache(maxsize=1_024)
def _money(written: str) -> Money:
    return Money.parse(written)


def _subjects(claims: Sequence[Claim]) -> tuple[str, ...]:
    """Whom or what it shows: the leading subject, then what else is said to be shown."""
    leading = [claim.value for claim in claims if claim.field == "subject"][:1]
    return tuple(dict.fromkeys([*leading, *(c.value for c in claims if c.field == "shows")]))


def _measured(claims: Sequence[Claim]) -> dict[str, Measure]:
    found: dict[str, Measure] = {}
    for claim in claims:
        what, _, measure = claim.value.partition(" ")
        if claim.field == "measured" and what in MEASURED:
            found.setdefault(what, measure_of(measure))
    return found


def _inscription(said: dict[str, str]) -> Inscription | None:
    """What is written, with the date that stands in it."""
    if "inscription" not in said:
        return None
    date = None
    if "date" in said and said["date"][:4] in said["inscription"]:
        try:
            date = Dating.parse(said["date"])
        except InputError:
            date = None
    return Inscription(f"{said['inscription']}{BY_SELLER}", date)


def _findings(claims: Sequence[Claim], kind: str, knowledge: Knowledge) -> dict[str, Finding]:
    """The first answer to each check that a piece of the kind is asked."""
    found: dict[str, Finding] = {}
    for claim in claims:
        check, answer = "", claim.value
        if claim.field == "process":
            known = knowledge.processes.get(claim.value)
            check, answer = "claim.process", known.family if known else claim.value
        elif claim.field == "case.material":
            check = "claim.material"
        elif claim.field in ("defect", "check"):
            check, _, answer = claim.value.partition(" ")
        asked = knowledge.checks.get(check) if check not in found else None
        if asked is not None and kind in asked.kinds and asked.index(answer) >= 0:
            found[check] = Finding(check, answer, SELLER, claim.against_interest)
    return found
