"""A listing, read: as the JSON object of the contract, and as text with the claims numbered."""

from typing import Any

import yaml

from appraise.base.wrapping import wrapped
from appraise.documents.claimed import claim_words
from appraise.documents.own_rows import MARK, own_flag, own_json
from appraise.knowledge.records import Knowledge
from appraise.listing.records import Flag, Listing
from appraise.records.holds import no_maximum
from appraise.records.piece_file import write_piece

SCHEMA = "appraise.listing/1"
WIDTH = 78
LEFT = 52  # cells for what is claimed, where so many are needed
UNRELATED = "This does not look like a photograph for sale."
MARKS = {"warn": "!", "ask": "?", "note": "."}


def listing_json(listing: Listing, knowledge: Knowledge) -> dict[str, Any]:
    """The listing as JSON values."""
    own = [own_flag(knowledge, flag.id) for flag in listing.flags]
    return {
        "schema": SCHEMA,
        "claims": [
            {
                "field": one.field,
                "value": one.value,
                "text": one.text,
                "start": one.start,
                "end": one.end,
                "score": round(one.score, 3),
                "against_interest": one.against_interest,
            }
            for one in listing.claims
        ],
        "flags": [_flag(one) for one in listing.flags],
        "missing": list(listing.missing),
        "questions": list(listing.questions),
        "pieces": listing.pieces,
        "holds_back": list(listing.holds_back),
        "piece": yaml.safe_load(write_piece(listing.piece)),
        "own_rows": [own_json(one) for one in dict.fromkeys(own) if one is not None],
    }


def _flag(flag: Flag) -> dict[str, Any]:
    told = {"id": flag.id, "says": flag.says, "why": flag.why, "severity": flag.severity}
    if flag.start is not None:
        return {**told, "start": flag.start, "end": flag.end}
    return told


def listing_text(listing: Listing, knowledge: Knowledge) -> str:
    """What the text claims, what should make one stop, and what to ask."""
    if not listing.pieces:
        return "\n".join([UNRELATED, *_held(listing)]) + "\n"
    lines = ["the seller says"]
    told = [(claim_words(one, knowledge), _words(one.text)) for one in listing.claims]
    left = min(LEFT, max((len(words) for words, _ in told), default=0))
    lines += [f"  {words:<{left}}  {quoted}" for words, quoted in told]
    if listing.pieces > 1:
        lines.append(f"  a lot of {listing.pieces} pieces")
    for flag in listing.flags:
        own = f" {MARK}" if own_flag(knowledge, flag.id) else ""
        lines += _wrapped(f"{MARKS[flag.severity]} ", f"{flag.says}. {flag.why}{own}")
    lines += _held(listing)
    if listing.missing:
        names = [_name(one, knowledge) for one in listing.missing]
        lines += ["", *_wrapped("not mentioned: ", "; ".join(names))]
    if listing.questions:
        lines += ["", "questions to copy"]
        lines += [row for one in listing.questions for row in _wrapped("  - ", one)]
    return "\n".join(lines) + "\n"


def _held(listing: Listing) -> list[str]:
    """That no maximum is given, and why."""
    return _wrapped("", no_maximum(listing.holds_back)) if listing.holds_back else []


def _words(text: str) -> str:
    plain = " ".join(text.split())
    return f'"{plain if len(plain) <= 36 else plain[:33] + "..."}"'


def _name(missing: str, knowledge: Knowledge) -> str:
    gap, check = knowledge.gaps.get(missing), knowledge.checks.get(missing)
    return gap.says if gap else check.ask.rstrip("?") if check else missing


def _wrapped(lead: str, text: str) -> list[str]:
    return wrapped(text, WIDTH, lead)
