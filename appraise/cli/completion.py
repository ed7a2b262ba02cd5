"""`appraise completion`: what lets a shell complete the commands, made from the parser itself."""

import argparse
import sys

from appraise.cli.context import Context
from appraise.cli.exits import Exit
from appraise.cli.options import Commands, command

INSTALL = {
    "bash": "mkdir -p ~/.local/share/bash-completion/completions && appraise completion bash "
    "> ~/.local/share/bash-completion/completions/appraise",
    "zsh": "mkdir -p ~/.zfunc && appraise completion zsh > ~/.zfunc/_appraise, and have "
    "'fpath+=(~/.zfunc); autoload -U compinit; compinit' in ~/.zshrc",
    "fish": "appraise completion fish > ~/.config/fish/completions/appraise.fish",
    "powershell": "appraise completion powershell >> $PROFILE",
}


def add(commands: Commands) -> None:
    """Add the command."""
    completion = command(commands, "completion", "set up tab completion for your shell")
    completion.add_argument("shell", choices=tuple(INSTALL), help="which shell")
    completion.set_defaults(run=run_completion)


def run_completion(args: argparse.Namespace, context: Context) -> Exit:
    """Print the script for a shell; how to install it goes to stderr."""
    from appraise.cli.grammar import places
    from appraise.cli.shells import SHELLS

    sys.stdout.write(SHELLS[args.shell](tuple(places(args.parser))))
    print(f"To install it: {INSTALL[args.shell]}\nThen open a new shell.", file=sys.stderr)
    return Exit.DONE
