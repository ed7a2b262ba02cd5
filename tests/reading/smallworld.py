"""Small invented knowledge for tests of the reasoning: a few housings, processes and checks.

Nothing here is true of any trade; the numbers are drawn at random so that no two states are alike.
"""

import random
from collections.abc import Mapping, Sequence
from dataclasses import replace

from appraise.knowledge.crossing import scale_shares
from appraise.knowledge.records import (
    BELONGING,
    CHANNELS,
    DISTURBED,
    KINDS,
    REGIONS,
    UNJUDGED,
    YES_NO,
    Answer,
    AnswerTable,
    Asking,
    Basis,
    Check,
    Defect,
    Format,
    Housing,
    Knowledge,
    Limits,
    PartRow,
    Process,
    Weights,
    Years,
)
from appraise.knowledge.tables import strength
from appraise.records.piece import Finding, Piece

INVENTED = Basis("judgement")
EMPTY = ("empty-case", *UNJUDGED)  # what has no process of its own
PICTURED = tuple(kind for kind in KINDS if kind not in EMPTY)
PARTS = {
    "plate": "image",
    "sitter": "image",
    "mat": "package",
    "preserver": "package",
    "glass": "package",
    "case": "housing",
    "hinge": "housing",
    "pad": "housing",
    "clasp": "housing",
    "mount": "housing",
    "piece": "piece",
}
HOUSINGS = ("wooden", "moulded", "paper")
PROCESSES = {"mirror-one": "mirror", "mirror-two": "mirror", "glassy": "glassy", "plain": "plain"}
STATES: Mapping[str, Sequence[str]] = {
    "housing": HOUSINGS,
    "process": tuple(PROCESSES),
    "belonging": BELONGING,
    "package": DISTURBED,
    "copy": YES_NO,
    "altered": YES_NO,
}
TABLES = (
    ("housing",),
    ("process",),
    ("process",),
    ("belonging",),
    ("belonging",),
    ("belonging",),
    ("package",),
    ("copy",),
    ("altered",),
    ("belonging", "process"),
    ("belonging", "package", "process"),
    ("belonging", "altered"),
    ("housing", "belonging"),
    ("process", "copy"),
    ("copy", "altered"),
)
DATED = ("plate", "sitter", "mat", "mat", "preserver", "glass", "case", "hinge", "pad", "clasp")


def weights(**changes: object) -> Weights:
    """Settings in the range of the shipped ones."""
    settings = Weights(
        reliability={
            "in-hand": {"form": 0.97, "test": 0.96, "absence": 0.95, "interest": 0.97},
            "photo": {"form": 0.9, "test": 0.4, "absence": 0.6, "interest": 0.93},
            "seller": {"form": 0.55, "test": 0.8, "absence": 0.3, "interest": 0.92},
        },
        group_rest=0.3,
        unnamed=0.3,
        written=0.2,
        written_spread=40,
        written_on={"plate": ("plate", 1), "case": ("case", 6)},
        floors={"high": 0.01, "medium": 0.04, "low": 0.15},
        uninvented=0.01,
        lags=(0.3, 0.25, 0.2, 0.15, 0.1),
        kappa=0.5,
        kappa_window=10,
        exchange=(0.02, 0.25),
        pad=0.12,
        clasp=0.1,
        disturbed=0.55,
        image_years=dict.fromkeys(KINDS, Years(1839, 1846, 1866, 1885, "high")),
        image_floor=0.0001,
        modern=dict(zip(CHANNELS, (1, 0.7, 0.7, 1.4, 0.7, 0.5), strict=True)),
        all_modern=0.3,
        famous={"soldier": 4},
        copy=0.03,
        altered=0.04,
        reference=dict(zip(BELONGING, (0.58, 0.3, 0.05, 0.04, 0.03), strict=True)),
        regions={"us": 0.6, "gb": 0.25, "eu": 0.1, "au": 0.05},
        same_format=dict(zip(BELONGING, (0.985, 0.88, 0.96, 0.9, 0.97), strict=True)),
        strong_ratio=30,
        strong_chance=0.7,
        raise_ratio=2,
        raise_chance=0.3,
        exclude_ratio=4,
        asking=Asking(
            rest=0.005,
            faint=0.02,
            bit=0.05,
            spread=2.0,
            settled=0.9,
            moves=0.002,
            quick=15.0,
            known=0.12,
            patience=15.0,
        ),
        gate=Limits(short=0.8, doubt=0.15),
        half_seen=0.5,
        looks_right=8,
    )
    return replace(settings, **changes)  # type: ignore[arg-type]


def years_of(rng: random.Random) -> Years:
    """Four years in order, and a confidence."""
    first = rng.randint(1825, 1890)
    start = first + rng.choice((0, 1, 4, 9))
    end = start + rng.randint(0, 20)
    last = end + rng.choice((0, 1, 7, 15, 60))
    return Years(first, start, end, last, rng.choice(("high", "medium", "low")))


def by_region(rng: random.Random) -> dict[str, Years]:
    """Years for every region at once, or for some of them."""
    if rng.random() < 0.4:
        return {"": years_of(rng)}
    return {region: years_of(rng) for region in rng.sample(REGIONS, rng.randint(1, 3))}


def row_of(rng: random.Random, size: int) -> tuple[float, ...]:
    """A row of probabilities, none of them nought."""
    values = [rng.uniform(0.03, 1) ** 2 for _ in range(size)]
    return tuple(value / sum(values) for value in values)


def table_check(
    name: str, tables: Mapping[str, Mapping[str, Sequence[float]]], part: str = "", **more: object
) -> Check:
    """A check with the tables as given: by axis, by state, the answers' probabilities."""
    size = len(next(iter(next(iter(tables.values())).values())))
    answers = tuple(Answer(f"a{place}", f"answer {place}") for place in range(size))
    found = tuple(
        AnswerTable(axis, {state: tuple(row) for state, row in rows.items()})
        for axis, rows in tables.items()
    )
    return check_of(name, answers, found, part, **more)


def dated_check(name: str, answers: Sequence[Answer], part: str = "", **more: object) -> Check:
    """A check whose answers carry years; shares are brought to at most 1 in every year."""
    return scale_shares(check_of(name, answers, (), part, **more), weights())


def check_of(
    name: str,
    answers: Sequence[Answer],
    tables: Sequence[AnswerTable],
    part: str = "",
    **more: object,
) -> Check:
    found = Check(
        id=name,
        part=part or name.split(".")[0],
        ask=f"what of {name}?",
        answers=tuple(answers),
        basis=INVENTED,
        kinds=("cased",),
        tables=tuple(tables),
        strength=strength(tables, answers, weights().floors),
    )
    return replace(found, **more)  # type: ignore[arg-type]


def damage_check(name: str, rates: Mapping[str, Sequence[float]], worth: Sequence[float]) -> Check:
    """A check on damage without tables."""
    steps = tuple(Answer(str(step), f"step {step}", absence=step == 0) for step in range(4))
    defect = Defect(
        name=name,
        stability=("stable",) * 4,
        reversible="no",
        history=(),
        worth=tuple(worth),  # type: ignore[arg-type]
        rates={word: tuple(row) for word, row in rates.items()},
        do="",
        never="",
    )
    return check_of(name, steps, (), defect=defect)


def random_check(rng: random.Random, place: int, axes: Sequence[str]) -> Check:
    """A check over states, with up to four answers and perhaps a group."""
    size = rng.randint(2, 4)
    tables = {axis: {state: row_of(rng, size) for state in STATES[axis]} for axis in axes}
    return table_check(
        f"piece.sign-{place}",
        tables,
        group=rng.choice(("", "", "one", "two")),
        sort=rng.choice(("form", "test")),
        decisive=rng.random() < 0.1,
        slip=rng.choice((0.0, 0.0, 0.05, 0.1)),
    )


def random_dated(rng: random.Random, place: int, part: str) -> Check:
    """A dated check; one answer takes the rest, one may have a share in every year."""
    size = rng.randint(1, 4)
    shares = row_of(rng, size + 2)
    answers = [
        Answer(f"a{number}", f"style {number}", by_region(rng), shares[number])
        for number in range(size)
    ]
    if rng.random() < 0.4:
        answers.append(Answer("timeless", "in every year", {}, shares[-2]))
    if rng.random() < 0.3:
        answers.append(Answer("renewed", "a new one", undates=True))
    answers.append(Answer("other", "another", unnamed=rng.random() < 0.5))
    return dated_check(f"{part}.style-{place}", answers, group=rng.choice(("", "", "three")))


def knowledge_of(
    checks: Sequence[Check], rng: random.Random | None = None, **more: object
) -> Knowledge:
    """Knowledge of three housings and four processes around the given checks."""
    rng = rng or random.Random(0)
    shares = row_of(rng, len(HOUSINGS))
    found = Knowledge(
        checks={check.id: check for check in checks},
        processes={name: _process(rng, name) for name in PROCESSES},
        housings={
            name: _housing(rng, name, share) for name, share in zip(HOUSINGS, shares, strict=True)
        },
        formats={"only": Format("only", "only size", ((70.0, 83.0),), 1.0, KINDS, 1.0, INVENTED)},
        offsets={},
        cautions={},
        sources={},
        parts={name: PartRow(name, name, side) for name, side in PARTS.items()},
        weights=weights(),
    )
    return replace(found, **more)  # type: ignore[arg-type]


def _process(rng: random.Random, name: str) -> Process:
    return Process(
        id=name,
        name=name,
        family=PROCESSES[name],
        shares={kind: rng.uniform(0.1, 1) for kind in PICTURED},
        years={} if name == "plain" else by_region(rng),
        modern_image=rng.uniform(0.005, 0.3),
        basis=INVENTED,
    )


def _housing(rng: random.Random, name: str, share: float) -> Housing:
    return Housing(
        id=name,
        name=name,
        share=share,
        years={} if name == "paper" else by_region(rng),
        married={"any": rng.uniform(0.1, 0.5), "mirror": rng.uniform(0.1, 0.5), "glassy": 0.3},
        before=(0.1, 0.5),
        modern_case=rng.uniform(0.01, 0.5),
        image=0.6,
        case=0.3,
        bond=0.1,
        basis=INVENTED,
    )


def random_knowledge(rng: random.Random) -> Knowledge:
    """Knowledge in which every sort of check occurs."""
    checks = [random_check(rng, place, axes) for place, axes in enumerate(TABLES)]
    checks += [random_dated(rng, place, part) for place, part in enumerate(DATED)]
    rng.shuffle(checks)
    chosen = weights(
        kappa=rng.uniform(0.2, 0.8),
        kappa_window=rng.randint(0, 12),
        lags=row_of(rng, rng.randint(1, 9)),
        exchange=(rng.uniform(0.01, 0.1), rng.uniform(0.1, 0.5)),
        copy=rng.uniform(0.01, 0.3),
        altered=rng.uniform(0.01, 0.3),
        disturbed=rng.uniform(0.2, 0.8),
    )
    return knowledge_of(checks, rng, weights=chosen)


def random_piece(rng: random.Random, knowledge: Knowledge, most: int = 12) -> Piece:
    """A piece of which some checks were answered at random."""
    checks = list(knowledge.checks.values())
    found = {}
    for check in rng.sample(checks, rng.randint(0, min(most, len(checks)))):
        answer = rng.choice(check.answers).id
        known = rng.choice(("in-hand", "photo", "seller"))
        found[check.id] = Finding(check.id, answer, known, known == "seller" and rng.random() < 0.3)
    return Piece(
        channel=rng.choice(CHANNELS),
        region=rng.choice((*REGIONS, "unknown")),
        subjects=rng.choice(((), ("single",), ("soldier", "child"))),
        findings=found,
    )
