"""What the trade says to do and to leave, and the program itself: their commands."""

from appraise.commands.registry import Arg, Command

SHELLS = ("bash", "zsh", "fish", "powershell")

COMMANDS = (
    Command("demo", "open the invented demo; without a terminal, print it as text", (), json=False),
    Command(
        "care",
        "care: storage figures and advice",
        (
            Arg("words", "a process, case or kind of piece", "WORD", "*"),
            Arg("--humidity", "your room's humidity", "PERCENT", kind=float),
        ),
        day=False,
    ),
    Command(
        "never",
        "tests and treatments never to try, and why",
        (Arg("words", "the test or treatment you have in mind", many="*"),),
        day=False,
    ),
    Command("paths", "show where the log, settings and knowledge are", (), day=False),
    Command(
        "completion",
        "set up tab completion for your shell",
        (Arg("shell", "which shell", choices=SHELLS),),
        json=False,
        day=False,
    ),
)
