"""Dataclasses that are quick to declare: each method is written when it is first needed.

To `fields`, `replace` and a type checker the `dataclass` of here is that of the standard library.
That one writes and compiles up to six methods for each class as it is declared, 0.4 ms; this one
none, 0.04 ms. A command declares up to 220 such classes and calls a few methods of some.
"""

import dataclasses
from collections.abc import Callable, Iterable
from dataclasses import MISSING, FrozenInstanceError, fields
from operator import attrgetter
from reprlib import recursive_repr
from typing import TYPE_CHECKING, Any, NoReturn

Method = Callable[..., Any]
LATE = ("__repr__", "__eq__")


def _dataclass(
    bare: type | None = None, /, *, frozen: bool = False, eq: bool = True, **options: bool
) -> Any:
    """The decorator, by the standard library's names; `options`: slots, kw_only."""
    late = (*LATE, "__hash__") if eq and frozen else LATE if eq else LATE[:1]

    def declare(bare: type) -> type:
        own = vars(bare)
        bare.__doc__ = bare.__doc__ or bare.__name__  # else a signature is worked out for it
        made: type = dataclasses.dataclass(bare, init=False, repr=False, eq=False, **options)
        if "__init__" not in own:
            _write_late(made, "__init__")
        for name in late:
            if own.get(name) is None:
                _write_late(made, name)
        if eq and not frozen and "__hash__" not in own:
            made.__hash__ = None  # type: ignore[assignment]
        for name, method in FROZEN.items() if frozen else ():
            if name not in own:
                setattr(made, name, method)
        return made

    return declare(bare) if bare else declare


if TYPE_CHECKING:
    from dataclasses import dataclass as dataclass
else:
    dataclass = _dataclass


def _write_late(owner: type, name: str) -> None:
    """Put in place of a method what writes it, once, and calls it."""

    def first(self: object, *args: Any, **named: Any) -> Any:
        method = WRITERS[name](owner)
        setattr(owner, name, method)
        return method(self, *args, **named)

    setattr(owner, name, first)


def _init(owner: type) -> Method:
    """Sets every field, and ends with `__post_init__` where there is one."""
    scope: dict[str, Any] = {"_set": object.__setattr__, "_unsaid": object()}
    given, named, lines = ["self"], ["*"], [" pass"]
    for one in fields(owner):
        value = head = one.name
        if one.default_factory is not MISSING:
            scope[f"_make_{one.name}"] = one.default_factory
            head, value = f"{head}=_unsaid", f"_make_{one.name}()"
            if one.init:
                value += f" if {one.name} is _unsaid else {one.name}"
        elif one.default is not MISSING:
            scope[f"_usual_{one.name}"] = one.default
            head, value = f"{head}=_usual_{one.name}", head if one.init else f"_usual_{head}"
        elif not one.init:
            continue
        lines.append(f" _set(self, '{one.name}', {value})")
        if one.init:
            (named if one.kw_only else given).append(head)
    if hasattr(owner, "__post_init__"):
        lines.append(" self.__post_init__()")
    heads = ", ".join(given + (named if named[1:] else []))
    exec(f"def __init__({heads}):\n" + "\n".join(lines), scope)
    made: Method = scope["__init__"]
    return made


def _values(names: Iterable[str]) -> Method:
    """What gives the values of some fields, as a tuple."""
    names = tuple(names)
    if len(names) > 1:
        return attrgetter(*names)
    return lambda self: tuple(getattr(self, name) for name in names)


def _eq(owner: type) -> Method:
    values = _values(one.name for one in fields(owner) if one.compare)

    def equal(self: object, other: object) -> Any:
        if other.__class__ is not self.__class__:
            return NotImplemented
        return values(self) == values(other)

    return equal


def _hash(owner: type) -> Method:
    kept = (one for one in fields(owner) if (one.compare if one.hash is None else one.hash))
    values = _values(one.name for one in kept)
    return lambda self: hash(values(self))


def _repr(owner: type) -> Method:
    names = [one.name for one in fields(owner) if one.repr]

    @recursive_repr()
    def told(self: object) -> str:
        held = ", ".join(f"{name}={getattr(self, name)!r}" for name in names)
        return f"{type(self).__qualname__}({held})"

    return told


WRITERS = {"__init__": _init, "__eq__": _eq, "__hash__": _hash, "__repr__": _repr}


def _refuse(self: object, name: str, *value: object) -> NoReturn:
    raise FrozenInstanceError(f"cannot change field '{name}'")


def _state(self: Any) -> list[Any]:
    return [getattr(self, one.name) for one in fields(self)]


def _set_state(self: Any, state: list[Any]) -> None:
    for one, value in zip(fields(self), state, strict=True):
        object.__setattr__(self, one.name, value)


FROZEN: dict[str, Method] = {
    "__setattr__": _refuse,
    "__delattr__": _refuse,
    "__getstate__": _state,  # what copies an object would set each attribute
    "__setstate__": _set_state,
}
