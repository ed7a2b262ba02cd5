"""A listing, read: what it claims, what should make one stop, and what to ask."""

from collections.abc import Iterator, Mapping
from itertools import chain
from typing import Any

import yaml

from appraise.base.jsonvalues import picked
from appraise.documents.claimed import claim_words
from appraise.documents.document import Bullets, Document, Paragraph, Table, Tone, section
from appraise.documents.own_rows import MARK, own_flag, own_json
from appraise.knowledge.records import Knowledge
from appraise.listing.records import Listing
from appraise.records.holds import no_maximum
from appraise.records.piece_file import write_piece

SCHEMA = "appraise.listing/1"
UNRELATED = "This does not look like a photograph for sale."
TONES: Mapping[str, Tone] = {"warn": "warn", "ask": "doubt", "note": "plain"}


def listing_json(listing: Listing, knowledge: Knowledge) -> dict[str, Any]:
    """The listing as JSON values."""
    own = [own_flag(knowledge, flag.id) for flag in listing.flags]
    return {
        "schema": SCHEMA,
        "claims": [
            picked(one, "field value text start end against_interest", score=round(one.score, 3))
            for one in listing.claims
        ],
        "flags": [
            picked(one, f"id says why severity{'' if one.start is None else ' start end'}")
            for one in listing.flags
        ],
        **picked(listing, "missing questions pieces holds_back"),
        "piece": yaml.safe_load(write_piece(listing.piece)),
        "own_rows": [own_json(one) for one in dict.fromkeys(own) if one is not None],
    }


def listing_document(listing: Listing, knowledge: Knowledge) -> Document:
    """What the text claims, what should make one stop, and what to ask."""
    held = Paragraph(no_maximum(listing.holds_back) if listing.holds_back else "", "warn")
    if not listing.pieces:
        return Document("", section("unrelated", "", Paragraph(UNRELATED), held))
    many = f"a lot of {listing.pieces} pieces" if listing.pieces > 1 else ""
    missing = "; ".join(_name(one, knowledge) for one in listing.missing)
    gaps = Paragraph(f"not mentioned: {missing}" if missing else "")
    parts = (
        section("claims", "The seller says", _claims(listing, knowledge), Paragraph(many)),
        section("flags", "What to stop at", *_flags(listing, knowledge), held, gaps),
        section("questions", "Questions to copy", Bullets(listing.questions)),
    )
    return Document("", tuple(chain(*parts)))


def _claims(listing: Listing, knowledge: Knowledge) -> Table:
    rows = tuple((claim_words(one, knowledge), _words(one.text)) for one in listing.claims)
    return Table("", (), rows)


def _flags(listing: Listing, knowledge: Knowledge) -> Iterator[Bullets]:
    for flag in listing.flags:
        own = f" {MARK}" if own_flag(knowledge, flag.id) else ""
        yield Bullets((f"{flag.says}. {flag.why}{own}",), TONES[flag.severity])


def _words(text: str) -> str:
    plain = " ".join(text.split())
    return f'"{plain if len(plain) <= 36 else plain[:33] + "..."}"'


def _name(missing: str, knowledge: Knowledge) -> str:
    gap, check = knowledge.gaps.get(missing), knowledge.checks.get(missing)
    return gap.says if gap else check.ask.rstrip("?") if check else missing
