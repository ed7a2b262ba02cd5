"""What no single row can know: references between rows, and shares over a check's answers."""

from collections.abc import Collection, Mapping, Sequence
from dataclasses import replace

from appraise.base.spelling import did_you_mean
from appraise.knowledge.formerly import former_names, former_problems
from appraise.knowledge.records import (
    FIRST_YEAR,
    KINDS,
    LAST_YEAR,
    YEARS,
    Answer,
    Care,
    Category,
    Caution,
    Check,
    Knowledge,
    Problem,
    Weights,
    Years,
)

MOUNT_FORM = "mount.form"  # the check whose answers a card's format may name
FULLEST = 0.98  # the most that the named answers of a check take in any year


def cross_check(knowledge: Knowledge, problems: list[Problem], cited: Collection[str]) -> Knowledge:
    """The knowledge with shares scaled, and every dangling reference among its problems.

    Args:
        knowledge: As read.
        problems: Those found so far.
        cited: Keys of the sources that some row cites.
    """
    checks = {
        name: scale_shares(check, knowledge.weights) for name, check in knowledge.checks.items()
    }
    found = [*problems, *_dangling(knowledge), *_idle(knowledge, cited), *former_problems(checks)]
    former = former_names(checks)
    return replace(knowledge, checks=checks, former=former, problems=tuple(found))


def trapezoid(
    years: Mapping[str, Years], region: str, weights: Weights, at: Sequence[int] = YEARS
) -> tuple[float, ...]:
    """Weights over years of an answer in a region, floored by confidence.

    A region that the answer does not name, or `unknown`, takes the mixture of those it names.
    """
    if not years:
        return (1.0,) * len(at)
    if region in years:
        named = {region: 1.0}
    elif "" in years:
        named = {"": 1.0}
    else:
        named = {name: weights.regions.get(name, 0.1) for name in years}
    total = sum(named.values())
    lines = []
    for name, share in named.items():
        floor, part = weights.floors[years[name].confidence], share / total
        line = [floor + (1 - floor) * weight for weight in years[name].weights(at)]
        lines.append([part * weight for weight in line] if len(named) > 1 else line)
    return tuple(lines[0] if len(lines) == 1 else map(sum, zip(*lines, strict=True)))


def scale_shares(check: Check, weights: Weights) -> Check:
    """Shares scaled so that a check's answers sum to at most 1 in every year and region.

    The answer without years and share takes what is left. Between the years of its trapezoids
    the sum runs straight, so the fullest year is one of those.
    """
    if not check.dates:
        return check
    shared = [answer for answer in check.answers if answer.share]
    all_years = [one for answer in shared for one in answer.years.values()]
    four = {y for one in all_years for y in (one.first, one.start, one.end, one.last)}
    corners = sorted({min(max(year, FIRST_YEAR), LAST_YEAR) for year in four})
    named = {region for answer in shared for region in answer.years}
    fullest = 0.0
    for region in ("unknown", *sorted(named - {""})):
        lines = [(a.share, trapezoid(a.years, region, weights, corners)) for a in shared]
        fullest = max(
            fullest,
            max(sum([share * line[n] for share, line in lines]) for n in range(len(corners))),
        )
    if fullest <= FULLEST:
        return check
    room = FULLEST / fullest
    return replace(check, answers=tuple(replace(a, share=a.share * room) for a in check.answers))


def _dangling(knowledge: Knowledge) -> list[Problem]:
    found = []
    for check in knowledge.checks.values():
        where = f"{check.file}:{check.line} {check.id}"
        for other, answers in check.when.items():
            found += _unknown_answers(knowledge, other, answers, f"{where}.when")
        for answer in check.answers:
            for other, word in answer.implies.items():
                found += _unknown_answers(knowledge, other, (word,), f"{where}.{answer.id}")
        for caution in check.cautions:
            if caution not in knowledge.cautions:
                mend = did_you_mean(caution, knowledge.cautions)
                found.append(Problem(where, f"'{caution}' is not a caution", mend))
        for other in check.defect.graver if check.defect else ():
            found += _unknown_answers(knowledge, other, (), f"{where}.graver")
        if check.dates and not any(_takes_rest(a) for a in check.answers):
            found.append(Problem(where, "no answer without years takes the rest"))
    for caution_id, one in knowledge.cautions.items():
        for other, answers in one.when.items():
            found += _unknown_answers(knowledge, other, answers, f"cautions.{caution_id}")
    for category in knowledge.record.values():
        found += _unasked(knowledge, category)
    for care in knowledge.care.values():
        found += _no_damage(knowledge, care)
    return [*found, *_unknown_materials(knowledge), *_unknown_sizes(knowledge)]


def _unknown_sizes(knowledge: Knowledge) -> list[Problem]:
    """Formats and measurable things that an offset names in vain, and forms of cards."""
    found = []
    whats = {offset.what for offset in knowledge.offsets.values()}
    for name, offset in knowledge.offsets.items():
        for words, known in ((offset.formats, knowledge.formats), (offset.instead, whats)):
            found += [
                Problem(f"offsets.{name}", f"'{word}' is not known here", did_you_mean(word, known))
                for word in words
                if word not in known
            ]
    check = knowledge.checks.get(MOUNT_FORM)
    forms = [answer.id for answer in check.answers] if check else []
    for form in knowledge.formats.values():
        if form.form and form.form not in forms:
            mend = did_you_mean(form.form, forms)
            where = f"formats.{form.id}"
            found.append(Problem(where, f"'{form.form}' is not an answer of {MOUNT_FORM}", mend))
    return found


def _unasked(knowledge: Knowledge, category: Category) -> list[Problem]:
    """Checks, or whole parts (`case.*`), that a category of the record names in vain."""
    where = f"record.{category.id}"
    return [
        Problem(where, f"'{name}' is not a check", did_you_mean(name, knowledge.checks))
        for name in category.checks
        if name not in knowledge.checks
        and not (name.endswith(".*") and name[:-2] in knowledge.parts)
    ]


def _no_damage(knowledge: Knowledge, care: Care) -> list[Problem]:
    """What a row of care takes for questions on damage and is none."""
    known = [check.id for check in knowledge.checks.values() if check.defect is not None]
    return [
        Problem(f"care.{care.id}", f"'{name}' is not a defect", did_you_mean(name, known))
        for name in care.damage
        if name not in known
    ]


def _unknown_materials(knowledge: Knowledge) -> list[Problem]:
    """Materials of cautions and care that are neither process, family, housing nor kind."""
    known = {*knowledge.processes, *knowledge.housings, *KINDS}
    known.update(process.family for process in knowledge.processes.values())
    rows: tuple[tuple[str, Mapping[str, Caution | Care]], ...] = (
        ("cautions", knowledge.cautions),
        ("care", knowledge.care),
    )
    return [
        Problem(f"{topic}.{name}", f"'{word}' is not a material", did_you_mean(word, known))
        for topic, those in rows
        for name, row in those.items()
        for word in row.materials
        if word not in known
    ]


def _unknown_answers(
    knowledge: Knowledge, check: str, answers: tuple[str, ...], where: str
) -> list[Problem]:
    if check not in knowledge.checks:
        return [Problem(where, f"'{check}' is not a check", did_you_mean(check, knowledge.checks))]
    known = [answer.id for answer in knowledge.checks[check].answers]
    return [
        Problem(where, f"'{answer}' is not an answer of {check}", did_you_mean(answer, known))
        for answer in answers
        if answer not in known
    ]


def _takes_rest(answer: Answer) -> bool:
    return not answer.years and not answer.share


def _idle(knowledge: Knowledge, cited: Collection[str]) -> list[Problem]:
    """Sources that nothing cites.

    Where a row of the user's own stands for a shipped one, its sources may have lost their only
    row: then only the user's own sources are asked for.
    """
    return [
        Problem(f"sources.{key}", f"'{key}' is cited by no row", "Remove it, or cite it.")
        for key in knowledge.sources
        if key not in cited
        and (not knowledge.overridden or knowledge.own_row("sources", key) is not None)
    ]
