"""`appraise completion`: scripts that real shells read, made from the parser."""

import shutil
import subprocess

import pytest

from appraise.cli.grammar import places
from appraise.cli.main import parser, run
from appraise.cli.shells import SHELLS

PLACES = {one.at: one for one in places(parser())}

# What is typed, the last word unfinished, and what is offered.
CASES = [
    (("lo",), {"look", "log", "lots"}),
    (("log", "a"), {"add"}),
    (("log", "im"), {"import"}),
    (("report", "--for", "c"), {"conservator"}),
    (("report", "--fo"), {"--for", "--force"}),
    (("--home", "log", "verd"), {"verdict"}),
    (("checks", "--kind", "lan"), {"lantern-slide"}),
    (("completion", "f"), {"fish"}),
    (("report", "odd"), {"odd piece.yaml"}),
    (("report", "--out", "odd"), {"odd piece.yaml"}),
    (("report", "--as-of", ""), set()),
    (("log", "zzz"), set()),
]


@pytest.fixture
def script(tmp_path, capsys, monkeypatch):
    """Writes the script of a shell; beside it lies a piece file with a blank in its name."""
    (tmp_path / "odd piece.yaml").write_text("piece: 1\n", encoding="utf-8")
    monkeypatch.chdir(tmp_path)

    def write(shell):
        assert run(("completion", shell)) == 0
        out, told = capsys.readouterr()
        assert told.startswith("To install it: ")
        path = tmp_path / f"script.{shell}"
        path.write_text(out, encoding="utf-8")
        return path

    return write


def answers(*command):
    done = subprocess.run(command, capture_output=True, text=True, check=True)
    assert done.stderr == ""
    return {line.partition("\t")[0] for line in done.stdout.splitlines()}


def asked_of_bash(path, words):
    code = (
        'source "$1"; shift; COMP_WORDS=(appraise "$@"); COMP_CWORD=$#; _appraise; '
        'printf "%s\\n" "${COMPREPLY[@]}"'
    )
    return answers("bash", "--norc", "-c", code, "bash", str(path), *words) - {""}


def asked_of_zsh(path, words):
    """The script's function, with zsh's own ways to offer words put out of action."""
    code = (
        'compdef() { }; _describe() { print -l -- "${(@P)2}" }; compadd() { print -l -- "$@" }; '
        '_files() { print -l -- *(N) }; source "$1"; shift; words=(appraise "$@"); '
        "CURRENT=$(($# + 1)); _appraise"
    )
    found = answers("zsh", "-f", "-c", code, "zsh", str(path), *words)
    names = {one.partition(":")[0] for one in found}
    return {one for one in names if one.startswith(words[-1])} - {"script.zsh"}


def asked_of_fish(path, words):
    typed = " ".join(("appraise", *words))
    code = f"source {path}; complete -C '{typed}'"
    return {one.replace("\\ ", " ") for one in answers("fish", "--no-config", "-c", code)}


ASKED = {"bash": asked_of_bash, "zsh": asked_of_zsh, "fish": asked_of_fish}
INSTALLED = [shell for shell in ASKED if shutil.which(shell)]


@pytest.mark.parametrize(("words", "offered"), CASES)
@pytest.mark.parametrize("shell", INSTALLED)
def test_an_installed_shell_completes(script, shell, words, offered):
    assert ASKED[shell](script(shell), words) == offered


@pytest.mark.parametrize("shell", SHELLS)
def test_text_of_script_names_every_command_and_option_whether_or_not_the_shell_is_here(
    script, shell
):
    text = script(shell).read_text(encoding="utf-8")
    for place in PLACES.values():
        for name, _ in place.words:
            assert name in text
        for option in place.options:
            for flag in option.flags:
                assert flag.lstrip("-") in text
            for choice in option.choices:
                assert choice in text
    assert "{{" not in text


def test_the_places_are_those_of_the_parser():
    assert {"look", "log", "report"} <= {name for name, _ in PLACES[""].words}
    assert {"add", "list", "import"} <= {name for name, _ in PLACES[" log"].words}
    flags = {flag for one in PLACES[" report"].options for flag in one.flags}
    assert {"--for", "--as", "--out", "--force", "--json", "--as-of", "--help"} <= flags
    assert PLACES[" report"].files
    assert PLACES[" verdict"].files
    assert not PLACES[" year"].files
    (out,) = [one for one in PLACES[" report"].options if "--out" in one.flags]
    assert out.files
    assert out.takes


def test_a_shell_that_is_not_known_is_usage(capsys):
    assert run(("completion", "csh")) == 2
    assert capsys.readouterr().out == ""
