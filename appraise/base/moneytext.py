"""An amount of money as people write it: its figures, and what names its currency.

'£45', '45 dollars', 'A$45', '18,-', 'Fr. 15.–', '1’480.–', '1.250,00 €'. What could mean two
things is left to the caller: a bare '$' is some dollar, 'kr' some crown, '1,250' may have decimals.
"""

import re
from collections.abc import Mapping
from decimal import Decimal

from appraise.base.dataclass import dataclass
from appraise.base.errors import InputError
from appraise.base.regex import late

# ISO 4217, list three (historic denominations): what old purchases were paid in before the euro.
FORMER: Mapping[str, int] = {
    **dict.fromkeys(("ATS", "DEM", "FIM", "FRF", "IEP", "NLG"), 2),
    **dict.fromkeys(("BEF", "ESP", "GRD", "ITL", "LUF", "PTE"), 0),
}
# ISO 4217 minor-unit exponents of the currencies that are understood.
EXPONENTS: dict[str, int] = {
    **dict.fromkeys(("AUD", "BRL", "CAD", "CHF", "CNY", "CZK", "DKK", "EUR", "GBP"), 2),
    **dict.fromkeys(("HKD", "HUF", "ILS", "INR", "MXN", "MYR", "NOK", "NZD", "PHP"), 2),
    **dict.fromkeys(("PLN", "RON", "SEK", "SGD", "THB", "TRY", "TWD", "USD", "ZAR"), 2),
    **dict.fromkeys(("CLP", "ISK", "JPY", "KRW"), 0),
    **dict.fromkeys(("BHD", "JOD", "KWD", "TND"), 3),
    **FORMER,
}
TITLES: Mapping[str, str] = {
    **{"AUD": "Australian Dollar", "BRL": "Brazilian Real", "CAD": "Canadian Dollar"},
    **{"CHF": "Swiss Franc", "CNY": "Yuan Renminbi", "CZK": "Czech Koruna", "DKK": "Danish Krone"},
    **{"EUR": "Euro", "GBP": "Pound Sterling", "HKD": "Hong Kong Dollar", "HUF": "Forint"},
    **{"ILS": "New Israeli Sheqel", "INR": "Indian Rupee", "MXN": "Mexican Peso"},
    **{"MYR": "Malaysian Ringgit", "NOK": "Norwegian Krone", "NZD": "New Zealand Dollar"},
    **{"PHP": "Philippine Peso", "PLN": "Zloty", "RON": "Romanian Leu", "SEK": "Swedish Krona"},
    **{"SGD": "Singapore Dollar", "THB": "Baht", "TRY": "Turkish Lira", "USD": "US Dollar"},
    **{"TWD": "New Taiwan Dollar", "ZAR": "Rand", "CLP": "Chilean Peso", "ISK": "Iceland Krona"},
    **{"JPY": "Yen", "KRW": "Won", "BHD": "Bahraini Dinar", "JOD": "Jordanian Dinar"},
    **{"KWD": "Kuwaiti Dinar", "TND": "Tunisian Dinar", "ATS": "Schilling", "FIM": "Markka"},
    **{"DEM": "Deutsche Mark", "FRF": "French Franc", "IEP": "Irish Pound", "GRD": "Drachma"},
    **{"NLG": "Netherlands Guilder", "BEF": "Belgian Franc", "ESP": "Spanish Peseta"},
    **{"ITL": "Italian Lira", "LUF": "Luxembourg Franc", "PTE": "Portuguese Escudo"},
}
"""What currencies are called: ISO 4217, lists one and three, from memory."""
DOLLARS = ("USD", "AUD", "CAD", "NZD", "HKD", "SGD", "TWD", "MXN")
CROWNS = ("SEK", "NOK", "DKK", "ISK", "CZK")
FAMILIES: Mapping[str, tuple[str, ...]] = {"$": DOLLARS, "kr": CROWNS}
"""Signs that several currencies share."""
_NAMES: Mapping[str, str] = {
    **{code.lower(): code for code in EXPONENTS},
    **{"us$": "USD", "usd$": "USD", "au$": "AUD", "a$": "AUD", "ca$": "CAD", "c$": "CAD"},
    **{"$us": "USD", "$usd": "USD", "$ca": "CAD", "$can": "CAD", "$cdn": "CAD"},
    **{"can$": "CAD", "cdn$": "CAD", "$cad": "CAD", "$au": "AUD", "$aud": "AUD", "$nz": "NZD"},
    **{"ƒ": "NLG", "f": "FRF", "frs": "CHF"},
    **{"nz$": "NZD", "hk$": "HKD", "s$": "SGD", "r$": "BRL", "$": "$", "£": "GBP", "₤": "GBP"},
    **{"€": "EUR", "¥": "JPY", "₹": "INR", "₺": "TRY", "₪": "ILS", "₩": "KRW", "kč": "CZK"},
    **{"zł": "PLN", "kr": "kr", "fr": "CHF", "sfr": "CHF", "stg": "GBP", "sterling": "GBP"},
    **dict.fromkeys(
        (
            "dollar",
            "dollars",
            "buck",
            "bucks",
            "bux",
            "dlr",
            "dlrs",
            "dols",
            "smackers",
            "clams",
            "piastre",
            "piastres",
        ),
        "$",
    ),
    **dict.fromkeys(("pound", "pounds", "quid", "squid"), "GBP"),
    **{"euro": "EUR", "euros": "EUR", "franc": "CHF", "francs": "CHF", "franken": "CHF"},
    **{"yen": "JPY", "kronor": "SEK", "kroner": "DKK"},
    **dict.fromkeys(("dm", "d-mark", "mark", "marks", "dmark", "deutschemark"), "DEM"),
    **dict.fromkeys(("pta", "ptas", "pts", "peseta", "pesetas"), "ESP"),
    **dict.fromkeys(("lire", "lira", "lit", "l"), "ITL"),
    **{"ff": "FRF", "gulden": "NLG", "guldens": "NLG", "hfl": "NLG", "fl": "NLG"},
    **dict.fromkeys(("irishpounds", "irishpound", "punts", "punt", "irischepfund"), "IEP"),
    **dict.fromkeys(("frenchfrancs", "francsfrançais", "französischefrancs"), "FRF"),
    **dict.fromkeys(("belgianfrancs", "francsbelges", "belgischefrank", "bfrs"), "BEF"),
    **{"swissfrancs": "CHF", "canadiandollars": "CAD", "australiandollars": "AUD"},
    **{
        "usdollars": "USD",
        "schilling": "ATS",
        "ös": "ATS",
        "bfr": "BEF",
        "escudos": "PTE",
        "markka": "FIM",
    },
}
_GROUP = r"[ '’\u00a0\u2007\u202f]"
_DIGITS = rf"\d{{1,3}}(?:{_GROUP}\d{{3}})+(?:[.,]\d+)?|\d[\d.,]*|[.,]\d+"
_TEXT = late(
    rf"\s*(?P<before>[^\d.,+\-()]*?(?:(?<=[A-Za-z])\.)?)\s*(?P<digits>{_DIGITS})(?P<even>[.,]?[-\u2013\u2014]{{1,2}})?"
    r"\s*(?P<after>[^\d+\-()]*)\Z"
)
_NUMBERS = {
    ".": re.compile(r"(?:\d+|\d{1,3}(?:,\d{3})+)?(?:\.\d*)?\Z"),
    ",": re.compile(r"(?:\d+|\d{1,3}(?:\.\d{3})+)?(?:,\d*)?\Z"),
}
_LONGEST = 40  # digits; more is no amount of money
_LONGEST_TEXT = 100  # characters without the blanks at its ends; the same


def code_called(text: str) -> str:
    """The code of a currency by what people call it; '' for none, or where it could be several."""
    said = "".join(text.lower().split())
    code = _NAMES.get(said, "")
    titled = [each for each, title in TITLES.items() if said == title.lower().replace(" ", "")]
    return code if code in EXPONENTS else "".join(titled[:1])


@dataclass(frozen=True, slots=True)
class Typed:
    """An amount as written.

    Attributes:
        digits: Its figures with their marks, such as '1.250,00'.
        named: An ISO 4217 code, one of `FAMILIES`, or an empty string.
    """

    digits: str
    named: str


def typed(text: str) -> Typed | None:
    """An amount with the currency that it names; None when it is no amount.

    Raises:
        InputError: when something beside the figures names no currency, or two are named.
    """
    match = _TEXT.match(text.strip()) if len(text.strip()) <= _LONGEST_TEXT else None
    if not match or len(match["digits"]) > _LONGEST:
        return None
    guilders = match["before"].strip().lower() in ("f", "f.")  # 'f 60', but '60 F' are francs
    found = [*(["NLG"] if guilders else _named(match["before"])), *_named(match["after"])]
    codes = {name for name in found if name not in FAMILIES}
    shared = {name for name in found if name in FAMILIES}
    if len(codes) > 1 or any(not codes <= set(FAMILIES[name]) for name in shared):
        names = " and ".join(sorted(codes | shared))
        raise InputError(f"'{text.strip()}' has two currencies, {names}", mend="Write one.")
    return Typed(match["digits"], next(iter(codes or shared), ""))


def currency_named(words: str) -> str:
    """The currency that some words name: a code, one of `FAMILIES`; '' for none or for two."""
    try:
        found = set(_named(words))
    except InputError:
        return ""
    return found.pop() if len(found) == 1 else ""


def one_of_family(named: str, usual: str) -> str:
    """The code behind a sign that several currencies share: the usual one where it fits, or ''."""
    return named if named not in FAMILIES else usual if usual in FAMILIES[named] else ""


def _named(words: str) -> list[str]:
    """The currencies that words beside an amount name, in their order."""
    whole = "".join(words.split()).lower().rstrip(".")
    if not whole:
        return []
    if whole in _NAMES:
        return [_NAMES[whole]]
    found = []
    for word in re.findall(r"[^\s.,$£€¥]*\$|[£€¥]|[^\s$£€¥,]+", words.lower()):
        name = _NAMES.get(word.rstrip("."))
        if name is None and " " in words.strip():
            raise InputError(
                f"'{words.strip()[:_LONGEST]}' beside an amount is not understood",
                mend="Write only the amount. Example: 45.00 USD.",
            )
        if name is None:
            sort = "currency" if word.isalpha() else "sign"
            raise InputError(
                f"the {sort} '{words.strip()[:_LONGEST]}' is not known", mend="Write USD, GBP, EUR."
            )
        found.append(name)
    return found


def point_of(digits: str, code: str = "") -> str:
    """The decimal point that figures must have: '.' or ','; '?' for either; '' for none.

    Args:
        digits: Figures with their marks.
        code: ISO 4217 code of the amount, where it is known: yen have no decimals.
    """
    dots, commas = digits.count("."), digits.count(",")
    if dots and commas:
        return "." if digits.rfind(".") > digits.rfind(",") else ","
    if not dots + commas:
        return ""
    own, other = (".", ",") if dots else (",", ".")
    if dots + commas > 1:
        return other
    whole, _, rest = digits.partition(own)
    grouped = len(rest) == 3 and 1 <= len(whole) <= 3 and not whole.startswith("0")
    if grouped and EXPONENTS.get(code) == 0:
        return other
    return "?" if grouped else own


def decimal(digits: str, point: str) -> Decimal:
    """A number with a decimal point '.' or ',', with or without groups of thousands.

    Raises:
        InputError: when it is none.
    """
    bare = re.sub(rf"{_GROUP}|\s", "", digits)
    if not bare.strip(".,") or not _NUMBERS[point].match(bare):
        raise InputError(f"'{digits}' is not a number with a decimal '{point}'")
    groups = "," if point == "." else "."
    return Decimal(bare.replace(groups, "").replace(",", ".").rstrip("."))
