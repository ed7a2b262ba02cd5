"""A verdict as the JSON object of the contract, schema "appraise.verdict/1"."""

from collections.abc import Mapping
from typing import Any

from appraise.base.jsonvalues import json_value, picked
from appraise.base.money import Money, as_json
from appraise.documents.bid import bill_json, exchange_json, outcome_json
from appraise.documents.own_rows import own_json, took_part
from appraise.knowledge.records import Knowledge
from appraise.reading.condition import Condition
from appraise.reading.influence import Reason
from appraise.reading.matter import judged
from appraise.reading.reading import Reading, existed_by, looks_right
from appraise.reading.spans import Span
from appraise.verdict import NextSteps, Verdict, explain, moved_most, pay_of

SCHEMA = "appraise.verdict/1"
NEXT = 10  # checks that are proposed


def verdict_json(verdict: Verdict, steps: NextSteps, knowledge: Knowledge) -> dict[str, Any]:
    """The verdict as plain JSON values; probabilities rounded to four places."""
    reading = verdict.reading
    return {
        "schema": SCHEMA,
        **picked(verdict, "as_of", knowledge=verdict.digest),
        **picked(verdict.piece, "kind title"),
        "headline": str(verdict.headline),
        "tone": verdict.headline.tone,
        "judged": judged(verdict.piece),
        "pictures": [{"side": side, **_picture(one)} for side, one in reading.images],
        **_picture(reading),
        "format": _format(reading),
        "timeline": _timeline(reading),
        "before_looking": {"low": reading.before[0], "high": reading.before[1]},
        "package": picked(reading, "disturbed"),
        "odd_one_out": _odd(reading),
        **picked(reading.joint, "copy altered"),
        "warnings": _warnings(verdict),
        "moved_most": [_reason(one) for one in moved_most(verdict, knowledge)],
        "explanation": [_reason(one) for one in explain(verdict.reading, knowledge)],
        "condition": {**_condition(reading.condition), "beside_usual": json_value(verdict.kept)},
        "price": _price(verdict),
        "worth": _worth(verdict),
        "advice": {**_advice(verdict), **_steps(steps)},
        "progress": {part: {"done": d, "of": of} for part, (d, of) in reading.progress.items()},
        "portrayal": _portrayal(reading),
        "sitter": _sitter(reading),
        "cautions": [picked(one, "id text", source=one.basis.sources) for one in verdict.cautions],
        "own_rows": [own_json(one) for one in took_part(verdict, knowledge)],
    }


def _picture(reading: Reading) -> dict[str, Any]:
    """The piece, or one of several pictures in it."""
    dates = {name: _span(getattr(reading, name)) for name in ("image", "package", "housing")}
    return {
        "process": _process(reading),
        "dates": {**dates, "joint": _span(reading.combined)},
        "belonging": shares(reading.belonging),
    }


def shares(chances: Mapping[str, float]) -> dict[str, float]:
    """Probabilities by word, rounded, the likeliest first."""
    ordered = sorted(chances.items(), key=lambda item: -item[1])
    return {word: json_value(chance) for word, chance in ordered}


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
    words = ("best", "case_format", "maybe_measured", "nearest", "called")
    likely = shares(formats.probabilities) if formats.best else {}
    return {"probabilities": likely, **{name: getattr(formats, name) or None for name in words}}


def _span(span: Span | None) -> dict[str, Any] | None:
    if span is None:
        return None
    return {"from": span.first, "to": span.last, **picked(span, "level edtf median")}


def _timeline(reading: Reading) -> list[dict[str, Any]]:
    ends = ("from", "common_from", "common_to", "to")
    return [
        {**picked(one, "part check answer exchanged"), **dict(zip(ends, one.years, strict=True))}
        for one in reading.timeline
    ]


def _odd(reading: Reading) -> dict[str, Any] | None:
    odd = reading.odd_one_out
    if odd is None:
        return None
    check = next((one.check for one in reading.timeline if one.part == odd.part), odd.part)
    return picked(odd, "part", check=check, exchanged=odd.probability)


def _warnings(verdict: Verdict) -> list[dict[str, Any]]:
    return [
        {
            **picked(one, "id says towards strong because innocent look_next"),
            "lr": _ratio(one.ratio) if one.ratio else None,
            "word": one.word or None,
        }
        for one in verdict.warnings
    ]


def _reason(one: Reason) -> dict[str, Any]:
    return picked(one, "check answer known towards word") | {"lr": _ratio(one.ratio)}


def _ratio(value: float) -> float:
    """A likelihood ratio to three significant digits."""
    return float(f"{value:.3g}")


def _condition(condition: Condition) -> dict[str, Any]:
    sides = {
        name: picked(
            side, "grade stability completeness", worst=side.worst.check.id if side.worst else None
        )
        for name, side in condition.sides.items()
    }
    return {
        **sides,
        **picked(condition, "factor not_seen"),
        "defects": [
            {"id": one.check.id, "step": one.step, "part": one.check.part}
            for one in condition.faults
        ],
        "active": [
            picked(one.defect, "do never", id=one.check.id)
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
    return {
        **{name: _money(getattr(estimate, name), currency) for name in ("low", "median", "high")},
        **picked(estimate, "level method entries"),
        "like": round(estimate.like, 1),
        "comparables": [
            {
                **picked(one, "id weight"),
                "price": _money(one.price, currency),
                "factors": [{"feature": name, "factor": _ratio(by)} for name, by in one.factors],
                "adjusted": _money(one.adjusted, currency),
            }
            for one in estimate.comparables
        ],
    }


def _worth(verdict: Verdict) -> dict[str, Any] | None:
    worth, currency = verdict.worth, verdict.currency
    if worth is None:
        return None
    named = ("median", "low", "high")
    return {**{name: _money(getattr(worth, name), currency) for name in named}, "why": worth.why}


def _advice(verdict: Verdict) -> dict[str, Any]:
    told, pay, gate = verdict.money, pay_of(verdict), verdict.gate
    return {
        "chance_worth_it": json_value(told.worth_its_cost if told else None),
        "venue": told.venue.name if told else None,
        "cost": as_json(told.cost) if told else None,
        "ceiling": as_json(told.advice.ceiling) if told and pay.limit else None,
        "walk_away": as_json(pay.limit),
        "opening": as_json(pay.opening),
        "bill": bill_json(pay.bill),
        "exchange": exchange_json(pay.bill),
        "plain": gate.plain if gate and told and not verdict.holds_back else None,
        "missing": pay.missing or None,
        "outcomes": [
            {"worth": _money(one.worth, verdict.currency), **outcome_json(one)}
            for one in pay.outcomes
        ],
        **picked(verdict, "notes holds_back"),
        "why_not": pay.reason or None,
    }


def _steps(steps: NextSteps) -> dict[str, Any]:
    proposed = [picked(one, "why gain seconds", id=one.check) for one in steps.proposals[:NEXT]]
    return {**picked(steps.enough, "enough not_looked"), "next_checks": proposed}


def _portrayal(reading: Reading) -> dict[str, Any] | None:
    year = reading.piece.portray
    if year is None:
        return None
    by, looks = existed_by(reading, year), looks_right(reading, year)
    return {"existed_by": json_value(by), "looks_right": json_value(looks)}


def _sitter(reading: Reading) -> dict[str, int] | None:
    if reading.born is None:
        return None
    return {"born_from": reading.born[0], "born_to": reading.born[1]}
