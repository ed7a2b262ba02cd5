"""Rows of processes and housings as they are written in YAML."""

from appraise.base.yamls import Row
from appraise.knowledge.basis import read_basis, read_years
from appraise.knowledge.citing import Keys
from appraise.knowledge.records import KINDS, REGIONS, Housing, Process


def read_process(row: Row, key: str, sources: Keys) -> Process:
    """A row of `processes:`: `share` by kind, `years` by region, chance of a modern picture."""
    shares, regional = _shares(row.row("share"))
    process = Process(
        id=key,
        name=row.text("name"),
        family=row.text("family", key),
        shares=shares,
        years=read_years(row),
        modern_image=row.number("modern-image", 0.02, 0, 0.999),
        basis=read_basis(row, sources),
        regional=regional,
        apart=row.flag("apart"),
    )
    row.done()
    return process


def _shares(row: Row) -> tuple[dict[str, float], dict[tuple[str, str], float]]:
    """`share` of a process: by kind (`cased`), and by kind and region (`cased gb`)."""
    shares: dict[str, float] = {}
    regional: dict[tuple[str, str], float] = {}
    for key in row:
        kind, _, region = key.partition(" ")
        if kind not in KINDS:
            raise row.error(key, f"'{kind}' is not a kind of piece", f"Known: {', '.join(KINDS)}.")
        if region and region not in REGIONS:
            raise row.error(key, f"'{region}' is not a region", f"Known: {', '.join(REGIONS)}.")
        chance = row.number(key, low=0, high=1)
        if region:
            regional[kind, region] = chance
        else:
            shares[kind] = chance
    for kind, region in regional:
        if not shares.get(kind):
            raise row.error(f"{kind} {region}", f"no share of '{kind}' by itself", "Give one.")
    return shares, regional


def read_housing(row: Row, key: str, sources: Keys) -> Housing:
    """A row of `housings:`."""
    married = row.row("married")
    worth = row.row("worth")
    housing = Housing(
        id=key,
        name=row.text("name"),
        share=row.number("share", low=0, high=1),
        years=read_years(row),
        married={word: married.number(word, low=0, high=1) for word in married},
        before=_range(row, "before"),
        modern_case=row.number("modern-case", low=0, high=0.999),
        image=worth.number("image", low=0, high=1),
        case=worth.number("housing", low=0, high=1),
        bond=worth.number("bond", low=0, high=1),
        basis=read_basis(row, sources),
    )
    if "any" not in housing.married:
        raise row.error("married", "'any' is missing")
    if abs(housing.image + housing.case + housing.bond - 1) > 1e-6:
        raise row.error("worth", "image, housing and bond must sum to 1")
    worth.done()
    row.done()
    return housing


def _range(row: Row, key: str) -> tuple[float, float]:
    values = row.numbers(key, 0, 1)
    if len(values) != 2 or values[0] > values[1]:
        raise row.error(key, "two numbers in order are needed")
    return values[0], values[1]
