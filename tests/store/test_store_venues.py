"""Venues and rates: terms as text, the book, and one all-in footing for every price."""

from datetime import date
from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st
from store.logkit import bought, opened, terms, usd

from appraise.base.errors import InputError
from appraise.base.money import Money
from appraise.knowledge import load
from appraise.pricing.cost_basis import all_in_price, bill_of, unbilled
from appraise.pricing.outcomes import estimated
from appraise.pricing.price_rows import priced_rows, stage_of
from appraise.records.fields import filled
from appraise.records.rate import Rate
from appraise.records.terms import PLAIN_LADDER, Band, Rung, TaxForm
from appraise.records.venue import Venue
from appraise.records.venuebook import SalePlace, VenueBook
from appraise.store.merge import conflicts, merge, settle
from appraise.store.migrations import settings_as_records
from appraise.store.revisions import Change, record_id
from appraise.store.salvage import salvage
from appraise.store.venue_book import drop_venue, keep_book, keep_venue, read_book

D = Decimal
ROOMS = terms(
    Venue("Quay rooms", "USD"),
    {
        "channel": "auction",
        "usual": "yes",
        "premium": "25 to 1000, 20 to 5000, 12",
        "tax": "20 on premium",
        "carriage": "12.50",
        "travel": "8",
        "checked": "2026-11-01",
    },
)
HAFEN = terms(Venue("Hafen", "EUR"), {"premium": "24", "tax": "19 on all", "exchange-fee": "3"})
MAY = date(2024, 5, 30)
EURO = Rate("EUR", "USD", D("1.10"), MAY, "the bank")
BOOK = VenueBook(rates=(EURO,)).with_venue(ROOMS).with_venue(HAFEN)


@pytest.fixture(scope="module")
def knowledge():
    return load()


def hammered(price: str = "100.00", **more):
    return bought(paid=None, hammer=usd(price), channel="auction", record="hammer", **more)


class TestText:
    def test_what_is_written_is_what_is_charged(self):
        assert ROOMS.bands == (
            Band(D(1000), D("0.25")), Band(D(5000), D("0.20")), Band(None, D("0.12")),
        )  # fmt: skip
        assert (ROOMS.tax_form, ROOMS.tax) == (TaxForm.PREMIUM, D("0.20"))
        assert ROOMS.ladder == PLAIN_LADDER
        assert ROOMS.checked == date(2026, 11, 1)

    def test_a_ladder_of_ones_own_and_none(self):
        own = terms(ROOMS, {"ladder": "1 to 50, 5 to 100, 10"})
        assert own.ladder == (
            Rung(D(50), D(1)), Rung(D(100), D(5)), Rung(None, D(10)),
        )  # fmt: skip
        assert terms(ROOMS, {"ladder": "none"}).ladder == ()

    def test_empty_takes_a_charge_away(self):
        bare = terms(ROOMS, dict.fromkeys(("premium", "tax", "carriage", "usual", "travel"), ""))
        assert filled(bare) == {
            "currency": "USD", "channel": "auction", "ladder": "plain", "checked": "2026-11-01",
        }  # fmt: skip

    @given(
        st.lists(st.integers(1, 99), max_size=4, unique=True),
        st.decimals("0", "60", places=2),
        st.sampled_from(("", "8.25 on all", "20 on premium", "5 on hammer and premium")),
    )
    def test_written_and_read_again_it_is_the_same(self, edges, rate, tax):
        steps = [f"{rate} to {edge}" for edge in sorted(edges)] + [str(rate)]
        house = terms(ROOMS, {"premium": ", ".join(steps), "tax": tax, "note": "page 3"})
        assert terms(Venue("Quay rooms", "USD"), filled(house)) == house

    @pytest.mark.parametrize(
        ("field", "text", "told"),
        [
            ("premuim", "25", "Did you mean 'premium'?"),
            ("premium", "a lot", "'a lot' is not a number"),
            ("premium", "25 to 1000, 20 to 500", "does not end above"),
            ("tax", "20", "does not say what is taxed"),
            ("tax", "20 on weight", "Write '20 on all'"),
            ("usual", "perhaps", "neither yes nor no"),
            ("checked", "lately", "is not a day"),
            ("channel", "auktion", "Did you mean 'auction'?"),
            ("currency", "EURQ", "is not known"),
            ("carriage", "-3", "not a number of 0 or more"),
        ],
    )
    def test_mistakes_are_one_line_with_the_mend(self, field, text, told):
        with pytest.raises(InputError) as error:
            terms(ROOMS, {field: text})
        assert told in str(error.value)

    def test_usual_needs_a_channel(self):
        with pytest.raises(InputError, match="without a channel"):
            terms(Venue("stall", "USD"), {"usual": "yes"})


class TestBook:
    def test_names_are_found_whatever_their_case(self):
        assert BOOK.named("  QUAY rooms") == ROOMS
        with pytest.raises(InputError, match="Did you mean 'Quay rooms'"):
            BOOK.named("Quay room")

    def test_the_usual_house_stands_in_where_none_is_named(self):
        assert BOOK.for_sale("", "auction") == ROOMS
        assert BOOK.for_sale("somewhere else", "auction") == ROOMS
        assert BOOK.for_sale("hafen", "auction") == HAFEN
        assert BOOK.for_sale("", "market") is None

    def test_one_house_of_a_channel_is_usual(self):
        other = Venue("Mill rooms", "USD", channel="auction", usual=True)
        book = BOOK.with_venue(other)
        assert [one.name for one in book.venues if one.usual] == ["Mill rooms"]

    def test_the_rate_of_the_nearest_day_counts_and_of_two_the_earlier(self):
        book = VenueBook()
        for day, rate in ((1, "1.1"), (5, "1.2")):
            book = VenueBook(rates=(*book.rates, Rate("EUR", "USD", D(rate), date(2026, 5, day))))
        told = {day: book.rate("EUR", "USD", date(2026, 5, day)) for day in (1, 3, 4, 30)}
        assert [one.rate for one in told.values()] == [D("1.1"), D("1.1"), D("1.2"), D("1.2")]
        assert book.rate("EUR", "GBP", MAY) is None

    @pytest.mark.parametrize(
        ("code", "base", "rate"),
        [("EUR", "EUR", "1"), ("EUR", "USD", "0"), ("EUR", "USD", "NaN"), ("EUX", "USD", "1")],
    )
    def test_rates_of_nonsense_are_refused(self, code, base, rate):
        with pytest.raises(InputError):
            Rate(code, base, D(rate), MAY)

    def test_terms_of_a_sale(self):
        at_hafen = BOOK.venue_for(SalePlace("Hafen", "auction", "EUR"), "USD", MAY)
        assert (at_hafen.currency, at_hafen.home, at_hafen.exchange) == ("EUR", "USD", D("1.10"))
        abroad = BOOK.venue_for(SalePlace("", "online", "EUR"), "USD", MAY)
        assert (abroad.currency, abroad.exchange, abroad.bands) == ("EUR", D("1.10"), ())
        home = BOOK.venue_for(SalePlace("", "market", "GBP"), "USD", MAY)
        assert (home.currency, home.home) == ("USD", "USD")

    def test_without_a_rate_no_foreign_bill(self):
        assert VenueBook().with_venue(HAFEN).terms(HAFEN, "USD", MAY) is None
        with pytest.raises(InputError, match="appraise rates EUR RATE"):
            HAFEN.in_base("USD", None)

    def test_no_exchange_fee_where_nothing_is_exchanged(self):
        assert HAFEN.in_base("EUR", None).exchange_fee == 0


class TestFooting:
    def test_a_hammer_price_bears_its_venues_bill_without_the_travel(self):
        bill = bill_of(hammered(), "USD", BOOK)
        assert [(one.name, one.amount.plain) for one in bill.lines] == [
            ("hammer", "100.00"), ("premium", "25.00"), ("tax", "5.00"), ("carriage", "12.50"),
        ]  # fmt: skip
        assert all_in_price(hammered(), "USD", BOOK) == usd("142.50")

    def test_the_carriage_of_the_entry_takes_the_place_of_the_usual_one(self):
        assert all_in_price(hammered(postage=usd("4.00")), "USD", BOOK) == usd("134.00")

    def test_an_asking_price_goes_through_the_same_bill(self):
        asked = bought(paid=None, asked=usd("100.00"), channel="auction", record="asking")
        assert all_in_price(asked, "USD", BOOK) == usd("142.50")

    def test_what_was_paid_is_what_it_cost(self):
        paid = bought(price="142.50", hammer=usd("100.00"), channel="auction")
        assert bill_of(paid, "USD", BOOK) is None
        assert all_in_price(paid, "USD", BOOK) == usd("142.50")
        assert all_in_price(bought(postage=usd("3.00")), "USD", BOOK) == usd("48.00")

    def test_hammer_and_paid_of_one_sale_come_out_alike(self):
        """The point of the footing: the same sale noted either way teaches the same price."""
        bill = bill_of(hammered(), "USD", BOOK)
        paid = bought(price=bill.total.plain, channel="auction")
        assert all_in_price(paid, "USD", BOOK) == all_in_price(hammered(), "USD", BOOK)

    def test_without_terms_the_amount_stands_as_noted(self):
        assert all_in_price(hammered(postage=usd("4.00")), "USD") == usd("104.00")
        there = hammered(venue="Quay rooms")
        assert unbilled([there, bought(), hammered()], "USD", VenueBook()) == {
            "Quay rooms": 1,
            "": 1,
        }
        assert unbilled([there], "USD", BOOK) == {}

    def test_a_foreign_bill_is_turned_by_the_users_rate(self):
        sale = bought(
            paid=None, hammer=Money(D(100), "EUR"), venue="Hafen", channel="auction",
            record="hammer", date=MAY,
        )  # fmt: skip
        # 100 + 24 premium + 19 % of 124 = 147.56; at 1.10 = 162.32; 3 % = 4.87
        assert all_in_price(sale, "USD", BOOK) == usd("167.19")
        abroad = bought(paid=Money(D(50), "EUR"), postage=usd("2.00"), date=MAY)
        assert all_in_price(abroad, "USD", BOOK) == usd("57.00")
        assert all_in_price(abroad, "USD") is None

    def test_no_amount_no_price(self):
        assert all_in_price(bought(paid=None, record="gift"), "USD", BOOK) is None
        assert all_in_price(bought(price="0.00"), "USD", BOOK) is None

    def test_the_model_learns_the_footing(self, knowledge):
        rows = priced_rows([hammered(), bought()], knowledge, "USD", MAY, BOOK)
        assert [row.price for row in rows] == [142.5, 45.0]

    def test_a_piece_passed_over_stands_with_what_was_asked(self):
        asked = {"paid": None, "asked": usd("55.00")}
        assert stage_of(bought(record="refused", **asked)) == "asking"
        assert stage_of(bought(record="asking", **asked)) == "asking"
        assert stage_of(bought(asked=usd("55.00"))) == "bought"
        assert stage_of(bought(record="refused", hammer=usd("50.00"), **asked)) == "bought"
        assert stage_of(bought(record="unsold", paid=None, hammer=usd("50.00"))) == "asking"

    def test_the_asking_ratio_comes_off_what_was_asked(self, knowledge):
        seen = bought(record="refused", paid=None, asked=usd("55.00"))
        (row,) = priced_rows([seen], knowledge, "USD", MAY)
        assert dict(row.ratios)["record"] == pytest.approx(0.22314355, abs=1e-6)  # log 1.25

    def test_the_track_record_is_on_the_same_footing(self):
        from appraise.records.entry import LoggedEstimate

        guess = LoggedEstimate(usd("100.00"), usd("140.00"), usd("180.00"))
        entry = hammered(estimate=guess)
        assert [price for _, price in estimated([entry], "USD", BOOK)] == [usd("142.50")]


class TestKeeping:
    def test_kept_in_the_log_and_read_again(self, tmp_path):
        with opened(tmp_path / "log.sqlite") as log:
            assert read_book(log) == VenueBook()
            keep_book(log, BOOK)
        with opened(tmp_path / "log.sqlite") as log:
            assert read_book(log) == BOOK

    def test_of_two_books_the_terms_checked_later_show_and_both_are_told(self, tmp_path):
        later = terms(ROOMS, {"premium": "30", "checked": "2026-11-20"})
        here, there = tmp_path / "a" / "log.sqlite", tmp_path / "b" / "log.sqlite"
        with opened(here, "a") as log:
            keep_book(log, BOOK)
        with opened(there, "b") as log:
            keep_venue(log, later)
            (found,) = merge(log, here).conflicts
            settle(log, found.entry, found.versions[0].id)
            assert conflicts(log) == ()
            assert len(read_book(log).venues) == 2

    def test_an_edit_and_a_removal_are_undone_one_by_one(self, tmp_path):
        with opened(tmp_path / "log.sqlite") as log:
            keep_book(log, BOOK)
            keep_venue(log, terms(ROOMS, {"premium": "30"}))
            drop_venue(log, "hafen")
            assert [one.name for one in read_book(log).venues] == ["Quay rooms"]
            log.undo()
            assert read_book(log).named("Hafen") == HAFEN
            log.undo()
            assert read_book(log) == BOOK
            log.redo()
            assert read_book(log).named("Quay rooms").bands == (Band(None, D("0.30")),)

    def test_a_new_usual_venue_takes_over_and_one_undo_gives_back(self, tmp_path):
        with opened(tmp_path / "log.sqlite") as log:
            keep_book(log, BOOK)
            keep_venue(log, Venue("Mill rooms", "USD", channel="auction", usual=True))
            assert [one.name for one in read_book(log).venues if one.usual] == ["Mill rooms"]
            log.undo()
            assert read_book(log) == BOOK

    def test_a_venue_that_was_removed_stays_so_after_a_merge(self, tmp_path):
        here, there = tmp_path / "a" / "log.sqlite", tmp_path / "b" / "log.sqlite"
        with opened(here, "a") as log:
            keep_book(log, BOOK)
        with opened(there, "b") as log:
            merge(log, here)
            drop_venue(log, "Hafen")
            assert not merge(log, here).conflicts
            assert read_book(log).venue("Hafen") is None
        with opened(here, "a") as log:
            merge(log, there)
            assert read_book(log).venue("Hafen") is None

    def test_a_venue_with_a_newer_field_is_known_and_keeps_it(self, tmp_path):
        path = tmp_path / "log.sqlite"
        newer = '{"holding":{"venue":{"buyback":"3 at most 9","currency":"USD","name":"Pier"}}}'
        with opened(path) as log:
            log.write("add", [Change(record_id("venue", "pier"), "", newer)])
            pier = read_book(log).named("Pier")
            keep_venue(log, terms(pier, {"premium": "20"}))
            kept = read_book(log).named("Pier")
            assert kept.rest == {"buyback": "3 at most 9"}
            assert kept.bands == (Band(None, D("0.20")),)

    def test_the_base_currency_is_undone_merged_and_salvaged(self, tmp_path):
        path = tmp_path / "log.sqlite"
        with opened(path) as log:
            assert not log.currency_chosen
            log.set_base_currency("EUR")
            log.set_base_currency("GBP")
            log.undo()
            assert log.base_currency == "EUR"
        with opened(tmp_path / "b" / "log.sqlite", "b") as log:
            merge(log, path)
            assert log.base_currency == "EUR"
        saved = salvage(path, "2024-06-01T12:00:00+00:00")
        with opened(saved.path) as log:
            assert log.base_currency == "EUR"

    @pytest.mark.parametrize(
        "text",
        ["", "[]", "7", '{"houses": 3}', '{"houses": {"a": 1, "b": {"currency": "??"}}}',
         '{"rates": [1, {}, {"currency": "EUR", "base": "USD", "rate": "x", "on": "y"}]}'],
    )  # fmt: skip
    def test_an_older_book_that_cannot_be_read_is_no_venue(self, tmp_path, text):
        with opened(tmp_path / "log.sqlite") as log:
            log.connection.execute("INSERT INTO setting VALUES ('book', ?)", (text,))
            settings_as_records(log.connection)
            assert read_book(log) == VenueBook()

    def test_a_merge_brings_them_along(self, tmp_path):
        with opened(tmp_path / "a" / "log.sqlite", "a") as log:
            keep_book(log, BOOK)
        with opened(tmp_path / "b" / "log.sqlite", "b") as log:
            merge(log, tmp_path / "a" / "log.sqlite")
            assert read_book(log) == BOOK

    def test_they_are_saved_from_a_damaged_log(self, tmp_path):
        path = tmp_path / "log.sqlite"
        with opened(path) as log:
            log.add(bought())
            keep_book(log, BOOK)
        saved = salvage(path, "2024-06-01T12:00:00+00:00")
        with opened(saved.path) as log:
            assert read_book(log) == BOOK
