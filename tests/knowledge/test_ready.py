"""Knowledge kept as it was read: the same as read anew, and never that of other files."""

import dataclasses
import json
import os
import shutil
import subprocess
import sys
from pathlib import Path

import pytest
from shipped import LOAD, READY

from appraise import knowledge as room
from appraise.base.places import shipped_data
from appraise.knowledge import ready as kept_room

ROOT = Path(__file__).parent.parent.parent
OWN = """
cautions:
  damp-cellar: {text: Dry it slowly., when: {glass.weep: ["1"]}, basis: practice}
  wrong: {text: It names nothing., basis: nothing}
"""


class Place:
    """A home with own rows, knowledge that ships, and how often it was read anew."""

    def __init__(self, root, monkeypatch):
        self.kept = root / "home" / "knowledge.msgpack"
        self.own = root / "home" / "knowledge"
        self.shipped = root / "data"
        self.code = root / "code"
        self.read = 0
        self.own.mkdir(parents=True)
        (self.own / "mine.yaml").write_text(OWN, encoding="utf-8")
        shutil.copytree(shipped_data(), self.shipped)
        self.code.mkdir()
        (self.code / "rows.py").write_text("ONE = 1\n", encoding="utf-8")
        monkeypatch.setattr(kept_room, "shipped_data", lambda: self.shipped)
        monkeypatch.setattr(kept_room, "CODE", (self.code,))
        monkeypatch.setattr(room, "load", self.load, raising=False)

    def load(self, *, overlay):
        self.read += 1
        return LOAD(self.shipped, overlay)

    def ready(self):
        return READY(self.kept, self.own)


@pytest.fixture
def place(tmp_path, monkeypatch):
    return Place(tmp_path, monkeypatch)


def same(one, other):
    """Whether two are equal field by field, rows in the same order."""
    for name in (field.name for field in dataclasses.fields(one)):
        mine, its = getattr(one, name), getattr(other, name)
        assert mine == its, name
        if isinstance(mine, dict):
            assert list(mine) == list(its), name
            assert {type(row) for row in mine.values()} == {type(row) for row in its.values()}
    return True


def test_it_is_the_same_as_read_anew(place):
    first, second = place.ready(), place.ready()
    assert place.read == 1
    assert same(first, second)
    assert "damp-cellar" in second.cautions
    assert [one.where for one in second.own] == ["knowledge/mine.yaml:3 cautions.damp-cellar"]
    assert any("wrong" in str(one) for one in second.problems)


CHANGES = {
    "a row of one's own": lambda place: (place.own / "mine.yaml").write_text(
        OWN.replace("slowly", "quickly"), encoding="utf-8"
    ),
    "a name": lambda place: (place.own / "mine.yaml").rename(place.own / "yours.yaml"),
    "one more": lambda place: (place.own / "more.yaml").write_text("about: none\n"),
    "one less": lambda place: (place.own / "mine.yaml").unlink(),
    "the directory": lambda place: shutil.rmtree(place.own),
    "what ships": lambda place: (place.shipped / "extra.yaml").write_text("about: none\n"),
    "the program": lambda place: (place.code / "rows.py").write_text("ONE = 2\n"),
}


@pytest.mark.parametrize("change", CHANGES.values(), ids=CHANGES)
def test_whatever_changes_it_is_read_anew_once(place, change):
    place.ready()
    change(place)
    anew = place.ready()
    assert place.read == 2
    assert same(anew, place.load(overlay=place.own))
    assert same(anew, place.ready())
    assert place.read == 3


HARMS = {
    "empty": lambda path: path.write_bytes(b""),
    "cut short": lambda path: os.truncate(path, path.stat().st_size - 1),
    "a bit": lambda path: path.write_bytes(flipped(path.read_bytes())),
    "something else": lambda path: path.write_bytes(b"no knowledge" * 20),
    "missing": lambda path: path.unlink(),
}


def flipped(data):
    return data[:-500] + bytes([data[-500] ^ 1]) + data[-499:]


@pytest.mark.parametrize("harm", HARMS.values(), ids=HARMS)
def test_what_is_damaged_is_read_anew_and_written_again(place, harm):
    first = place.ready()
    harm(place.kept)
    assert same(first, place.ready())
    assert place.read == 2
    assert same(first, place.ready())
    assert place.read == 2


def test_what_cannot_be_kept_is_done_without(place):
    place.kept.mkdir()
    (place.kept / "something").touch()
    assert same(place.ready(), place.ready())
    assert place.read == 2
    assert [one.name for one in place.kept.iterdir()] == ["something"]


def test_what_cannot_be_read_is_left_to_the_loader(place):
    (place.own / "folder.yaml").mkdir()
    place.ready()
    assert any("is not a file" in str(one) for one in place.ready().problems)
    assert not place.kept.exists()
    shutil.rmtree(place.own)
    place.own.write_text("no directory", encoding="utf-8")
    place.ready()
    assert any("is not a directory" in str(one) for one in place.ready().problems)
    assert not place.kept.exists()
    assert place.read == 4


def test_no_home_is_made_for_it(place):
    shutil.rmtree(place.kept.parent)
    assert place.ready().checks
    assert not place.kept.parent.exists()


def test_a_command_says_the_same_the_second_time_and_reads_no_yaml(tmp_path):
    code = "import sys; from appraise.cli.main import run; run(sys.argv[1:])"
    code += "; print('yaml' in sys.modules, file=sys.stderr)"
    words = ["--home", str(tmp_path), "checks", "--kind", "cased", "--json"]
    first, second = (
        subprocess.run(
            [sys.executable, "-c", code, *words],
            capture_output=True, text=True, cwd=ROOT, check=True,
        )
        for _ in range(2)
    )  # fmt: skip
    assert len(json.loads(first.stdout)["checks"]) > 50
    assert second.stdout == first.stdout
    assert (first.stderr, second.stderr) == ("True\n", "False\n")
