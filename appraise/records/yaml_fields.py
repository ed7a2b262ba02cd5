"""Fields of records in YAML files: each read and written by its kind, each mistake placed."""

from collections.abc import Iterable
from typing import Any

import yaml

from appraise.base.errors import placed
from appraise.base.yamls import Row
from appraise.records.fields import Field, Record
from appraise.records.quantities import CountKind
from appraise.records.values import Author, PageKind, SeveralKind

_Dumper: Any = getattr(yaml, "CSafeDumper", yaml.SafeDumper)


class _Pages(_Dumper):  # type: ignore[misc]
    """Writes text of several lines as it stands."""


def _text(dumper: Any, value: str) -> Any:
    style = "|" if "\n" in value else None
    return dumper.represent_scalar("tag:yaml.org,2002:str", value, style=style)


_Pages.add_representer(str, _text)


def yaml_text(document: Any) -> str:
    """A document as YAML, its keys in their order."""
    text: str = yaml.dump(document, Dumper=_Pages, sort_keys=False, allow_unicode=True, width=100)
    return text


def values_in(row: Row, fields: Iterable[Field], by: Author) -> dict[str, Any]:
    """What the attributes hold of the fields that a mapping tells; an empty one tells nothing.

    Raises:
        InputError: placed by file, line and key.
    """
    found: dict[str, Any] = {}
    for field in fields:
        if row.is_list(field.name):
            text = field.kind.write(row.words(field.name))
        else:
            text = row.text(field.name, "")
        if text and isinstance(field.kind, PageKind):
            found[field.attributes[0]] = text
        elif text:
            with placed(row.where(field.name)):
                found |= field.read(text, Record(), by, {})
    return found


def document_of(thing: Any, fields: Iterable[Field]) -> dict[str, Any]:
    """The fields of a record that say something, as `values_in` reads them."""
    return {each.name: _written(each, thing) for each in fields if each.told(thing)}


def _written(field: Field, thing: Any) -> Any:
    value = field.value(thing)
    if isinstance(field.kind, SeveralKind) and len(value) > 1:
        return [field.kind.of.write(one) for one in value]
    return value if isinstance(field.kind, PageKind | CountKind) else field.kind.write(value)
