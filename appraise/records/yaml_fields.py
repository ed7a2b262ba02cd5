"""Fields of records in YAML files: each read and written by its kind, each mistake placed."""

from collections.abc import Iterable
from typing import Any

from appraise.base.errors import InputError
from appraise.base.yamls import Row
from appraise.records.fields import Field, Record
from appraise.records.quantities import Count
from appraise.records.values import Author, Page, Several


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
        if text and isinstance(field.kind, Page):
            found[field.attributes[0]] = text
        elif text:
            try:
                found |= field.read(text, Record(), by, {})
            except InputError as error:
                raise row.error(field.name, error.what, error.mend) from None
    return found


def document_of(thing: Any, fields: Iterable[Field]) -> dict[str, Any]:
    """The fields of a record that say something, as `values_in` reads them."""
    return {each.name: _written(each, thing) for each in fields if each.told(thing)}


def _written(field: Field, thing: Any) -> Any:
    value = field.value(thing)
    if isinstance(field.kind, Several) and len(value) > 1:
        return [field.kind.of.write(one) for one in value]
    return value if isinstance(field.kind, Page | Count) else field.kind.write(value)
