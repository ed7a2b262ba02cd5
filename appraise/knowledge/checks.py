"""Checks and defects as they are written in YAML."""

from collections.abc import Mapping
from dataclasses import replace

from appraise.base.spelling import did_you_mean
from appraise.base.yamls import Row
from appraise.knowledge.basis import read_basis, read_years
from appraise.knowledge.records import (
    KINDS,
    Answer,
    AnswerTable,
    Basis,
    Check,
    Defect,
)
from appraise.knowledge.surroundings import Surroundings
from appraise.knowledge.tables import JUDGED, read_table, strength, widest

RISKS = ("none", "handling", "conservator")
SORTS = ("form", "test")
STABILITY = ("stable", "conditional", "active")
REVERSIBLE = ("no", "replaceable", "slow", "owner")
HISTORY = ("opened", "exchanged", "treated", "environment", "use", "manufacture")
STEPS = ("0", "1", "2", "3")
FEATURES = ("quality", "identified")
STATE_TABLES = ("belonging", "package", "process", "housing", "copy", "altered")
REFERENCE = {"belonging": "together", "package": "undisturbed", "copy": "no", "altered": "no"}


def read_check(row: Row, name: str, around: Surroundings, kinds: tuple[str, ...]) -> Check:
    """A row of `checks:`.

    Raises:
        InputError: for whatever cannot be meant, with file, line, key and the nearest spelling.
    """
    basis = read_basis(row, around.sources)
    answers = _answers(row, around, basis)
    tables = _tables(row, answers, around)
    dated = any(answer.years for answer in answers)
    if dated and tables:
        raise row.error(
            "answers", "a check bears on years or on states, not on both", "Make it two checks."
        )
    check = _frame(row, name, around, kinds, basis)
    by_kind = {kind: _tables(row.row(kind), answers, around) for kind in check.kinds if kind in row}
    check = replace(check, answers=answers, tables=tables, kind_tables=by_kind)
    row.done()
    _judged(row, check)
    _marked(row, check)
    return replace(check, strength=strength(tables, answers, around.floors))


def read_defect(row: Row, name: str, around: Surroundings, kinds: tuple[str, ...]) -> Check:
    """A row of `defects:`: a check whose answers are the steps 0 to 3.

    `steps:` gives four texts, what is seen at each step; the first says that there is none.
    """
    basis = read_basis(row, around.sources)
    texts = row.texts("steps")
    if len(texts) != 4:
        raise row.error("steps", "four texts are needed, for the steps 0, 1, 2 and 3")
    answers = tuple(
        Answer(step, text, absence=step == "0") for step, text in zip(STEPS, texts, strict=True)
    )
    tables = _tables(row, answers, around)
    check = replace(
        _frame(row, name, around, kinds, basis),
        answers=answers,
        tables=tables,
        defect=_defect(row, around),
    )
    row.done()
    _judged(row, check)
    return replace(check, strength=strength(tables, answers, around.floors))


def _frame(
    row: Row, name: str, around: Surroundings, kinds: tuple[str, ...], basis: Basis
) -> Check:
    part = row.choice("part", tuple(around.parts), name.split(".")[0])
    return Check(
        id=name,
        part=part,
        ask=row.text("ask"),
        answers=(),
        basis=basis,
        kinds=_kinds(row, kinds, around.parts[part].empty),
        how=row.text("how"),
        seconds=row.number("seconds", low=1, high=600),
        risk=row.choice("risk", RISKS),
        sort=row.choice("sort", SORTS, "form"),
        group=row.text("group", ""),
        misleads=row.text("misleads", ""),
        innocent=row.texts("innocent", ()),
        decisive=row.flag("decisive"),
        slip=row.number("slip", 0.0, 0.0, 0.2),
        hand=row.flag("hand"),
        fit=row.flag("fit"),
        sizes=row.flag("sizes"),
        safety=row.flag("safety"),
        when=_when(row),
        only=_only(row, around, "only"),
        suits=_only(row, around, "suits"),
        cautions=row.words("cautions", ()),
        formerly=row.words("formerly", ()),
        feature=row.choice("feature", ("", *FEATURES), ""),
        figure=row.text("figure", ""),
        file=row.file,
        line=row.line,
    )


def _kinds(row: Row, usual: tuple[str, ...], empty: bool) -> tuple[str, ...]:
    """The kinds of piece that are asked; an empty case has the part as well where that is said."""
    chosen = row.words("kinds", usual)
    for kind in chosen:
        if kind not in KINDS:
            known = f"Known: {', '.join(KINDS)}."
            raise row.error("kinds", f"'{kind}' is not a kind of piece", known)
    return (*chosen, "empty-case") if empty and "cased" in chosen else chosen


def _when(row: Row) -> dict[str, tuple[str, ...]]:
    if "when" not in row:
        return {}
    inner = row.row("when")
    return {key: inner.words(key) for key in inner}


def _only(row: Row, around: Surroundings, key: str) -> tuple[str, ...]:
    words = row.words(key, ())
    known = {*around.processes, *around.housings}
    for word in words:
        if word not in known:
            raise row.error(
                key, f"'{word}' is neither a process nor a housing", did_you_mean(word, known)
            )
    return words


def _answers(row: Row, around: Surroundings, basis: Basis) -> tuple[Answer, ...]:
    inner = row.row("answers")
    found = [
        Answer(key, inner.text(key))
        if inner.is_text(key)
        else _answer(inner.row(key), key, around, basis)
        for key in inner
    ]
    if len(found) < 2:
        raise row.error("answers", "a check needs two answers or more")
    return tuple(found)


def _answer(row: Row, key: str, around: Surroundings, basis: Basis | None) -> Answer:
    years = read_years(row)
    answer = Answer(
        key,
        row.text("says"),
        years,
        row.number("share", 0.0, 0.0, 1.0),
        row.flag("undates"),
        row.flag("absence"),
        read_basis(row, around.sources, basis),
        row.flag("unnamed"),
        row.text("late", ""),
        _implied(row),
        row.text("holds", ""),
        row.texts("formerly", ()),
        row.number("mark", low=1, high=5) if "mark" in row else None,
        row.text("figure", ""),
    )
    if years and not answer.share:
        raise row.error("share", "an answer with years needs its share among the answers")
    row.done(
        (
            "years",
            "share",
            "says",
            "undates",
            "absence",
            "confidence",
            "unnamed",
            "implies",
            "late",
            "figure",
        )
    )
    return answer


def _implied(row: Row) -> dict[str, str]:
    """The answers of other checks that follow from an answer."""
    if "implies" not in row:
        return {}
    inner = row.row("implies")
    return {check: inner.text(check) for check in inner}


def with_answers(row: Row, key: str, checks: Mapping[str, Check], around: Surroundings) -> Check:
    """A row of `answers:`: a check with single answers of the row's added, or put for its own.

    A new answer goes before the one that takes what is left, so that this stays the last.

    Raises:
        InputError: when there is no such check, or it carries tables, whose rows must be whole.
    """
    check = checks.get(key)
    if check is None:
        raise row.error("", f"'{key}' is not a check", did_you_mean(key, checks))
    if check.tables or check.defect:
        raise row.error(
            "", "single answers go only to a check whose answers carry years",
            "Copy the whole check under 'checks', and change it there.",
        )  # fmt: skip
    answers = {one.id: one for one in check.answers}
    rest = next((one.id for one in check.answers if not one.years and not one.share), "")
    last = answers.pop(rest, None)
    for name in row:
        answer = _answer(row.row(name), name, around, None)
        if name == rest or not answer.years:
            raise row.error(name, "'years' is missing")
        answers[name] = answer
    whole = (*answers.values(), *((last,) if last is not None else ()))
    return replace(check, answers=whole, strength=strength((), whole, around.floors))


def _tables(row: Row, answers: tuple[Answer, ...], around: Surroundings) -> tuple[AnswerTable, ...]:
    names = [answer.id for answer in answers]
    return tuple(
        read_table(row, over, names, around.states(over), REFERENCE.get(over, ""))
        for over in STATE_TABLES
        if over in row
    )


def _marked(row: Row, check: Check) -> None:
    """A quality that prices follow is told by marks, one for each answer."""
    marked = [answer.mark is not None for answer in check.answers]
    if any(marked) != (check.feature == "quality") or any(marked) != all(marked):
        raise row.error(
            "answers", "'mark' goes with 'feature: quality', one for each answer", "Add them all."
        )


def _judged(row: Row, check: Check) -> None:
    """Ratios of judged rows stay within 1/30 and 30, unless the check is decisive."""
    for table in check.tables:
        if table.over not in REFERENCE or check.decisive:
            continue
        width = widest(table)
        if width > JUDGED + 1e-6:
            raise row.error(
                table.over,
                f"a ratio of {width:.0f} passes 30",
                "Soften it, or mark the check decisive.",
            )


def _defect(row: Row, around: Surroundings) -> Defect:
    worth = row.numbers("worth", 0, 1)
    if len(worth) != 4 or worth[0] != 1 or list(worth) != sorted(worth, reverse=True):
        raise row.error("worth", "four shares of value are needed, from 1 down")
    stability = row.words("stability")
    if len(stability) == 1:
        stability = stability * 4
    for word in stability:
        if word not in STABILITY or len(stability) != 4:
            raise row.error("stability", f"one or four of {', '.join(STABILITY)} are needed")
    history = row.words("history", ())
    for word in history:
        if word not in HISTORY:
            raise row.error("history", f"'{word}' is not a tag", f"Known: {', '.join(HISTORY)}.")
    return Defect(
        name=row.text("name"),
        stability=(stability[0], stability[1], stability[2], stability[3]),
        reversible=row.choice("reversible", REVERSIBLE),
        history=history,
        worth=(worth[0], worth[1], worth[2], worth[3]),
        rates=_rates(row, around),
        do=row.text("do", ""),
        never=row.text("never", ""),
        non_archival=row.flag("non-archival"),
        structural=row.flag("structural", True),
        recorded=row.flag("recorded"),
        unacceptable=int(row.number("unacceptable", 4, 1, 4)),
        graver=row.words("graver", ()),
    )


def _rates(row: Row, around: Surroundings) -> dict[str, tuple[float, ...]]:
    """Base rates of the steps, by housing or process word, with `any` for the rest."""
    inner = row.row("rates")
    rates: dict[str, tuple[float, ...]] = {}
    for key in inner:
        if key != "any" and key not in around.processes and key not in around.housings:
            raise inner.error(key, f"'{key}' is neither a housing nor a process")
        values = inner.numbers(key, 0, 1)
        if len(values) != 4 or abs(sum(values) - 1) > 1e-6:
            raise inner.error(key, "four rates that sum to 1 are needed")
        rates[key] = values
    if "any" not in rates:
        raise row.error("rates", "'any' is missing")
    return rates
