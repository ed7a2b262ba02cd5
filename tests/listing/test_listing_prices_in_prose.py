"""Amounts in a seller's prose: the price wanted, and what only looks like it. Invented texts."""

import pytest
from every import every
from listing.listingkit import said

HEAD = "Sixth plate ambrotype of a young man in a leather case. "

ASKING = [
    # a sign belongs to the digits after it
    ("Sixth plate ambrotype 1858 $95", "95.00 USD"),
    ("Cased tintype 1865 £12", "12.00 GBP"),
    ("Ambrotype c.1860 €40", "40.00 EUR"),
    ("Daguerreotype, 1850s $240 obo", "240.00 USD"),
    (HEAD + "Made about 1858 $95.", "95.00 USD"),
    (HEAD + "Dated 1861. $75", "75.00 USD"),
    # was and now
    (HEAD + "Was $120, now $95.", "95.00 USD"),
    (HEAD + "Now $95, was $120.", "95.00 USD"),
    (HEAD + "Reduced from £80 to £55.", "55.00 GBP"),
    (HEAD + "Reduced to £55 from £80.", "55.00 GBP"),
    (HEAD + "Previously £80. Price now £55.", "55.00 GBP"),
    (HEAD + "Was £80 - now £55", "55.00 GBP"),
    (HEAD + "Price dropped to $65.", "65.00 USD"),
    # comparables
    (HEAD + "Comparable plates have brought $40,000. Asking $300.", "300.00 USD"),
    (HEAD + "Similar sold for $450 last year. Yours for $200.", "200.00 USD"),
    (HEAD + "Others have made £900 at auction. £250 for this one.", "250.00 GBP"),
    (HEAD + "I have seen these go for $500. I ask $180.", "180.00 USD"),
    (HEAD + "One like it realized $1,100 in 2019. Price $260.", "260.00 USD"),
    (HEAD + "These bring $600 in New York; mine is $220.", "220.00 USD"),
    (HEAD + "Catalogued at $400. $150 accepts it.", "150.00 USD"),
    # half price, insurance
    (HEAD + "Half price: $45.", "45.00 USD"),
    (HEAD + "Insured for $500. Asking $350.", "350.00 USD"),
    (HEAD + "I had it insured for £600. Selling at £400.", "400.00 GBP"),
    (HEAD + "Appraised at $900, asking $450.", "450.00 USD"),
    # ways of writing
    (HEAD + "Asking $1.2k.", "1200.00 USD"),
    (HEAD + "Price 1.2k USD.", "1200.00 USD"),
    (HEAD + "$2k firm", "2000.00 USD"),
    (HEAD + "Price C $45.", "45.00 CAD"),
    (HEAD + "C $45.00", "45.00 CAD"),
    (HEAD + "AU $60", "60.00 AUD"),
    (HEAD + "US $60", "60.00 USD"),
    (HEAD + "Ask 48 eur.", "48.00 EUR"),
    (HEAD + "ask 48 eur", "48.00 EUR"),
    (HEAD + "Asking 48,- euro", "48.00 EUR"),
    (HEAD + "Price &pound;45.", "45.00 GBP"),
    (HEAD + "Price &euro;45.", "45.00 EUR"),
    (HEAD + "$1,250.00 or best offer", "1250.00 USD"),
    (HEAD + "CHF 1'250", "1250.00 CHF"),
    # numbers that are no money
    (HEAD + "Phone 555 0134. $95", "95.00 USD"),
    (HEAD + "Call 555-0134. Price 95.", "95.00 USD"),
    (HEAD + "Ref. 4471. Asking $60.", "60.00 USD"),
    (HEAD + "Item no. 4471, price $60.", "60.00 USD"),
    (HEAD + "Stock number 212. $60.", "60.00 USD"),
    (HEAD + "Two cent revenue stamp on the back. $40.", "40.00 USD"),
    (HEAD + "Has a 2 cent tax stamp. $40.", "40.00 USD"),
    (HEAD + "With a 3c proprietary stamp, cancelled. $40.", "40.00 USD"),
    (HEAD + "Free shipping over $50. Price $40.", "40.00 USD"),
    (HEAD + "Postage free over 50. Price 40.", "40.00 USD"),
]

NO_PRICE = [
    "Ambrotype in a case with a two cent revenue stamp.",
    "Carte de visite with a 2 cent stamp on the back.",
    "Carte de visite, 3 cents revenue stamp, cancelled by hand.",
    HEAD + "Comparable plates have brought $40,000.",
    HEAD + "Similar sold for $450.",
    HEAD + "Insured for $500.",
    HEAD + "Was $120.",
    HEAD + "Half price.",
    HEAD + "Free shipping over $50.",
    HEAD + "Call 555 0134.",
    HEAD + "Ref. 4471",
    HEAD + "Stock no. 4471",
    HEAD + "Dated 1858.",
]


@every(("text", "asking"), ASKING)
def test_the_price_wanted_is_found(text: str, asking: str) -> None:
    assert said(text, "asking") == (asking,)


@pytest.mark.parametrize("text", NO_PRICE)
def test_where_no_price_is_named_there_is_none(text: str) -> None:
    assert said(text, "asking") == ()
    assert said(text, "postage") == ()


@pytest.mark.parametrize(
    "words", ["two cent revenue stamp", "2 cent tax stamp", "3c revenue stamp", "revenue stamp"]
)
def test_a_revenue_stamp_is_a_finding(words: str) -> None:
    found = said(f"Carte de visite of a man with a {words} on the back. $10", "check")
    assert any(value.startswith("piece.revenue-stamp ") for value in found), found


@pytest.mark.parametrize(
    ("text", "post"),
    [
        (HEAD + "$40 plus $6 shipping, free over $50.", "6.00 USD"),
        (HEAD + "Price 40. Post 5, free over 50.", "5.00 USD"),
    ],
)
def test_postage_beside_a_bound_for_free_postage(text: str, post: str) -> None:
    assert said(text, "postage") == (post,)


def test_a_year_before_a_sign_dates_the_piece() -> None:
    assert said("Sixth plate ambrotype 1858 $95", "date") == ("1858",)


@pytest.mark.parametrize(
    ("words", "date"),
    [
        ("The mat is marked 1858.", "1858"),  # no March
        ("Decorated 1860 case.", "1860"),  # no December
        ("Dated 3 October 1861 on the back.", "1861-10-03"),
        ("Dated 3. Oktober 1861.", "1861-10-03"),
        ("Dated Dec. 1861.", "1861-12"),
        ("Dated 3 août 1861.", "1861-08-03"),
    ],
)
def test_only_the_name_of_a_month_is_one(words: str, date: str) -> None:
    assert said(f"Sixth plate ambrotype, cased. {words}", "date") == (date,)
