"""Warnings that need little weighing: words against looks, sizes, repairs, decay."""

from collections.abc import Iterator

from appraise.base.percents import percent
from appraise.knowledge.records import UNJUDGED, Knowledge
from appraise.reading.fits import far, offset_of
from appraise.reading.matter import CONTENT
from appraise.reading.named import family_name
from appraise.reading.reading import Reading
from appraise.verdict.warning import Warning

OPENED = 0.8  # from that chance on an opened package is told
OPENED_INNOCENT = (
    "packages were opened for cleaning and new glass in every decade",
    "brass that touches silver leaves an outline too",
)
MISFIT_INNOCENT = (
    "a slip of the ruler or of the record",
    "a plate or case cut down, or of another trade",
)
CLOSE = 0.25  # a word for the material counts as right where it is as likely as that


def claims(reading: Reading, knowledge: Knowledge) -> Iterator[Warning]:
    """What it is called against what it looks like."""
    for check, chances in (
        ("claim.process", reading.families),
        ("claim.material", reading.housings),
    ):
        said = reading.piece.found(check)
        best = max(chances, key=lambda word: chances[word], default="")
        if said not in chances or said == best:
            continue
        if check == "claim.material" and chances[said] >= CLOSE:
            continue
        ratio = chances[best] / max(1e-15, chances[said])
        yield Warning(
            id="claim-doubted",
            says=f"called {_called(said, knowledge)}, looks like {_called(best, knowledge)}",
            towards=best,
            ratio=ratio,
            innocent=("a slip of terms is common and no deceit",),
        )


def _called(word: str, knowledge: Knowledge) -> str:
    """A process or a housing by its name."""
    row = knowledge.housings.get(word)
    return row.name if row is not None else family_name(word, knowledge)


def unused(reading: Reading, knowledge: Knowledge) -> Iterator[Warning]:
    """Answers to questions that are not asked of such a piece: they are kept and count nothing."""
    piece = reading.piece
    asks = tuple(
        [
            check.ask
            for name, finding in piece.findings.items()
            if (check := knowledge.checks.get(name)) is not None
            and piece.kind not in check.kinds
            and finding.answer
            and name != CONTENT
        ]
    )
    if asks and piece.kind not in UNJUDGED:
        answers = "an answer was" if len(asks) == 1 else f"{len(asks)} answers were"
        yield Warning(
            "not-used",
            f"{answers} not used: such a piece is not asked that",
            because=asks,
        )


def sizes(reading: Reading, knowledge: Knowledge) -> Iterator[Warning]:
    """Measures that fit something else, or image and case of two sizes."""
    formats = reading.formats
    if formats.maybe_measured:
        yield Warning(
            "measured-opening",
            "the measure fits a mat opening better than a plate: you may have measured the opening",
            "opening",
        )
    if formats.best and formats.case_format and formats.best != formats.case_format:
        names = knowledge.formats
        yield Warning(
            "size-disagrees",
            f"the image measures as {names[formats.best].name}, "
            f"the case as one for {names[formats.case_format].name}",
            "married",
            innocent=("a case of another country's size", "measured elsewhere than named"),
        )


def misfits(reading: Reading, knowledge: Knowledge) -> Iterator[Warning]:
    """Each measure of a cased piece that lies far from every size, or from the one it is named.

    What is better told otherwise (an opening taken for the plate, picture and case of two sizes)
    is left to those warnings. The measure is doubted and never put right.
    """
    piece, formats = reading.piece, reading.formats
    if piece.kind != "cased":
        return
    forms = [form for form in knowledge.formats.values() if piece.kind in form.kinds]
    named = [form for form in forms if form.id == piece.named_format]
    two_sizes = bool(formats.case_format) and formats.best != formats.case_format
    for what, measure in piece.measured.items():
        told = formats.maybe_measured if what == "plate" else two_sizes
        if (
            told
            or len(measure.sides) < 2
            or offset_of(knowledge, what, piece.found("case.material")) is None
            or not all(far(form, what, piece, knowledge) for form in named or forms)
        ):
            continue
        of = f"a {named[0].name}" if named else "any size of the trade"
        yield Warning(
            "size-fits-nothing",
            f"{what} {measure} does not fit {of}: measure again, or ask what was measured",
            "size",
            innocent=MISFIT_INNOCENT,
        )


def late_materials(reading: Reading, knowledge: Knowledge) -> Iterator[Warning]:
    """Parts of a later time than the piece, which may be innocent repairs."""
    for one in reading.evidence:
        answer = one.check.answers[one.answer]
        if answer.late:
            part = knowledge.parts[one.check.part].name
            yield Warning(
                "late-material", f"{part}: {answer.late}", one.id,
                because=(one.says,), innocent=one.check.innocent[:2],
            )  # fmt: skip


def opened(reading: Reading, knowledge: Knowledge) -> Iterator[Warning]:
    """The package was probably opened; that is common and condemns nothing."""
    prior = knowledge.weights.disturbed
    chance = reading.disturbed
    ratio = chance / max(1e-9, 1 - chance) * (1 - prior) / prior
    if (
        reading.piece.kind == "cased"
        and ratio >= knowledge.weights.raise_ratio
        and chance >= OPENED
    ):
        yield Warning(
            "opened", f"the package was probably opened ({percent(chance)})", "disturbed", ratio,
            innocent=OPENED_INNOCENT,
        )  # fmt: skip


def repairs(reading: Reading) -> Iterator[Warning]:
    """Repairs with materials that harm in time."""
    for fault in reading.condition.faults:
        if fault.defect.non_archival:
            never = fault.defect.never
            yield Warning(
                "repair-not-archival",
                f"{fault.defect.name}: not an archival repair. {never}",
                fault.check.id,
                strong=fault.step == 3,
                because=(fault.says,),
            )


def active(reading: Reading) -> Iterator[Warning]:
    """Damage that gets worse on its own."""
    for fault in reading.condition.faults:
        if fault.active and not fault.defect.non_archival:
            yield Warning(
                "active-decay",
                f"{fault.defect.name}: active, it will get worse. {fault.defect.do}",
                fault.check.id,
                strong=fault.step >= 2,
                because=(fault.says,),
            )
