"""Pieces and entries to report on, and the report as a reader gets it."""

from datetime import date
from functools import cache
from pathlib import Path

from appraise.base.money import Money
from appraise.cli.demo import CURRENCY, DEMO_DAY, demo_book, demo_entries
from appraise.documents.reports.report import report_for
from appraise.knowledge import load
from appraise.pricing.estimate import learn
from appraise.pricing.price_rows import priced_rows
from appraise.records.entry import Entry
from appraise.records.owned import ConditionCheck, Event, OwnedPiece
from appraise.records.picture_file import PictureFile
from appraise.records.piece_file import parse_piece
from appraise.records.repair import Repair, Stuff, TakenOut
from appraise.store.piece_record import PieceRecord
from appraise.verdict import judge

KNOWLEDGE = load()
DEMO = Path(__file__).parents[2] / "demo" / "pieces"
DIGEST = "ab" * 32
SECRETS = {
    "price": "9137", "asked": "8219", "offered": "7313", "postage": "6421", "estimate": "5527",
    "person": "Aunt Zephyrine", "place": "Old Quay barn", "receipt": "slip in the tin",
    "venue": "Harbour shed", "note": "bought from a widow", "picture": "zephyrine-shelf.jpg",
    "id": "feedc0ffee123456", "shelf": "third drawer of the bureau", "owner-number": "Q-17/3",
    "lender": "Society of the Lamp", "conservator": "Ms Varnish", "private": "do not tell Max",
    "drawer": "biscuit box", "shot": "before-0042.jpg", "bill": "4519", "labour": "3407",
}  # fmt: skip
"""What an entry and a piece tell that not every reader should see; invented."""

PIECE = f"""
piece: 1
title: girl with a basket
kind: cased
region: us
asking: {SECRETS["asked"]}.00 USD
subject: child
motif: vine
maker: T. Example
measured: {{opening: 57 x 70 mm, case: 86 x 97 x 22 mm}}
inscription: {{text: "June 7", date: 1856-06-07}}
sitter: {{age: 6..10}}
from: {{who: {SECRETS["person"]}, where: {SECRETS["place"]}, receipt: {SECRETS["receipt"]}}}
not_shown: [spine]
findings:
  plate.magnet: no
  plate.mirror: stays
  case.material: thermoplastic
  mat.shape: oval-ornate
  preserver.form: points
  hinge.tape: "2"
  glass.weep: "2"
  glass.crack: "0"
  seal.archival: "1"
"""


def money(name):
    return Money.parse(f"{SECRETS[name]}.00 USD")


def entry(**more):
    """A purchase with everything recorded that can be."""
    fields = {
        "id": SECRETS["id"],
        "record": "bought",
        "date": date(2025, 4, 12),
        "channel": "market",
        "kind": "cased",
        "title": "girl with a basket",
        "asked": money("asked"),
        "offered": money("offered"),
        "paid": money("price"),
        "postage": money("postage"),
        "venue": SECRETS["venue"],
        "note": SECRETS["note"],
        "own_work": False,
        "pictures": (PictureFile(DIGEST, SECRETS["picture"]),),
        "piece": PIECE,
    }
    return Entry(**{**fields, **more})


@cache
def prices():
    """The demo's invented log, learnt."""
    rows = priced_rows(demo_entries(), KNOWLEDGE, CURRENCY, DEMO_DAY, demo_book())
    return learn(rows)


def told(reader, piece=PIECE, logged=None, priced=True, knowledge=KNOWLEDGE, **more):
    """The document for a reader: of a piece file's text, or of a piece."""
    if isinstance(piece, str):
        piece = parse_piece(piece, "piece.yaml", knowledge)

    def by(one, by_log):
        return judge(one, knowledge, prices() if by_log and priced else None, DEMO_DAY)

    meant = PieceRecord(piece, logged, **more)
    return report_for(reader, meant, knowledge, by, {}, "the home directory")


KEPT = OwnedPiece(
    title="girl with a basket",
    number=SECRETS["owner-number"],
    dated="1856-06-07",
    place=SECRETS["shelf"],
    acquired="2025-04-12",
    provenance=SECRETS["person"],
    receipt=SECRETS["receipt"],
    looks=(
        ConditionCheck(
            date(2025, 5, 1), "", SECRETS["conservator"], ("hinge.split 1",), SECRETS["private"]
        ),
    ),
    events=(
        Event(date(2025, 6, 1), "lent", to=SECRETS["lender"]),
        Event(
            date(2026, 2, 3),
            "with-conservator",
            to=SECRETS["conservator"],
            cost=money("bill"),
            note=SECRETS["private"],
        ),
    ),
    note=SECRETS["note"],
)
WORK = Repair(
    title="another case",
    begun=date(2025, 7, 1),
    done=date(2025, 7, 2),
    did="reseated the plate in a case of another",
    who=SECRETS["conservator"],
    materials=(Stuff("wheat starch paste", "yes"),),
    reversible="slow",
    taken_out=(TakenOut("the first case", SECRETS["drawer"]),),
    cost=money("bill"),
    minutes=int(SECRETS["labour"]),
    before=(SECRETS["shot"],),
    made_by_me=True,
    mark="a small r inside the lid",
    disclosure="The case is not the first one.",
    note=SECRETS["private"],
)


def demo_piece(name):
    return (DEMO / f"{name}.yaml").read_text(encoding="utf-8")
