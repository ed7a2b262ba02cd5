"""The demo's photos: each is there, belongs to a purchase, and is marked as drawn by its folder."""

from appraise.base.places import Home, shipped_demo
from appraise.cli.demo import demo_entries, demo_photos, furnish
from appraise.store.pictures import digest_of, directory


def test_every_photo_belongs_to_one_purchase():
    shown = [one.name for entry in demo_entries() for one in entry.pictures]
    loose = {"two-images.jpg", "empty-case.jpg"}  # of pieces on the table, which are not bought
    assert sorted(shown) == sorted(demo_photos().keys() - loose)
    assert len(shown) >= 9
    assert all(entry.record == "bought" for entry in demo_entries() if entry.pictures)


def test_a_furnished_home_holds_the_files(tmp_path):
    home = Home(tmp_path / "home")
    furnish(home)
    kept = {path.stem: path for path in directory(home.log).iterdir()}
    for picture, _ in demo_photos().values():
        assert digest_of(kept[picture.sha256]) == picture.sha256


def test_the_folder_says_that_they_are_drawn():
    assert "drawn" in (shipped_demo() / "photos" / "photos.yaml").read_text(encoding="utf-8")
    assert "drawing" in (shipped_demo() / "README.md").read_text(encoding="utf-8")
