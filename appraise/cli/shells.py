"""Completion scripts for four shells, made from what may stand where on the command line."""

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence

from appraise.cli.grammar import Option, Place

ANY, FILES = "-", "+"  # the value of an option: nobody can guess it; a file's name

_BASH = """\
# bash completion for appraise
_appraise() {{
    local cur=${{COMP_WORDS[COMP_CWORD]}} at="" words="" found="" i
    COMPREPLY=()
    for ((i = 1; i < COMP_CWORD; i++)); do
        case "$at ${{COMP_WORDS[i]}}" in
{deeper}
            {skip}) ((i + 1 == COMP_CWORD)) || ((i++)) ;;
        esac
    done
    case "$at ${{COMP_WORDS[COMP_CWORD-1]}}" in
{values}
    esac
    if [[ -z $found ]]; then
        case "$at" in
{words}
        esac
        [[ $cur == -* ]] && words=${{words#*|}} || words=${{words%|*}}
    fi
    [[ $found == - ]] && return
    if [[ $found == + || $words == *+* ]]; then
        compopt -o filenames 2>/dev/null
        while IFS= read -r i; do COMPREPLY+=("$i"); done < <(compgen -f -- "$cur")
    fi
    [[ $found == + ]] && return
    words=${{found:-${{words//+/}}}}
    while IFS= read -r i; do COMPREPLY+=("$i"); done < <(compgen -W "$words" -- "$cur")
}}
complete -F _appraise appraise
"""

_ZSH = """\
#compdef appraise
# zsh completion for appraise
_appraise() {{
    local at="" i files=0
    local -a found
    for ((i = 2; i < CURRENT; i++)); do
        case "$at $words[i]" in
{deeper}
            {skip}) ((i + 1 == CURRENT)) || ((i++)) ;;
        esac
    done
    case "$at $words[CURRENT-1]" in
{values}
    esac
    if [[ $words[CURRENT] == -* ]]; then
        case "$at" in
{options}
        esac
    else
        case "$at" in
{words}
        esac
    fi
    (($#found)) && _describe 'appraise' found
    ((files)) && _files
    return 0
}}
if [[ $funcstack[1] == _appraise ]]; then
    _appraise "$@"
else
    compdef _appraise appraise
fi
"""

_FISH = """\
# fish completion for appraise
function __appraise_at
    set -l at ""
    set -l skip 0
    for word in (commandline -opc)[2..-1]
        if test $skip = 1
            set skip 0
            continue
        end
        switch "$at $word"
            case {deeper}
                set at "$at $word"
            case {skip}
                set skip 1
        end
    end
    test "$at" = "$argv[1]"
end
complete -c appraise -f
{lines}
"""

_POWERSHELL = """\
# PowerShell completion for appraise
Register-ArgumentCompleter -Native -CommandName appraise -ScriptBlock {{
    param($word, $ast, $cursor)
    $words = @{{
{words}
    }}
    $values = @{{
{values}
    }}
    $skip = @({skip})
    $at = ''
    $last = ''
    foreach ($one in $ast.CommandElements | Select-Object -Skip 1) {{
        if ($one.Extent.EndOffset -ge $cursor -and $word) {{ break }}
        $text = $one.Extent.Text
        if ($skip -contains $last) {{ $last = ''; continue }}
        $last = "$at $text"
        if ($words.ContainsKey($last)) {{ $at = $last }}
    }}
    $found = if ($skip -contains $last) {{ $values[$last] }} else {{ $words[$at] }}
    $found | Where-Object {{ $_ -like "$word*" -and ($word -or $_ -notlike '-*') }} |
        ForEach-Object {{ [System.Management.Automation.CompletionResult]::new($_) }}
}}
"""


def bash(found: Sequence[Place]) -> str:
    """A script for bash 3.2 or later."""
    words = (
        f'            {_quoted(one.at)}) words="{_joined(n for n, _ in one.words)}'
        f'{" +" if one.files else ""}|{_joined(_flags(one))}" ;;'
        for one in found
    )
    values = (f'        {names}) found="{value}" ;;' for names, value in _values(found))
    return _BASH.format(
        deeper=_deeper(found, 'at="$at ${COMP_WORDS[i]}"'),
        skip=_skip(found),
        values="\n".join(values),
        words="\n".join(words),
    )


def zsh(found: Sequence[Place]) -> str:
    """A script for zsh, with what each word does."""
    values = []
    for names, value in _values(found):
        do = {ANY: "return 0", FILES: "_files; return 0"}.get(value, f"compadd {value}; return 0")
        values.append(f"        {names}) {do} ;;")
    options, words = [], []
    for one in found:
        flags = ((flag, option.says) for option in one.options for flag in option.flags)
        options.append(f"            {_quoted(one.at)}) found=({_described(flags)}) ;;")
        files = " files=1" if one.files else ""
        words.append(f"            {_quoted(one.at)}) found=({_described(one.words)}){files} ;;")
    return _ZSH.format(
        deeper=_deeper(found, 'at="$at $words[i]"'),
        skip=_skip(found),
        values="\n".join(values),
        options="\n".join(options),
        words="\n".join(words),
    )


def fish(found: Sequence[Place]) -> str:
    """A script for fish, with what each word does."""
    deeper = " ".join(_quoted(one.at) for one in found if one.at)
    lines = [line for one in found for line in _fish_lines(one)]
    skip = " ".join(_quoted(f"{at} {flag}") for at, _, flag in _taking(found))
    return _FISH.format(deeper=deeper, skip=skip, lines="\n".join(lines))


def _fish_lines(place: Place) -> Iterator[str]:
    here = f"complete -c appraise -n {_fished(f'__appraise_at {_fished(place.at)}')}"
    for name, says in place.words:
        yield f"{here} -a {_fished(name)} -d {_fished(says)}"
    if place.files:
        yield f"{here} -F"
    for option in place.options:
        flags = " ".join(f"-l {f[2:]}" if f[:2] == "--" else f"-s {f[1:]}" for f in option.flags)
        takes = (" -r -F" if option.files else " -x") if option.takes else ""
        value = f" -a {_fished(_joined(option.choices))}" if option.choices else ""
        yield f"{here} {flags}{takes}{value} -d {_fished(option.says)}"


def powershell(found: Sequence[Place]) -> str:
    """A script for PowerShell 5 or later; where it offers nothing, the shell offers files."""
    words = (
        f"        {_doubled(one.at)} = @({_listed([*(n for n, _ in one.words), *_flags(one)])})"
        for one in found
    )
    taking = [(f"{at} {flag}", option) for at, option, flag in _taking(found)]
    values = (
        f"        {_doubled(name)} = @({_listed(option.choices)})"
        for name, option in taking
        if option.choices
    )
    return _POWERSHELL.format(
        words="\n".join(words),
        values="\n".join(values),
        skip=_listed(name for name, _ in taking),
    )


SHELLS: Mapping[str, Callable[[Sequence[Place]], str]] = {
    "bash": bash,
    "zsh": zsh,
    "fish": fish,
    "powershell": powershell,
}


def _taking(found: Iterable[Place]) -> Iterator[tuple[str, Option, str]]:
    """Every option after which a value stands: where, the option, one of its flags."""
    for place in found:
        for option in place.options:
            yield from ((place.at, option, flag) for flag in option.flags if option.takes)


def _values(found: Iterable[Place]) -> Iterator[tuple[str, str]]:
    """Options with a value, as patterns of a shell, and what the value may be."""
    by_value: dict[str, list[str]] = {}
    for at, option, flag in _taking(found):
        value = _joined(option.choices) or (FILES if option.files else ANY)
        by_value.setdefault(value, []).append(_quoted(f"{at} {flag}"))
    yield from (("|".join(names), value) for value, names in by_value.items())


def _deeper(found: Iterable[Place], do: str) -> str:
    return f"            {'|'.join(_quoted(one.at) for one in found if one.at)}) {do} ;;"


def _skip(found: Iterable[Place]) -> str:
    return "|".join(_quoted(f"{at} {flag}") for at, _, flag in _taking(found))


def _flags(place: Place) -> list[str]:
    return [flag for option in place.options for flag in option.flags]


def _joined(words: Iterable[str]) -> str:
    return " ".join(words)


def _quoted(text: str) -> str:
    """A text as bash and zsh read it."""
    return "'" + text.replace("'", "'\\''") + "'"


def _described(words: Iterable[tuple[str, str]]) -> str:
    return " ".join(_quoted(name.replace(":", "\\:") + f":{says}") for name, says in words)


def _fished(text: str) -> str:
    """A text as fish reads it."""
    return "'" + text.replace("\\", "\\\\").replace("'", "\\'") + "'"


def _doubled(text: str) -> str:
    """A text as PowerShell reads it."""
    return "'" + text.replace("'", "''") + "'"


def _listed(words: Iterable[str]) -> str:
    return ", ".join(map(_doubled, words))
