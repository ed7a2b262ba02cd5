"""A verdict as the JSON object of the contract, schema "appraise.verdict/1"."""

from collections.abc import Mapping
from typing import Any

from appraise.base.money import Money, as_json
from appraise.documents.bid import bill_json, exchange_json
from appraise.documents.own_rows import own_json, took_part
from appraise.knowledge.records import Knowledge
from appraise.reading.condition import Condition
from appraise.reading.influence import Reason
from appraise.reading.matter import judged
from appraise.reading.reading import Reading, existed_by, looks_right
from appraise.reading.spans import Span
from appraise.verdict import NextSteps, Verdict, explain, moved_most, pay_of

SCHEMA = "appraise.verdict/1"
DIGITS = 4
NEXT = 10  # checks that are proposed


def verdict_json(verdict: Verdict, steps: NextSteps, knowledge: Knowledge) -> dict[str, Any]:
    """The verdict as plain JSON values; probabilities rounded to four places."""
    reading = verdict.reading
    return {
        "schema": SCHEMA,
        "as_of": verdict.as_of.isoformat(),
        "knowledge": verdict.digest,
        "kind": verdict.piece.kind,
        "title": verdict.piece.title,
        "headline": str(verdict.headline),
        "tone": verdict.headline.tone,
        "judged": judged(verdict.piece),
        "pictures": [_picture(side, one) for side, one in reading.images],
        "process": _process(reading),
        "format": _format(reading),
        "dates": _dates(reading),
        "timeline": _timeline(reading),
        "belonging": shares(reading.belonging),
        "before_looking": {"low": reading.before[0], "high": reading.before[1]},
        "package": {"disturbed": _round(reading.disturbed)},
        "odd_one_out": _odd(reading),
        "copy": _round(reading.joint.copy),
        "altered": _round(reading.joint.altered),
        "warnings": _warnings(verdict),
        "moved_most": [_reason(one) for one in moved_most(verdict, knowledge)],
        "explanation": [_reason(one) for one in explain(verdict.reading, knowledge)],
        "condition": {**_condition(reading.condition), "beside_usual": _round(verdict.kept)},
        "price": _price(verdict),
        "worth": _worth(verdict),
        "advice": {**_advice(verdict), **_steps(steps)},
        "progress": {part: {"done": d, "of": of} for part, (d, of) in reading.progress.items()},
        "portrayal": _portrayal(reading),
        "sitter": _sitter(reading),
        "cautions": [
            {"id": one.id, "text": one.text, "source": list(one.basis.sources)}
            for one in verdict.cautions
        ],
        "own_rows": [own_json(one) for one in took_part(verdict, knowledge)],
    }


def _picture(side: str, reading: Reading) -> dict[str, Any]:
    """One of several pictures in a piece."""
    return {
        "side": side,
        "process": _process(reading),
        "dates": _dates(reading),
        "belonging": shares(reading.belonging),
    }


def shares(chances: Mapping[str, float]) -> dict[str, float]:
    """Probabilities by word, rounded, the likeliest first."""
    ordered = sorted(chances.items(), key=lambda item: -item[1])
    return {word: _round(chance) for word, chance in ordered}


def _round(value: float) -> float:
    return round(value, DIGITS)


def _process(reading: Reading) -> dict[str, Any]:
    best = max(reading.processes, key=lambda word: reading.processes[word])
    return {
        "best": best,
        "family": reading.family,
        "probabilities": shares(reading.processes),
        "families": shares(reading.families),
    }


def _format(reading: Reading) -> dict[str, Any]:
    formats = reading.formats
    return {
        "best": formats.best or None,
        "probabilities": shares(formats.probabilities) if formats.best else {},
        "case_format": formats.case_format or None,
        "maybe_measured": formats.maybe_measured or None,
        "nearest": formats.nearest or None,
        "called": formats.called or None,
    }


def _span(span: Span | None) -> dict[str, Any] | None:
    if span is None:
        return None
    return {
        "from": span.first,
        "to": span.last,
        "level": span.level,
        "edtf": span.edtf,
        "median": span.median,
    }


def _dates(reading: Reading) -> dict[str, Any]:
    return {
        "image": _span(reading.image),
        "package": _span(reading.package),
        "housing": _span(reading.housing),
        "joint": _span(reading.combined),
    }


def _timeline(reading: Reading) -> list[dict[str, Any]]:
    return [
        {
            "part": one.part,
            "check": one.check,
            "answer": one.answer,
            "from": one.years[0],
            "common_from": one.years[1],
            "common_to": one.years[2],
            "to": one.years[3],
            "exchanged": _round(one.exchanged),
        }
        for one in reading.timeline
    ]


def _odd(reading: Reading) -> dict[str, Any] | None:
    odd = reading.odd_one_out
    if odd is None:
        return None
    check = next((one.check for one in reading.timeline if one.part == odd.part), odd.part)
    return {"check": check, "part": odd.part, "exchanged": _round(odd.probability)}


def _warnings(verdict: Verdict) -> list[dict[str, Any]]:
    return [
        {
            "id": one.id,
            "says": one.says,
            "towards": one.towards,
            "lr": _ratio(one.ratio) if one.ratio else None,
            "word": one.word or None,
            "strong": one.strong,
            "because": list(one.because),
            "innocent": list(one.innocent),
            "look_next": list(one.look_next),
        }
        for one in verdict.warnings
    ]


def _reason(one: Reason) -> dict[str, Any]:
    return {
        "check": one.check,
        "answer": one.answer,
        "known": one.known,
        "lr": _ratio(one.ratio),
        "towards": one.towards,
        "word": one.word,
    }


def _ratio(value: float) -> float:
    """A likelihood ratio to three significant digits."""
    return float(f"{value:.3g}")


def _condition(condition: Condition) -> dict[str, Any]:
    sides = {
        name: {
            "grade": side.grade,
            "worst": side.worst.check.id if side.worst else None,
            "stability": side.stability,
            "completeness": side.completeness,
        }
        for name, side in condition.sides.items()
    }
    return {
        **sides,
        "factor": _round(condition.factor),
        "not_seen": list(condition.not_seen),
        "defects": [
            {"id": one.check.id, "step": one.step, "part": one.check.part}
            for one in condition.faults
        ],
        "active": [
            {"id": one.check.id, "do": one.defect.do, "never": one.defect.never}
            for one in condition.faults
            if one.active
        ],
    }


def _money(amount: float, currency: str) -> dict[str, str] | None:
    return as_json(Money.parse(f"{amount:.4f}", currency))


def _price(verdict: Verdict) -> dict[str, Any] | None:
    estimate, currency = verdict.estimate, verdict.currency
    if estimate is None or estimate.median is None:
        return None
    assert estimate.low is not None
    assert estimate.high is not None
    return {
        "low": _money(estimate.low, currency),
        "median": _money(estimate.median, currency),
        "high": _money(estimate.high, currency),
        "level": estimate.level,
        "method": estimate.method,
        "like": round(estimate.like, 1),
        "entries": estimate.entries,
        "comparables": [
            {
                "id": one.id,
                "price": _money(one.price, currency),
                "factors": [{"feature": name, "factor": _ratio(by)} for name, by in one.factors],
                "adjusted": _money(one.adjusted, currency),
                "weight": _round(one.weight),
            }
            for one in estimate.comparables
        ],
    }


def _worth(verdict: Verdict) -> dict[str, Any] | None:
    worth, currency = verdict.worth, verdict.currency
    if worth is None:
        return None
    return {
        "median": _money(worth.median, currency),
        "low": _money(worth.low, currency),
        "high": _money(worth.high, currency),
        "why": worth.why,
    }


def _advice(verdict: Verdict) -> dict[str, Any]:
    told, pay, gate = verdict.money, pay_of(verdict), verdict.gate
    shown = bool(pay.limit)
    return {
        "chance_worth_it": _round(told.worth_its_cost)
        if told and told.worth_its_cost is not None
        else None,
        "venue": told.venue.name if told else None,
        "cost": as_json(told.cost) if told else None,
        "ceiling": as_json(told.advice.ceiling) if told and shown else None,
        "walk_away": as_json(pay.limit),
        "opening": as_json(pay.opening),
        "bill": bill_json(pay.bill),
        "exchange": exchange_json(pay.bill),
        "plain": gate.plain if gate and told and not verdict.holds_back else None,
        "missing": pay.missing or None,
        "outcomes": [
            {
                "if": one.says,
                "chance": _round(one.chance),
                "worth": _money(one.worth, verdict.currency),
                "limit": as_json(one.limit),
            }
            for one in pay.outcomes
        ],
        "notes": list(verdict.notes),
        "why_not": pay.reason or None,
        "holds_back": list(verdict.holds_back),
    }


def _steps(steps: NextSteps) -> dict[str, Any]:
    return {
        "enough": steps.enough.enough,
        "not_looked": list(steps.enough.not_looked),
        "next_checks": [
            {"id": one.check, "why": one.why, "gain": _round(one.gain), "seconds": one.seconds}
            for one in steps.proposals[:NEXT]
        ],
    }


def _portrayal(reading: Reading) -> dict[str, Any] | None:
    year = reading.piece.portray
    if year is None:
        return None
    by, looks = existed_by(reading, year), looks_right(reading, year)
    return {"existed_by": _round(by), "looks_right": _round(looks)}


def _sitter(reading: Reading) -> dict[str, int] | None:
    if reading.born is None:
        return None
    return {"born_from": reading.born[0], "born_to": reading.born[1]}
