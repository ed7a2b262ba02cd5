"""YAML with places: every value knows its file, line and key, and nothing is typed for us.

Text is composed with libyaml's base loader where there is one, so `no`, `12:30` and `010` stay
text. Anchors, aliases, tags and twin keys are refused: a file means what it says.
"""

from collections.abc import Iterator
from pathlib import Path
from typing import Any

import yaml
from yaml.reader import Reader, ReaderError

from appraise.base.errors import InputError
from appraise.base.spelling import did_you_mean
from appraise.base.yamltext import BASE, LARGEST, read_text, refuse_tricks


class _Loader(BASE):  # type: ignore[misc]
    """The base loader without tags: nothing is typed here, and looking for tags takes a fifth."""

    def descend_resolver(self, *_: Any) -> None:
        """Nothing to look for."""

    def ascend_resolver(self) -> None:
        """Nothing to leave."""

    def resolve(self, *_: Any) -> str:
        """No tag."""
        return ""


class Row:
    """One mapping of a YAML file, read key by key; what was never asked for is an error.

    Args:
        node: The composed mapping.
        file: The file's name for messages.
        path: Dotted keys that lead here, for messages.
        line: The line of the key that leads here; 0 takes the mapping's own.
    """

    __slots__ = ("_asked", "_fields", "_lines", "_node", "file", "line", "path")

    def __init__(self, node: yaml.MappingNode, file: str, path: str = "", line: int = 0) -> None:
        self.file = file
        self.path = path
        self.line = line or node.start_mark.line + 1
        self._node = node
        self._asked: set[str] = set()
        self._fields: dict[str, yaml.Node] = {}
        self._lines: dict[str, int] = {}
        for key, value in node.value:
            if not isinstance(key, yaml.ScalarNode):
                raise InputError("a key must be plain text", f"{file}:{key.start_mark.line + 1}")
            if key.value in self._fields:
                raise InputError(
                    f"'{key.value}' is written twice",
                    f"{file}:{key.start_mark.line + 1}",
                    "Delete one of them.",
                )
            self._fields[key.value] = value
            self._lines[key.value] = key.start_mark.line + 1

    def __contains__(self, key: str) -> bool:
        self._asked.add(key)
        return key in self._fields

    def __iter__(self) -> Iterator[str]:
        return iter(self._fields)

    def twin(self) -> yaml.MappingNode:
        """A copy of the mapping as it was composed, which may be changed."""
        node = self._node
        return yaml.MappingNode(node.tag, _copied(node).value, node.start_mark, node.end_mark)

    def where(self, key: str = "") -> str:
        """File, line and dotted key of a field, or of the row itself."""
        line = self._lines.get(key, self.line)
        dotted = ".".join(part for part in (self.path, key) if part)
        return f"{self.file}:{line} {dotted}".rstrip()

    def error(self, key: str, what: str, mend: str = "") -> InputError:
        """An error placed at one of the row's fields."""
        return InputError(what, self.where(key), mend)

    def text(self, key: str, default: str | None = None) -> str:
        """The field as text; without a default a missing field is an error."""
        node = self._take(key)
        if node is None:
            if default is None:
                raise self.error("", f"'{key}' is missing")
            return default
        if not isinstance(node, yaml.ScalarNode):
            raise self.error(key, "a single value is needed here")
        return str(node.value)

    def number(
        self, key: str, default: float | None = None, low: float = 0.0, high: float = 1e9
    ) -> float:
        """The field as a number within [low, high]."""
        if default is not None and key not in self._fields:
            self._asked.add(key)
            return default
        return self._number(key, self.text(key), low, high)

    def numbers(self, key: str, low: float = 0.0, high: float = 1e9) -> tuple[float, ...]:
        """The field as numbers: a list, or plain text with spaces between."""
        return tuple(self._number(key, part, low, high) for part in self.words(key))

    def flag(self, key: str, default: bool = False) -> bool:
        """The field as yes or no (also true or false)."""
        if key not in self._fields:
            self._asked.add(key)
            return default
        value = self.text(key).lower()
        if value not in {"yes", "no", "true", "false"}:
            raise self.error(key, f"'{value}' is neither yes nor no")
        return value in {"yes", "true"}

    def words(self, key: str, default: tuple[str, ...] | None = None) -> tuple[str, ...]:
        """The field as a list of words: a YAML list, or plain text with spaces between."""
        return tuple(self.text(key).split()) if self.is_text(key) else self._list(key, default)

    def texts(self, key: str, default: tuple[str, ...] | None = None) -> tuple[str, ...]:
        """The field as a list of sentences; one sentence alone is a list of one."""
        return (self.text(key),) if self.is_text(key) else self._list(key, default)

    def _list(self, key: str, default: tuple[str, ...] | None) -> tuple[str, ...]:
        node = self._take(key)
        if node is not None:
            return self._texts(key, node)
        if default is None:
            raise self.error("", f"'{key}' is missing")
        return default

    def choice(self, key: str, known: tuple[str, ...], default: str | None = None) -> str:
        """The field as one of the known words."""
        value = self.text(key, default)
        if value not in known:
            raise self.error(key, f"'{value}' is not known here", did_you_mean(value, known))
        return value

    def row(self, key: str) -> "Row":
        """The field as a mapping."""
        node = self._take(key)
        if node is None:
            raise self.error("", f"'{key}' is missing")
        if not isinstance(node, yaml.MappingNode):
            raise self.error(key, "key: value pairs are needed here")
        path = f"{self.path}.{key}" if self.path else key
        return Row(node, self.file, path, self._lines[key])

    def rows(self, key: str) -> list["Row"]:
        """The field as a list of mappings."""
        node = self._take(key)
        if not isinstance(node, yaml.SequenceNode):
            raise self.error(key, "a list is needed here")
        path = f"{self.path}.{key}" if self.path else key
        found = []
        for item in node.value:
            if not isinstance(item, yaml.MappingNode):
                raise self.error(key, "each entry of the list needs keys and values")
            found.append(Row(item, self.file, path))
        return found

    def is_text(self, key: str) -> bool:
        """Whether the field is one plain value."""
        return isinstance(self._fields.get(key), yaml.ScalarNode)

    def is_row(self, key: str) -> bool:
        """Whether the field holds keys and values."""
        return isinstance(self._fields.get(key), yaml.MappingNode)

    def is_list(self, key: str) -> bool:
        """Whether the field is a list."""
        return isinstance(self._fields.get(key), yaml.SequenceNode)

    def done(self, known: tuple[str, ...] = ()) -> None:
        """Refuse a key that nobody asked for, naming the nearest valid one."""
        for key in self._fields:
            if key not in self._asked:
                names = {*self._asked, *known}
                raise self.error(key, f"'{key}' is not a known key", did_you_mean(key, names))

    def _take(self, key: str) -> yaml.Node | None:
        self._asked.add(key)
        return self._fields.get(key)

    def _texts(self, key: str, node: yaml.Node) -> tuple[str, ...]:
        if not isinstance(node, yaml.SequenceNode):
            raise self.error(key, "a list is needed here")
        for item in node.value:
            if not isinstance(item, yaml.ScalarNode):
                raise self.error(key, "each entry of the list must be plain text")
        return tuple(str(item.value) for item in node.value)

    def _number(self, key: str, text: str, low: float, high: float) -> float:
        try:
            value = float(text)
        except ValueError:
            raise self.error(key, f"'{text}' is not a number") from None
        if not low <= value <= high:
            raise self.error(key, f"{text} is outside {low:g} to {high:g}")
        return value


def _copied(node: Any) -> Any:
    """A node with copies of all that it holds; composed nodes are never nested deeply."""
    if isinstance(node, yaml.ScalarNode):
        return node
    held = [
        tuple(map(_copied, one)) if isinstance(one, tuple) else _copied(one) for one in node.value
    ]
    return type(node)(node.tag, held, node.start_mark, node.end_mark)


def compose(text: str, file: str) -> Row:
    """The top mapping of a YAML text.

    Args:
        text: The whole file.
        file: Its name for messages.

    Raises:
        InputError: when it is no YAML, no mapping, too large, or uses anchors, aliases or tags.
    """
    if len(text) > LARGEST:
        raise InputError("the file is too large to be one of ours", file)
    try:
        refuse_tricks(text, file)
        node = yaml.compose(text, Loader=_Loader)
    except yaml.MarkedYAMLError as error:
        mark = error.problem_mark or error.context_mark
        line = mark.line + 1 if mark else 0
        place, mend = f"{file}:{line}" if line else file, _mend(text, line)
        raise InputError(
            f"not readable as YAML: {error.problem or error.context}", place, mend
        ) from None
    except (ReaderError, UnicodeEncodeError):  # a lone surrogate cannot be encoded
        line = text.count("\n", 0, _unprintable(text)) + 1
        raise InputError(
            "holds a control character",
            f"{file}:{line}",
            "Remove it, or save the file as UTF-8 text.",
        ) from None
    except (yaml.YAMLError, RecursionError) as error:
        raise InputError(f"not readable as YAML: {error}", file) from None
    if node is None:
        raise InputError("the file is empty", file)
    if not isinstance(node, yaml.MappingNode):
        raise InputError("key: value pairs are needed at the top of the file", file)
    return Row(node, file)


def read(path: Path) -> Row:
    """The top mapping of a YAML file; unreadable files give one clear line."""
    return compose(read_text(path, str(path)), str(path))


def _mend(text: str, line: int) -> str:
    """What may help where YAML stops being readable."""
    written = text.split("\n")[max(0, line - 2) : line]
    if any("\t" in one for one in written):
        return "Write spaces in place of the tab."
    return "Check the indents, quotes and brackets there."


def _unprintable(text: str) -> int:
    """Where the first character stands that YAML refuses; 0 when there is none."""
    found = Reader.NON_PRINTABLE.search(text)
    return found.start() if found else 0
