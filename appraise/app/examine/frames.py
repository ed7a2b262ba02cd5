"""The package drawn as nested frames, each part with its mark, and the findings beside."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from appraise.app.examine.state import Examination
from appraise.app.lines import EMPTY, Line, clip, fill, line
from appraise.app.marks import DOUBT, ORDER, UNSEEN, WARN, Marks
from appraise.documents.words import KNOWN
from appraise.records.piece import UNTOLD

NESTED = {
    "cased": ("case", "pad", "preserver", "glass", "mat", "plate"),
    "loose-plate": ("preserver", "glass", "mat", "plate"),
    "lantern-slide": ("slide", "glass", "mat", "image"),
    "card": ("mount", "print"),
    "cyanotype": ("mount", "print"),
    "print": ("print",),
    "postcard": ("print",),
    "empty-case": ("case", "pad"),
    "part": ("case", "pad", "preserver", "glass", "mat"),
    "album": (),
    "lot": (),
    "other": (),
}
SPARE = ("pad", "preserver", "glass", "mat", "mount", "slide", "case")
"""The frames that are left out first where there is no room for all."""

ACROSS, GAP = 34, 3  # cells


def package(exam: Examination, marks: Marks, width: int, rows: int) -> list[Line]:
    """Frames on the left, findings on the right, the last one made first."""
    parts = [part for part in NESTED[exam.piece.kind] if part in exam.parts]
    for spare in SPARE:
        if 2 * len(parts) - 1 > rows and spare in parts and len(parts) > 1:
            parts.remove(spare)
    drawn = frames(parts, states(exam), marks, ACROSS)
    told = _findings(exam, marks, width - ACROSS - GAP)
    out = []
    for place in range(min(rows, max(len(drawn), len(told)))):
        left = drawn[place] if place < len(drawn) else EMPTY
        right = told[place] if place < len(told) else EMPTY
        out.append((*fill(left, ACROSS), (" " * GAP, ""), *right))
    return out


def states(exam: Examination) -> dict[str, str]:
    """Each part's mark: a fault or strong warning, a doubt, in order, or not looked at."""
    found = dict.fromkeys(exam.parts, UNSEEN)
    for check in exam.checks:
        answer = exam.piece.found(check.id)
        if answer and answer != UNTOLD:
            found[check.part] = ORDER
    if exam.verdict is None:
        return found
    reading = exam.verdict.reading
    for fault in reversed(reading.condition.faults):
        found[fault.check.part] = WARN if fault.active or fault.step == 3 else DOUBT
    if reading.odd_one_out and found.get(reading.odd_one_out.part) != WARN:
        found[reading.odd_one_out.part] = DOUBT
    return found


def frames(parts: Sequence[str], marked: Mapping[str, str], marks: Marks, width: int) -> list[Line]:
    """Frames one in the other, the outermost part first; the innermost is a word."""
    if not parts:
        return []
    part, *inner = parts
    label = (part, ""), (f" {marked.get(part, UNSEEN)}", _role(marked.get(part, UNSEEN)))
    if not inner:
        gap = max(0, (width - len(part) - 2) // 2)
        return [line(" " * gap, *label)]
    left, right, low_left, low_right = marks.corners
    rest = width - len(part) - 7
    top = line((f"{left}{marks.rule} ", "quiet"), *label, (f" {marks.rule * rest}{right}", "quiet"))
    bottom = line((f"{low_left}{marks.rule * (width - 2)}{low_right}", "quiet"))
    body = frames(inner, marked, marks, width - 4)
    wall = (marks.wall, "quiet")
    return [
        top,
        *[(wall, (" ", ""), *fill(row, width - 4), (" ", ""), wall) for row in body],
        bottom,
    ]


def _role(mark: str) -> str:
    return {WARN: "warn", DOUBT: "doubt", ORDER: "good"}.get(mark, "quiet")


def _findings(exam: Examination, marks: Marks, width: int) -> list[Line]:
    """What was found, the last one first."""
    out = []
    for name, finding in reversed(list(exam.piece.findings.items())):
        check = exam.knowledge.checks.get(name)
        if check is None or finding.answer == UNTOLD:
            continue
        place = check.index(finding.answer)
        says = check.answers[place].says if place >= 0 else finding.answer
        bare = says.partition(",")[0] in ("yes", "no")
        name = check.defect.name if check.defect else check.part
        name = f"{name} {check.id.partition('.')[2].replace('-', ' ')}" if bare else name
        known = "" if finding.known == "in-hand" else f", {KNOWN[finding.known]}"
        told = clip(f"{says}{known}", max(4, width - len(name) - 2), marks)
        out.append(line((f"{name}: ", "quiet"), told))
    return out
