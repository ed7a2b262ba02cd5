"""What the trade says to do and to leave, and the program itself: their commands."""

from appraise.commands.registry import Arg, alone

SHELLS = ("bash", "zsh", "fish", "powershell")

COMMANDS = (
    alone("demo", json=False),
    alone(
        "care",
        Arg("words", "a process, case or kind of piece", "WORD", "*"),
        Arg("--humidity", "your room's humidity", "PERCENT", kind=float),
        day=False,
    ),
    alone("never", Arg("words", "the test or treatment you have in mind", many="*"), day=False),
    alone("paths", day=False),
    alone("completion", Arg("shell", "which shell", choices=SHELLS), json=False, day=False),
)
