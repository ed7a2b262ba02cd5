"""Rows on what dates a piece and on what parts belong together: whole, ordered, and well meant.

The ratios are the makers' own judgements, as the data say; these checks hold that they arrive in
the tables as they were meant, and that misreadings named by published records stay blocked.
"""

import re
from functools import cache
from itertools import pairwise

import pytest
from every import every

from appraise.base.places import shipped_data
from appraise.base.yamls import read
from appraise.knowledge import Knowledge, load
from appraise.knowledge.crossing import trapezoid
from appraise.knowledge.records import BELONGING, REGIONS, Check

FILES = (
    "mats", "preservers", "seals-and-glass", "cases", "hinges-clasps-pads", "belonging", "marks",
    "sitters", "card-mounts",
)  # fmt: skip
HANDS = re.compile(r"\b(?:open the package|pry|prise|wipe|scratch it|rub|wet|heat|peel)\b")


@cache
def shipped() -> Knowledge:
    """The shipped knowledge without anybody's overlay."""
    return load()


def checks() -> list[Check]:
    """The checks of the files judged here."""
    ends = tuple(f"checks/{name}.yaml" for name in FILES)
    return [check for check in shipped().checks.values() if check.file.endswith(ends)]


def dated() -> list[Check]:
    return [check for check in checks() if check.dates]


def ratios(check: str, over: str, answer: str, state: str) -> tuple[float, float]:
    """How much oftener an answer is given, and not given, in a state than in the usual one."""
    found = shipped().checks[check]
    table = found.table(over)
    assert table is not None
    index = found.index(answer)
    usual = {"belonging": "together", "package": "undisturbed"}[over]
    here, there = table.rows[state][index], table.rows[usual][index]
    return here / there, (1 - here) / (1 - there)


def test_nothing_in_these_files_fails_to_load() -> None:
    own = list(read(shipped_data() / "sources" / "dating.yaml").row("sources"))
    where = [f"checks/{name}.yaml" for name in FILES]
    where += ["sources/dating.yaml", *(f"sources.{key}" for key in own)]
    found = {problem.where for problem in shipped().problems}
    assert not {one for one in found if one in where or any(f"{name}:" in one for name in where)}
    assert len(checks()) >= 60


@every("check", checks(), ids=lambda check: check.id)
def test_a_question_is_short_plain_and_explained(check: Check) -> None:
    assert len(check.ask) < 90
    assert check.ask.endswith("?")
    assert 0 < len(check.how) < 200
    assert check.misleads
    assert 2 <= len(check.answers) <= 13
    assert all(len(answer.says) < 46 for answer in check.answers)
    assert check.risk != "conservator"
    assert not HANDS.search(check.how.lower())


@every("check", dated(), ids=lambda check: check.id)
def test_every_trapezoid_is_ordered(check: Check) -> None:
    for answer in check.answers:
        for row in answer.years.values():
            years = (row.first, row.start, row.end, row.last)
            assert all(one <= other for one, other in pairwise(years))
            assert 1830 <= row.first <= row.last <= 1960


@every("check", dated(), ids=lambda check: check.id)
def test_answers_never_sum_above_one_in_any_year(check: Check) -> None:
    for region in ("unknown", *REGIONS):
        lines = [
            [answer.share * weight for weight in trapezoid(answer.years, region, shipped().weights)]
            for answer in check.answers
            if answer.share
        ]
        assert max(map(sum, zip(*lines, strict=True))) <= 0.98 + 1e-9


def low_rows() -> list[tuple[str, str, str]]:
    """Check, answer and region of every row of low confidence."""
    return [
        (check.id, answer.id, region)
        for check in dated()
        for answer in check.answers
        for region, row in answer.years.items()
        if row.confidence == "low"
    ]


@every(("check", "answer", "region"), low_rows())
def test_a_low_row_alone_rules_no_year_out(check: str, answer: str, region: str) -> None:
    found = shipped().checks[check]
    years = found.answers[found.index(answer)].years
    assert min(trapezoid(years, region or "unknown", shipped().weights)) == pytest.approx(0.15)


@every("check", dated(), ids=lambda check: check.id)
def test_a_high_row_rests_on_a_source_or_a_law(check: Check) -> None:
    for answer in check.answers:
        if any(row.confidence == "high" for row in answer.years.values()):
            assert answer.basis
            assert answer.basis.sources or "law" in answer.basis.note


@pytest.mark.parametrize(
    ("check", "answer", "state", "seen", "unseen"),
    [
        ("package.fit", "loose", "married", 3, 0.8),
        ("package.fit", "shimmed", "married", 6, 0.9),
        ("package.size-match", "other", "married", 10, 0.7),
        ("plate.edge-in-window", "shows", "married", 8, 0.8),
        ("case.halves", "differ", "married", 4, 0.8),
        ("clasp.meets", "misses", "married", 2.5, 0.9),
        ("pad.match", "differs", "married", 2.5, 0.9),
        ("pad.ring", "other", "married", 4, None),
        ("case.frame-origin", "apart", "married", 10, None),
        ("piece.imprints", "disagree", "married", 3.5, None),
        ("piece.imprints", "agree", "married", 0.35, None),
        ("piece.provenance", "family", "married", 0.3, None),
        ("mat.material", "resin", "modern-case", 5, None),
        ("mat.material", "resin", "all-modern", 5, None),
        ("mat.material", "none", "modern-case", 2, None),
        ("pad.make", "plush", "modern-case", 2, None),
    ],
)
def test_ratios_of_belonging_arrive_as_meant(
    check: str, answer: str, state: str, seen: float, unseen: float | None
) -> None:
    found = ratios(check, "belonging", answer, state)
    assert found[0] == pytest.approx(seen)
    if unseen is not None:
        assert found[1] == pytest.approx(unseen)


@pytest.mark.parametrize(
    ("check", "answer", "seen", "unseen"),
    [
        ("preserver.corners", "worked", 2.5, 0.8),
        ("package.brass", "apart", 2, 0.9),
        ("backing.material", "newspaper", 1.2, None),
        ("backing.material", "picture", 1.3, None),
    ],
)
def test_ratios_of_an_opened_package_arrive_as_meant(
    check: str, answer: str, seen: float, unseen: float | None
) -> None:
    found = ratios(check, "package", answer, "disturbed")
    assert found[0] == pytest.approx(seen)
    if unseen is not None:
        assert found[1] == pytest.approx(unseen)


@pytest.mark.parametrize(
    ("check", "answer", "before", "after"),
    [
        # worked by hand: odds before looking times the ratio
        ("package.fit", "loose", 0.40, 0.667),
        ("case.halves", "differ", 0.20, 0.500),
        ("package.size-match", "other", 0.12, 0.577),
    ],
)
def test_one_sign_moves_the_odds_as_worked_by_hand(
    check: str, answer: str, before: float, after: float
) -> None:
    odds = before / (1 - before) * ratios(check, "belonging", answer, "married")[0]
    assert odds / (1 + odds) == pytest.approx(after, abs=0.001)


@pytest.mark.parametrize(
    "check",
    ["seal.state", "seal.paper", "glass.make", "backing.material", "preserver.state",
     "preserver.form", "preserver.corners", "package.renewed-parts", "package.brass"],
)  # fmt: skip
def test_an_opened_package_is_no_sign_of_an_exchanged_picture(check: str) -> None:
    # Conservation Treatment Procedures, Bancroft Library: the seal was lacking, damaged or replaced
    # in nearly all of about 440 cased photographs. Inventory 30015, History of Science Museum,
    # Oxford: a true pair no longer fits since its glass was renewed.
    assert shipped().checks[check].table("belonging") is None


@pytest.mark.parametrize("check", ["package.fit", "package.size-match", "plate.edge-in-window"])
def test_fit_means_nothing_once_a_conservator_resealed_the_piece(check: str) -> None:
    # Inventory 11962, History of Science Museum, Oxford: "would no longer fit" after treatment
    assert shipped().checks[check].fit


def test_modern_and_missing_parts_lose_their_dates() -> None:
    found = {
        (check.id, answer.id) for check in checks() for answer in check.answers if answer.undates
    }
    assert found >= {
        ("mat.material", "resin"), ("mat.material", "none"), ("preserver.state", "renewed"),
        ("preserver.state", "lost"), ("glass.make", "new"), ("glass.make", "none"),
        ("seal.paper", "modern"), ("pad.make", "plush"), ("pad.make", "foam"),
        ("pad.make", "missing"),
    }  # fmt: skip
    assert ("preserver.state", "none") not in found


def test_a_plain_pad_accuses_only_a_moulded_case() -> None:
    assert shipped().checks["pad.make"].when == {"case.material": ("thermoplastic", "resin")}


@pytest.mark.parametrize(
    "check", [one for one in checks() if one.table("belonging")], ids=lambda check: check.id
)
def test_what_speaks_against_a_piece_is_bounded_and_has_innocent_explanations(check: Check) -> None:
    table = check.table("belonging")
    assert table is not None
    columns = zip(*(table.rows[state] for state in BELONGING), strict=True)
    assert max(max(column) / column[0] for column in columns) <= 30
    assert check.innocent


def test_every_housing_is_mostly_called_by_its_name() -> None:
    check = shipped().checks["case.material"]
    table = check.table("housing")
    assert table is not None
    for housing, row in table.rows.items():
        called = max(zip(row, check.answers, strict=True), key=lambda pair: pair[0])[1].id
        assert called == ("thermoplastic" if housing == "resin" else housing)
    assert table.rows["resin"][check.index("thermoplastic")] == pytest.approx(0.6)


@pytest.mark.parametrize(
    "check",
    [check for check in checks() if check.part == "sitter" and not check.feature],
    ids=lambda check: check.id,
)
def test_dress_is_weak_and_counted_once(check: Check) -> None:
    # What an army orders, a cage of steel and a bicycle have a first day; a cut of dress has none.
    assert check.group == ("setting" if check.id == "sitter.setting" else "dress")
    rows = [row for answer in check.answers for row in answer.years.values()]
    ordered = {"sitter.uniform", "sitter.helmet", "sitter.womens-skirt", "sitter.setting"}
    allowed = {"weak", "low", "medium"} if check.id in ordered else {"weak"}
    assert {row.confidence for row in rows} <= allowed
