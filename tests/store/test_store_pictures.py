"""Pictures: kept by what they hold, listed, backed up and merged."""

import hashlib
import shutil

import pytest
from store.logkit import NOON, bought, opened

from appraise.base.errors import InputError, StoreError
from appraise.store.backup import back_up, restore
from appraise.store.merge import merge
from appraise.store.pictures import attach, copy_missing, detach, path_of
from appraise.store.revisions import iso

NOW = iso(NOON)
PLATE = b"\xff\xd8 a picture of a plate" * 5_000


@pytest.fixture
def file(tmp_path):
    file = tmp_path / "camera" / "Front View.JPG"
    file.parent.mkdir()
    file.write_bytes(PLATE)
    return file


@pytest.fixture
def path(tmp_path):
    return tmp_path / "home" / "log.sqlite"


@pytest.fixture
def log(path):
    with opened(path) as log:
        yield log


def test_a_picture_is_kept_by_what_it_holds(log, path, file):
    kept = log.add(bought())
    entry = attach(log, kept.id[:8], file)
    (picture,) = entry.pictures
    # FIPS 180-4's SHA-256, as the standard library computes it
    assert picture.sha256 == hashlib.sha256(PLATE).hexdigest()
    assert picture.name == "Front View.JPG"
    stored = path_of(path, picture)
    assert stored == path.parent / "pictures" / f"{picture.sha256}.jpg"
    assert stored.read_bytes() == PLATE
    assert log.entry(kept.id) == entry
    assert log.entries("pictures:yes") == (entry,)
    assert log.summary("-pictures:yes").count == 0
    assert [each.name for each in stored.parent.iterdir()] == [stored.name]


def test_attaching_twice_changes_nothing(log, path, file):
    kept = log.add(bought())
    attach(log, kept.id, file)
    attach(log, kept.id, file)
    assert len(log.history(kept.id)) == 2
    other = log.add(bought())
    attach(log, other.id, file)
    assert len(list((path.parent / "pictures").iterdir())) == 1


def test_attaching_is_undone_and_done_again(log, path, file):
    kept = log.add(bought())
    entry = attach(log, kept.id, file)
    log.undo()
    assert log.entry(kept.id).pictures == ()
    log.redo()
    assert log.entry(kept.id) == entry
    assert path_of(path, entry.pictures[0]).read_bytes() == PLATE


def test_detaching_leaves_the_file_to_the_history(log, path, file):
    kept = log.add(bought())
    (picture,) = attach(log, kept.id, file).pictures
    with pytest.raises(InputError, match="'zz' is not one of its photos"):
        detach(log, kept.id, "zz")
    assert detach(log, kept.id, picture.sha256[:6]).pictures == ()
    assert path_of(path, picture).exists()


def test_what_is_no_picture_is_refused(log, file):
    kept = log.add(bought())
    empty = file.with_name("empty.jpg")
    empty.touch()
    for path, message in (
        (empty, "is not a photo of 1 byte to 100 MB"),
        (file.parent, "is not a photo of 1 byte to 100 MB"),
        (file.with_name("none.jpg"), "cannot be read: No such file or directory"),
    ):
        with pytest.raises(InputError) as caught:
            attach(log, kept.id, path)
        assert str(caught.value) == f"{path}: {message}"
    assert log.entry(kept.id) == kept


def test_a_damaged_copy_is_replaced_by_a_whole_one(log, path, file):
    kept = log.add(bought())
    (picture,) = attach(log, kept.id, file).pictures
    path_of(path, picture).write_bytes(b"damaged")
    other = log.add(bought())
    attach(log, other.id, file)
    assert path_of(path, picture).read_bytes() == PLATE


def test_names_and_suffixes_cannot_lead_elsewhere(log, path, file):
    kept = log.add(bought())
    for name in ("..hidden", "a.tar.gz~", "x.j%2fg", "no suffix", "long.suffixes"):
        odd = file.with_name(name)
        odd.write_bytes(name.encode())
        picture = attach(log, kept.id, odd).pictures[-1]
        assert path_of(path, picture) == path.parent / "pictures" / picture.sha256


def test_a_backup_and_its_return_bring_the_pictures(log, path, file):
    kept = log.add(bought())
    entry = attach(log, kept.id, file)
    made = back_up(path, NOW)
    log.close()
    shutil.rmtree(path.parent / "pictures")
    path.unlink()
    restore(path, made.path, NOW)
    with opened(path) as again:
        assert again.entry(kept.id) == entry
    assert path_of(path, entry.pictures[0]).read_bytes() == PLATE


def test_a_merge_brings_the_pictures(log, path, file, tmp_path):
    laptop = tmp_path / "laptop" / "log.sqlite"
    with opened(laptop, "laptop") as other:
        kept = other.add(bought())
        entry = attach(other, kept.id, file)
    assert merge(log, laptop).pictures == 1
    assert merge(log, laptop).pictures == 0
    assert log.entry(kept.id) == entry
    assert path_of(path, entry.pictures[0]).read_bytes() == PLATE


def test_only_true_pictures_are_copied(path, tmp_path):
    have = tmp_path / "other" / "pictures"
    have.mkdir(parents=True)
    true = hashlib.sha256(PLATE).hexdigest()
    (have / f"{true}.jpg").write_bytes(PLATE)
    (have / f"{'0' * 64}.jpg").write_bytes(b"something else")
    (have / "holiday.jpg").write_bytes(PLATE)
    assert copy_missing(have.parent, tmp_path / "home") == 1
    assert [each.name for each in (tmp_path / "home" / "pictures").iterdir()] == [f"{true}.jpg"]
    assert copy_missing(tmp_path / "nowhere", tmp_path / "home") == 0


def test_a_picture_that_cannot_be_kept_is_one_line(log, path, file):
    kept = log.add(bought())
    (path.parent / "pictures").write_text("in the way")
    with pytest.raises(StoreError) as caught:
        attach(log, kept.id, file)
    assert "\n" not in str(caught.value)
    assert log.entry(kept.id).pictures == ()
