"""Names that checks and answers had before: what was stored under them reads as the new ones."""

from collections.abc import Iterator, Mapping

from appraise.knowledge.inquiry import Check
from appraise.knowledge.records import Problem


def former_names(checks: Mapping[str, Check]) -> dict[tuple[str, str], tuple[str, str]]:
    """By former check and answer, the check and answer of today.

    A check that was renamed takes over its answers by their ids; where '' stands for the answer,
    any that is not named, such as `cannot-tell`, stays as it is. An answer that moved names the
    check and the answer that it was.
    """
    found: dict[tuple[str, str], tuple[str, str]] = {}
    for check in checks.values():
        for old in check.formerly:
            found[old, ""] = (check.id, "")
        for answer in check.answers:
            for told in answer.formerly:
                old, _, was = told.partition(" ")
                found[old, was] = (check.id, answer.id)
    return found


def today(former: Mapping[tuple[str, str], tuple[str, str]], check: str, answer: str) -> str:
    """A finding as it is called today, as 'check answer'; itself where it was never renamed."""
    name, now = former.get((check, answer)) or former.get((check, "")) or (check, answer)
    return f"{name} {now or answer}"


def former_problems(checks: Mapping[str, Check]) -> Iterator[Problem]:
    """Former names that are in use today, or that two rows claim."""
    claimed: set[tuple[str, str]] = set()
    for check in checks.values():
        where = f"{check.file}:{check.line} {check.id}.formerly"
        told = [(old, "") for old in check.formerly]
        told += [_pair(one) for answer in check.answers for one in answer.formerly]
        for old, was in told:
            asked = checks.get(old)
            words = f"{old} {was}".strip()
            if asked is not None and (not was or asked.index(was) >= 0):
                yield Problem(where, f"'{words}' is still in use", "Name what it was before.")
            if (old, was) in claimed:
                yield Problem(where, f"'{words}' is claimed twice", "Name it in one row only.")
            claimed.add((old, was))


def _pair(told: str) -> tuple[str, str]:
    old, _, was = told.partition(" ")
    return old, was
