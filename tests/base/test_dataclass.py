"""Our dataclasses against those of the standard library, which are the reference."""

import copy
import dataclasses
import inspect
import pickle
import threading
from dataclasses import FrozenInstanceError, dataclass, field, fields, replace
from typing import ClassVar

import pytest
from every import every

from appraise.base.dataclass import dataclass as ours

LOOSE = ({}, {"eq": False}, {"slots": True}, {"slots": True, "eq": False})
FROZEN = tuple({"frozen": True, **one} for one in LOOSE)


def declared(by, options):
    """Classes of one shape: defaults, factories, fields left out of methods, and heirs."""

    class Point:
        """A point."""

        ORIGIN: ClassVar[int] = 0
        x: int
        y: float = 2.5
        tags: list = field(default_factory=list, hash=False)
        note: str = field(default="", compare=False, repr=False)
        twice: int = field(init=False, default=7)
        made: dict = field(init=False, default_factory=dict, compare=False)
        late: int = field(init=False, repr=False, compare=False)

        def __post_init__(self):
            if self.x < 0:
                raise ValueError("below 0")
            object.__setattr__(self, "late", self.x * 2)

    Point.__qualname__ = "Point"
    point = by(**options)(Point)
    parts = {"__annotations__": {"z": int, "w": int}, "w": 1}
    heir = by(**options, kw_only=True)(type("Heir", (point,), parts))
    return point, heir


CALLS = (
    ((1,), {}),
    ((1, 2.0), {"note": "a"}),
    ((1,), {"tags": [1, 2]}),
    ((), {"x": 3, "y": 1.0}),
    ((), {}),
    ((-1,), {}),
    ((1, 2, [], "", 5), {}),
    ((1,), {"nothing": 1}),
)


def told(make, *args, **named):
    try:
        return repr(make(*args, **named))
    except (TypeError, ValueError) as error:
        return type(error)


@every("options", LOOSE + FROZEN, ids=str)
def test_made_compared_and_told_as_the_standard_library_does(options):
    theirs, own = declared(dataclass, options), declared(ours, options)
    for args, named in CALLS:
        fresh = declared(ours, options)
        for _ in range(2):  # as it is written, and then
            assert told(fresh[0], *args, **named) == told(theirs[0], *args, **named)
            for more in ({"z": 4}, {"z": 4, "w": 5}, {}):
                assert told(fresh[1], *args, **named, **more) == told(
                    theirs[1], *args, **named, **more
                )
    for pair in (theirs, own):
        one, same, other = pair[0](1), pair[0](1, note="x"), pair[0](2)
        assert (one == same) is options.get("eq", True)
        assert one != other and one != 1 and pair[1](1, z=1) != one  # noqa: PT018
        assert one.tags is not same.tags
        assert replace(one, x=5).late == 10
        assert replace(pair[1](1, z=3), w=2).w == 2
    for before, after in zip(theirs, own, strict=True):
        shown = [(f.name, f.default, f.compare, f.init, f.kw_only) for f in fields(before)]
        assert shown == [(f.name, f.default, f.compare, f.init, f.kw_only) for f in fields(after)]
        assert before.__match_args__ == after.__match_args__
        assert hasattr(after(1, **_more(after)), "__dict__") == hasattr(
            before(1, **_more(before)), "__dict__"
        )


def _more(of):
    return {"z": 1} if of.__name__ == "Heir" else {}


@every("options", FROZEN, ids=str)
def test_what_is_frozen_cannot_be_changed(options):
    for cls in declared(ours, options):
        one = cls(1, **_more(cls))
        with pytest.raises(FrozenInstanceError):
            one.x = 2
        with pytest.raises(FrozenInstanceError):
            del one.x
        assert one.x == 1
        twins = [copy.copy(one), copy.deepcopy(one)]
        assert [dataclasses.astuple(twin) for twin in twins] == [dataclasses.astuple(one)] * 2


@every("options", LOOSE + FROZEN, ids=str)
def test_hashed_as_the_standard_library_does(options):
    theirs, own = declared(dataclass, options)[0], declared(ours, options)[0]
    assert (own.__hash__ is None) == (theirs.__hash__ is None)
    if own.__hash__ and options.get("eq", True):
        assert hash(own(1)) == hash(theirs(1)) == hash(own(1, tags=[1], note="a"))
        assert hash(own(1)) != hash(own(2))


@ours(frozen=True, slots=True)
class Kept:
    """Has methods of its own, which stay."""

    a: int
    b: tuple = ()

    def __eq__(self, other):
        return self.a == other.a

    def __repr__(self):
        return "own"


@ours(frozen=True, slots=True)
class One:
    only: float


@ours(frozen=True)
class Nothing:
    pass


def test_own_methods_stay_and_are_pickled():
    assert Kept(1, (2,)) == Kept(1)
    assert repr(Kept(1)) == "own"
    assert hash(Kept(1)) == hash((1, ()))
    assert pickle.loads(pickle.dumps(Kept(3, (4,)))).b == (4,)


def test_one_field_and_none_compare_as_tuples_do():
    odd = float("nan")
    assert One(odd) == One(odd)
    assert hash(One(1.0)) == hash((1.0,))
    assert Nothing() == Nothing()
    assert repr(Nothing()) == "Nothing()"
    assert One.__doc__ == "One"


def test_a_plain_heir_with_a_way_of_its_own_to_be_made():
    class Own(One):
        def __init__(self):
            super().__init__(2.0)

    class Further(One):
        pass

    assert Own().only == 2.0
    assert Further(3.0).only == 3.0
    assert One(4.0).only == 4.0


def test_a_method_is_written_once_and_by_several_threads_alike():
    @ours(frozen=True, slots=True)
    class Shared:
        a: int

    first, results, start = Shared.__init__, [], threading.Barrier(8)

    def work(number):
        start.wait()
        results.append(Shared(number).a)

    threads = [threading.Thread(target=work, args=(number,)) for number in range(8)]
    for one in threads:
        one.start()
    for one in threads:
        one.join()
    assert sorted(results) == list(range(8))
    assert Shared.__init__ is not first
    assert Shared(a=3).a == 3
    held = Shared.__new__(Shared)
    first(held, 9)  # what was taken before it was written still works
    assert held.a == 9
    assert list(inspect.signature(Shared).parameters) == ["a"]
