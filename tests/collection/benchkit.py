"""Invented parts, works and wishes, drawn by hypothesis."""

import datetime as dt

from hypothesis import strategies as st
from store.logkit import lines, moneys, pages, slugs

from appraise.knowledge.bench import ARCHIVAL
from appraise.knowledge.records import KINDS
from appraise.records.part import MADE, MEASURED, Part, Seen, Size
from appraise.records.piece_words import SUBJECTS
from appraise.records.repair import HANDS, REVERSIBLE, Repair, Stuff, TakenOut
from appraise.records.want import Want

words = slugs.filter(bool)
names = lines.filter(str.strip)
ids = st.text("0123456789abcdef", min_size=16, max_size=16)
sizes = st.lists(
    st.builds(
        lambda what, w, h: Size(what, f"{w} x {h} mm"),
        st.sampled_from(MEASURED),
        st.integers(1, 1000),
        st.integers(1, 1000),
    ),
    max_size=3,
    unique_by=lambda one: one.what,
).map(lambda all_: tuple(sorted(all_, key=lambda one: MEASURED.index(one.what))))
seen = st.lists(
    st.builds(lambda part, aspect, answer: Seen(f"{part}.{aspect}", answer), words, words, words),
    max_size=3,
    unique_by=lambda one: one.check,
).map(tuple)
parts = st.builds(
    Part,
    title=lines,
    since=st.dates(),
    part=words,
    material=slugs,
    format=slugs,
    sizes=sizes,
    seen=seen,
    made=st.sampled_from(("", *MADE)),
    maker=lines,
    motif=lines,
    region=st.sampled_from(("", "us", "gb", "eu", "au")),
    cost=st.none() | moneys,
    taken_from=ids | lines,
    place=lines,
    count=st.integers(0, 999),
    used_in=lines,
    note=pages,
)
works = st.builds(
    Repair,
    title=lines,
    begun=st.dates(max_value=dt.date(2400, 1, 1)),
    piece=ids | lines,
    done=st.none() | st.dates(min_value=dt.date(2400, 1, 1)),
    did=pages,
    by=st.sampled_from(HANDS),
    who=lines,
    materials=st.lists(st.builds(Stuff, names, st.sampled_from(("", *ARCHIVAL))), max_size=3).map(
        tuple
    ),
    reversible=st.sampled_from(("", *REVERSIBLE)),
    used=st.lists(ids, max_size=3).map(tuple),
    taken_out=st.lists(st.builds(TakenOut, names, lines), max_size=3).map(tuple),
    cost=st.none() | moneys,
    minutes=st.integers(0, 100_000),
    before=st.lists(lines, max_size=2).map(tuple),
    after=st.lists(lines, max_size=2).map(tuple),
    made_by_me=st.booleans(),
    mark=lines,
    disclosure=lines,
    note=pages,
)


@st.composite
def wants(draw):
    first, last = sorted(draw(st.tuples(st.integers(1800, 2100), st.integers(1800, 2100))))
    return Want(
        draw(lines),
        draw(st.dates()),
        kind=draw(st.sampled_from(("", *KINDS))),
        process=draw(slugs),
        housing=draw(slugs),
        formats=tuple(draw(st.lists(words, max_size=3))),
        motif=draw(lines),
        subject=draw(st.sampled_from(("", *SUBJECTS))),
        first=draw(st.sampled_from((None, first))),
        last=draw(st.sampled_from((None, last))),
        most=draw(st.none() | moneys),
        note=draw(pages),
    )
