"""The actions of every list of records and of every record's page."""

from appraise.app.action import Action, closing, of, undoing, walking

KEEPS = "Add this purchase to the pieces you own."
RETURNS = "Delete it; parts it used return to stock."


def listing(
    area: str, says: str = "Back to the desk; esc clears a filter first."
) -> tuple[Action, ...]:
    """What every list has: filter, moves, order, undo, the way back."""
    return (
        Action(area, "filter", "slash", "filter", "Filter the list.", place=1),
        Action(
            area, "open", "enter", "open", "Show everything recorded, with its history.", place=3
        ),
        *undoing(area, place=6),
        *walking(area, page="", ends=True),
        Action(area, "reverse", "S", "reverse", "Reverse the sort order."),
        Action(area, "close", "q escape", "desk", says, place=99),
    )


def sorting(area: str, key: str = "s") -> Action:
    """Another order."""
    return Action(area, "sort", key, "sort", "Sort by the next column.")


def paging(area: str) -> tuple[Action, ...]:
    """What every page of a record has."""
    return (*undoing(area, place=7), *walking(area, ends=True), closing(area))


def _piece(area: str) -> tuple[Action, ...]:
    """What is done to the piece one is at."""
    return (
        of("kept edit", area, "edit", "act('edit')", place=4),
        Action(
            area,
            "act('event')",
            "v",
            "event",
            "Record an event: moved, lent, returned, exhibited, repaired, given away, lost.",
            place=5,
        ),
        of("kept check", area, "condition", "act('check')", place=6 if area == "owned" else 0),
        Action(area, "act('examine')", "x", "examine", "Examine it again, question by question."),
        of("kept arrival", area, "arrival", "act('arrival')", place=5 if area == "owned" else 3),
        of("kept sell", area, "sell", "act('sell')"),
        of("report", area, "report", "act('report')"),
        of("kept remove", area, "remove", "act('remove')"),
    )


def _photos(area: str, add: str, unlink: str, place: int = 0) -> tuple[Action, ...]:
    """What is done to the photos of a record."""
    after = place + 1 if place else 0
    return (
        Action(area, "act('picture')", "o", "photo", "Open a photo in the viewer.", place=place),
        Action(
            area,
            "act('attach')",
            add,
            "add photo",
            "Add a photo by its path; dropping its file here works too.",
            place=after,
        ),
        Action(area, "act('detach')", unlink, "unlink photo", "Unlink a photo; its file stays."),
    )


def _bench(area: str, new: str) -> tuple[Action, ...]:
    """What the lists of the bench have in common."""
    return (
        Action(area, "act('new')", "n", "new", new, place=2),
        of("work edit", area, "edit", "act('edit')", place=4, says="Edit its fields."),
        of("work remove", area, "remove", "act('remove')", says=RETURNS),
        Action(area, "turn(1)", "tab right", "next list", "To the next list.", place=5),
        Action(area, "turn(-1)", "shift+tab left", "previous list", "To the previous list."),
        Action(
            area, "choose({key})", "1 2 3", "list by number", "To a list by its number.",
            shown="1-3", palette=False,
        ),
        sorting(area),
        *listing(area),
    )  # fmt: skip


def _every(area: str, says: str) -> Action:
    return Action(area, "every", "a", "all", says)


def _changed(area: str) -> tuple[Action, ...]:
    """Edit and remove on a page of the bench."""
    return (
        of("work edit", area, "edit", "act('edit')", place=1, says="Edit its fields."),
        of("work remove", area, "remove", "act('remove')", place=2, says="Delete it."),
        *paging(area),
    )


def _fits(area: str) -> Action:
    return Action(
        area, "act('fits')", "f", "what fits", "What fits this part or loose plate.", place=5
    )


PRICES: tuple[Action, ...] = (
    of("log add", "prices", "new price", "act('new')", place=2),
    Action("prices", "edit", "e", "edit", "Edit the entry in place, cell by cell.", place=4),
    Action("prices", "act('edit')", "E", "all fields", "Edit every field of the entry."),
    Action("prices", "chart", "g", "chart", "Show the prices of this filter over time.", place=5),
    Action("prices", "act('duplicate')", "d", "another", "Log another entry like this one."),
    of("log remove", "prices", "remove", "act('remove')"),
    Action("prices", "act('hold')", "h", "add to Kept", KEEPS),
    of("log conflicts", "prices", "disagreements", "act('disagree')"),
    of(
        "log import",
        "prices",
        "import",
        "act('import')",
        says="Import a spreadsheet or a YAML file; dropping it here works too.",
    ),
    Action("import", "change", "enter", "change", "Take the line for something else.", place=2),
    Action("import", "save", "s", "save", "Save the entries, as one change.", place=1),
    *walking("import", ends=True),
    closing("import", "cancel", "Cancel; nothing is saved."),
    sorting("prices"),
    *listing("prices"),
    of("log edit", "entry", "edit", "act('edit')", place=1),
    of("log remove", "entry", "remove", "act('remove')", place=2),
    of("log outcome", "entry", "outcome", "act('outcome')", place=3),
    Action("entry", "act('hold')", "h", "add to Kept", KEEPS),
    *_photos("entry", "a", "x", place=4),
    of("report", "entry", "report", "act('report')"),
    *paging("entry"),
)

KEPT: tuple[Action, ...] = (
    of("kept add", "kept", "add", "act('new')", place=2, says="Add a purchase from the log."),
    *_piece("kept"),
    Action("kept", "act('own')", "N", "add another", "Add a piece that is not in the log."),
    of("kept schedule", "kept", "due", "act('due')"),
    of("kept care", "kept", "air", "act('air')"),
    sorting("kept", "o"),
    *listing("kept"),
    *_piece("owned"),
    *_photos("owned", "p", "P"),
    *paging("owned"),
    Action("arrival", "copy", "y", "copy letter", "Copy the letter to the seller.", place=1),
    Action(
        "arrival", "examine", "x", "examine", "Examine it in hand, question by question.", place=2
    ),
    Action(
        "arrival",
        "returned",
        "b",
        "sent back",
        "Record that it was sent back to the seller.",
        place=3,
    ),
    Action("arrival", "edit", "e", "edit", "Edit its fields, the return deadline too.", place=4),
    *walking("arrival", ends=True),
    closing("arrival"),
)

LOTS: tuple[Action, ...] = (
    of("lots add", "lots", "mark lot", "act('new')", place=2),
    of("lots edit", "lots", "edit", "act('edit')", place=4),
    of(
        "budget",
        "lots",
        "budget",
        "act('budget')",
        place=5,
        says="Set a budget for a month or year.",
    ),
    Action("lots", "every", "a", "ended too", "Show or hide ended lots."),
    of("lots remove", "lots", "remove", "act('remove')"),
    sorting("lots"),
    *listing("lots"),
    of(
        "lots bid",
        "lot",
        "bid",
        "act('bid')",
        place=1,
        says="Record your bid; leave empty to withdraw it.",
    ),
    of("lots won", "lot", "won", "act('won')", place=2),
    of("lots lost", "lot", "lost", "act('lost')", place=3),
    of("lots pass", "lot", "not bid on", "act('passed')", place=4),
    of("lots edit", "lot", "edit", "act('edit')"),
    Action("lot", "act('piece')", "p", "piece", "Choose what to do with a piece, and its worth."),
    Action("lot", "act('add_piece')", "a", "add piece", "Add a piece to the lot, in one line."),
    of("lots remove", "lot", "remove", "act('remove')"),
    *paging("lot"),
)

LISTS: tuple[Action, ...] = (
    *PRICES,
    *KEPT,
    *LOTS,
    *_bench("stock", "Add a part in one line."),
    _fits("stock"),
    _every("stock", "Show or hide used up parts."),
    *_bench("work", "Add a job."),
    of("work done", "work", "done", "act('done')"),
    _every("work", "Show or hide finished jobs."),
    *_bench("wants", "Add a want in one line."),
    *_changed("part"),
    _fits("part"),
    *_changed("job"),
    of("work done", "job", "done", "act('done')", place=3),
    *_changed("want"),
    Action("venues", "act('new')", "n", "new venue", "Add a venue and its terms.", place=2),
    Action("venues", "act('edit')", "e", "edit terms", "Edit the venue's terms.", place=4),
    Action("venues", "act('remove')", "delete", "remove", "Forget the venue's terms."),
    sorting("venues"),
    *listing("venues"),
    Action("venue", "act('edit')", "e", "edit terms", "Edit the venue's terms.", place=1),
    Action("venue", "act('remove')", "delete", "remove", "Forget the venue's terms.", place=2),
    *paging("venue"),
)
