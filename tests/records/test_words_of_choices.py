"""A choice is read by all the words a thing goes by; what is near in meaning is offered first."""

import datetime as dt

import pytest
from every import every

from appraise.base.errors import InputError
from appraise.knowledge import load
from appraise.records.trade import FORMAT, HOUSING, PROCESS, SPARE
from appraise.records.values import Author


@pytest.fixture(scope="module")
def by():
    return Author("USD", dt.date(2026, 11, 7), load())


@every(
    ("kind", "text", "word"),
    [(FORMAT, "sixth plate", "sixth"), (FORMAT, "1/6 plate", "sixth"),
     (FORMAT, "cdv", "carte-de-visite"),
     (FORMAT, "half plate", "half"), (HOUSING, "union case", "thermoplastic"),
     (HOUSING, "thermoplastic case", "thermoplastic"), (HOUSING, "leather", "leather-wood"),
     (HOUSING, "hard rubber case", "thermoplastic"), (PROCESS, "ruby ambrotype", "ambrotype-ruby"),
     (PROCESS, "dag", "daguerreotype"), (PROCESS, "tin type", "tintype"),
     (PROCESS, "Cyanotype", "cyanotype"),
     (SPARE, "loose plate", "plate"), (SPARE, "cover glass", "glass"),
     (SPARE, "half case", "half-case")],
)  # fmt: skip
def test_a_thing_is_known_by_what_it_is_called(by, kind, text, word):
    assert kind.read(text, by) == word


def test_every_name_of_every_choice_is_read(by):
    for kind, topic in ((FORMAT, "formats"), (HOUSING, "housings"), (PROCESS, "processes")):
        for id, one in getattr(by.knowledge, topic).items():
            assert kind.read(one.name, by) in (id, one.name), one.name


@every(
    ("kind", "text", "offered"),
    [(FORMAT, "large plate", "paris-large"), (HOUSING, "wood", "leather-wood"),
     (SPARE, "an old mat", "mat"),
     (FORMAT, "sixht", "sixth")],
)  # fmt: skip
def test_what_is_not_known_is_answered_by_what_is_near(by, kind, text, offered):
    with pytest.raises(InputError) as raised:
        kind.read(text, by)
    assert f"'{offered}'" in raised.value.mend
