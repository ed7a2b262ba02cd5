"""Tables P(answer | state) as they are written in YAML, brought to rows that sum to 1.

A table names, for each answer, the states and a number for each: a probability, or `x3`, three
times as often as in the reference state, or `x3 x0.8`, a pair of ratios for the sign when seen and
when looked for in vain, from which the reference rate follows as (1 - 0.8) / (3 - 0.8). `any`
stands for the states not named. One answer may go unnamed: it takes the rest.
"""

from collections.abc import Mapping, Sequence

from appraise.base.spelling import did_you_mean
from appraise.base.yamls import Row
from appraise.knowledge.records import Answer, AnswerTable

CEILING = 0.98
FLOOR = 0.001
JUDGED = 30.0


def read_table(
    row: Row,
    over: str,
    answers: Sequence[str],
    states: Mapping[str, tuple[str, ...]],
    reference: str,
) -> AnswerTable:
    """The table under key `over` of a check.

    Args:
        row: The check's row.
        over: The key, and the set of states.
        answers: The check's answers in order.
        states: Every word that may name states, with the states it stands for (a family's
            word stands for its processes). A word that stands for itself is a state.
        reference: The state that ratios refer to, or '' where ratios have no meaning.

    Raises:
        InputError: for unknown answers or states, or rows that cannot sum to 1.
    """
    inner = row.row(over)
    _known(inner, answers, "answer")
    spelled = {answer: _line(inner.row(answer), states, reference) for answer in inner}
    unnamed = [answer for answer in answers if answer not in spelled]
    if len(unnamed) > 1:
        raise row.error(
            over, f"answers without a row: {', '.join(unnamed)}", "One may take the rest."
        )
    rows = {}
    for state in (word for word, members in states.items() if members == (word,)):
        rows[state] = _row(inner, [spelled.get(answer, {}).get(state) for answer in answers], state)
    return AnswerTable(over, rows)


def _known(row: Row, names: Sequence[str], what: str) -> None:
    for key in row:
        if key not in names:
            raise row.error(key, f"'{key}' is not a {what} here", did_you_mean(key, names))


def _line(row: Row, states: Mapping[str, tuple[str, ...]], reference: str) -> dict[str, float]:
    """One answer's probabilities by state."""
    _known(row, [*states, "any"], "state")
    words = {key: row.text(key) for key in row}
    base = _base(row, words, reference)
    given: dict[str, float] = {}
    for key in sorted(words, key=lambda word: -len(states.get(word, ()))):
        for state in states.get(key, ()):
            given[state] = _value(row, key, words[key], base)
    if reference and base is not None:
        given.setdefault(reference, base)
    if "any" in words:
        rest = _value(row, "any", words["any"], base)
        for word, members in states.items():
            if members == (word,):
                given.setdefault(word, rest)
    missing = [w for w, members in states.items() if members == (w,) and w not in given]
    if missing:
        raise row.error("", f"no number for {', '.join(missing[:6])}", "Name them or write 'any'.")
    return given


def _base(row: Row, words: Mapping[str, str], reference: str) -> float | None:
    """P(answer | reference state): stated, or derived from a pair of ratios."""
    if not reference:
        return None
    if reference in words:
        return _number(row, reference, words[reference])
    for key, text in words.items():
        parts = text.split()
        if len(parts) == 2 and all(part.startswith("x") for part in parts):
            seen, unseen = (_number(row, key, part[1:], 1000) for part in parts)
            if not (seen > 1 > unseen or seen < 1 < unseen):
                raise row.error(key, "a pair of ratios lies on both sides of 1")
            return (1 - unseen) / (seen - unseen)
    if "any" in words and not words["any"].startswith("x"):
        return _number(row, "any", words["any"])
    return None


def _value(row: Row, key: str, text: str, base: float | None) -> float:
    first = text.split()[0] if text.split() else ""
    if not first.startswith("x"):
        return _number(row, key, text)
    if base is None:
        raise row.error(
            key, "a ratio needs a base rate", "State it, or give a pair such as x3 x0.8."
        )
    return min(CEILING, base * _number(row, key, first[1:], 1000))


def _number(row: Row, key: str, text: str, high: float = 1.0) -> float:
    try:
        value = float(text)
    except ValueError:
        raise row.error(key, f"'{text}' is neither a probability nor a ratio") from None
    if not 0 < value <= high:
        raise row.error(key, f"{text} is outside 0 to {high:g}")
    return value


def _row(row: Row, values: list[float | None], state: str) -> tuple[float, ...]:
    rest = 1 - sum(value for value in values if value is not None)
    if None in values:
        if rest < FLOOR:
            raise row.error("", f"nothing is left for the last answer when {state}")
        return tuple(rest if value is None else value for value in values)
    if abs(rest) > 1e-6:
        raise row.error("", f"the answers sum to {1 - rest:g} when {state}, not to 1")
    return tuple(value for value in values if value is not None)


def widest(table: AnswerTable) -> float:
    """The largest ratio between two states for any one answer."""
    columns = zip(*table.rows.values(), strict=True)
    return max((max(column) / max(min(column), 1e-9) for column in columns), default=1.0)


def strength(
    tables: Sequence[AnswerTable], answers: Sequence[Answer], floors: Mapping[str, float]
) -> float:
    """A check's fixed strength: the widest ratio over its tables and its years."""
    widths = [widest(table) for table in tables]
    widths += [
        1 / floors[years.confidence] for answer in answers for years in answer.years.values()
    ]
    return max(widths, default=1.0)
