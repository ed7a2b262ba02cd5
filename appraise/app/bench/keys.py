"""The actions of the Bench screen."""

from appraise.app.action import Action, closing, of, undoing, walking

BENCH: tuple[Action, ...] = (
    Action(
        "bench",
        "new",
        "n",
        "new",
        "Add a part, a repair or a want, depending on the list.",
        place=1,
    ),
    Action("bench", "open", "enter", "open", "Show everything recorded.", place=2),
    of("work edit", "bench", "edit", place=3, says="Edit its fields."),
    Action(
        "bench", "fits", "f", "what fits", "What fits the selected part or loose plate.", place=4
    ),
    of("work done", "bench", "done"),
    Action("bench", "every", "a", "all", "Show or hide used up parts and finished jobs."),
    of("work remove", "bench", "remove", says="Delete it; parts it used return to stock."),
    *undoing("bench"),
    Action("bench", "turn(1)", "tab right l", "next list", "To the next list.", place=5),
    Action("bench", "turn(-1)", "shift+tab left h", "previous list", "To the previous list."),
    Action(
        "bench",
        "choose({key})",
        "1 2 3",
        "list by number",
        "To a list by its number.",
        shown="1-3",
        palette=False,
    ),
    *walking("bench"),
    closing("bench"),
)
