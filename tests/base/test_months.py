"""Names of months, against the calendars of six languages (Unicode CLDR, from memory)."""

import re

import pytest

from appraise.base.months import MONTH, SURE_MONTH, month_of

YEARS = {
    "English": "January February March April May June July August September October November "
    "December",
    "German": "Januar Februar März April Mai Juni Juli August September Oktober November Dezember",
    "French": "janvier février mars avril mai juin juillet août septembre octobre novembre "
    "décembre",
    "Dutch": "januari februari maart april mei juni juli augustus september oktober november "
    "december",
    "Italian": "gennaio febbraio marzo aprile maggio giugno luglio agosto settembre ottobre "
    "novembre dicembre",
    "Spanish": "enero febrero marzo abril mayo junio julio agosto septiembre octubre noviembre "
    "diciembre",
}


@pytest.mark.parametrize("language", YEARS)
def test_each_language_has_its_twelve_months(language):
    names = YEARS[language].split()
    assert [month_of(name) for name in names] == list(range(1, 13))
    assert all(re.fullmatch(MONTH, name, re.IGNORECASE) for name in names)


def test_a_word_of_its_own_is_no_sure_month():
    assert re.fullmatch(MONTH, "set", re.IGNORECASE)
    assert not re.fullmatch(SURE_MONTH, "set", re.IGNORECASE)
