"""Care, cautions, refusals and law against published statements, the source beside each.

Each line says in our own words what a page says; the row of ours that carries it; what its text
must say, and what it must not. Titles and bodies are those of the shipped sources.
"""

import re
from collections.abc import Mapping

import pytest
from every import every
from external.kit import shipped

KNOWLEDGE = shipped()

LOC = ("Caring for Your Photographic Collections", "Library of Congress")
NARA_GLASS = ("How Do I House Glass Plate Negatives?", "US National Archives")
PSAP = ("Preservation Self-Assessment Program", "University of Illinois Library")
MIRRORS = ("Mirrors with Memory: Conserving Daguerreotypes, Part II", "Library and Archives Canada")
LOC_DAGS = ("Preservation of the Daguerreotype Collection", "Library of Congress")
ABBEY = ("Albumen Prints, RH and pH", "Abbey Publications")
MGC = ("Museums and Galleries Commission", "Conservation DistList")
MESSIER = ("Daguerreotypes", "Conservation DistList")
TARNISH = ("Investigation of a Surface Tarnish", "American Institute for Conservation")
CCI_MOULD = ("Mould Outbreak: An Immediate Response", "Canadian Conservation Institute")
NEDCC_MOULD = ("Emergency Salvage of Moldy Books", "Northeast Document Conservation Center")
LEAD = ("Lead and its compounds", "Hazards in Collections")
ARCHIVISTS = ("Red leather bleed versus red rot", "Archives and Archivists")
DARKENING = ("Darkening leather", "Book_Arts-L")
IVORY = ("Items made of or containing ivory", "World Trade Organization")
DEALING = ("Ivory Act 2018, section 1", "Parliament of the United Kingdom")
EXTENSION = ("Ivory Act expands", "Department for Environment, Food and Rural Affairs")
EU_IVORY = ("EU regime governing trade in ivory", "European Commission")
BADA = ("ivory import/export prohibition", "British Antique Dealers")
AU_IVORY = ("Ivory, rhino horn", "Australian Department of Climate Change")
AU_OLD = ("pre-Convention certificate", "Australian Department of Climate Change")
RIGHTS = ("Directive 2011/83/EU", "European Parliament")
GB_RIGHTS = ("Consumer Contracts", "Parliament of the United Kingdom")
FELT = ("Oddy test results for felt", "Minnesota Historical Society")
WOOL = ("Introduction to storage and display materials", "Museums Galleries Scotland")
SHELLAC = ("Shellac", "Museum of Fine Arts, Boston")
SLAC = ("Potassium Cyanide, Safe Handling", "SLAC National Accelerator Laboratory")
VA_PLATES = ("Caring for Autochromes", "Victoria and Albert Museum")
STATES = ("Is African elephant ivory legal", "WMAR television")
WORCESTER = ("Cyanotypes", "Worcester Art Museum")
LIGHT = ("Guidelines for Exhibition Light Levels", "American Institute for Conservation")

# statement, source, row, must say, must not say
STATEMENTS = [
    # --- figures
    ("about 68 F suits photographs", LOC, "care.photographs", "about 20 C", ""),
    ("30-40% humidity suits them", LOC, "care.photographs", "30 to 40%", ""),
    ("over 60% humidity speeds decay", LOC, "care.photographs", "Over 60%", ""),
    ("over 60% humidity speeds decay", LOC, "care.watch-mould", "Above 60%", ""),
    ("albumen fades dramatically faster over 60%", ABBEY, "care.watch-mould", "Above 60%", ""),
    ("store albumen prints at 30-40%", ABBEY, "care.albumen-prints", "30 to 40%", ""),
    ("alkaline contact yellows albumen", ABBEY, "care.enclosure-albumen",
     "alkaline paper yellows", ""),
    ("acid contact fades albumen", ABBEY, "care.enclosure-albumen", "acid paper fades", ""),
    ("albumen wants neutral paper", ABBEY, "care.enclosure-albumen", "neutral paper", "buffered"),
    ("no collodion below 5 C (41 F)", MGC, "care.collodion", "never below 5 C (41 F)", "14"),
    ("14-18 C is the writer's belief", MGC, "care.collodion-cool", "own choice", "standard gives:"),
    ("no collodion in cold storage", MGC, "care.collodion", "cold storage", ""),
    ("as dry as practical, not below 30%", MESSIER, "care.daguerreotypes", "30% humidity", ""),
    ("do not touch the plate yet", MESSIER, "care.daguerreotypes", "plate alone", ""),
    ("keep the existing glass and seals", MESSIER, "care.daguerreotypes", "Leave the glass", ""),
    ("cyanotypes shown at 70 F +/- 5", WORCESTER, "care.cyanotypes-on-show", "18 to 24 C", ""),
    ("cyanotypes shown at 50% +/- 5", WORCESTER, "care.cyanotypes-on-show", "45 to 55%", ""),
    ("cyanotypes shown at 4-5 foot-candles", WORCESTER, "care.cyanotypes-on-show", "43 to 54 lux",
     ""),
    ("cyanotypes shown for three months", WORCESTER, "care.cyanotypes-on-show", "three months", ""),
    ("air lets the blue come back", WORCESTER, "care.cyanotypes-on-show", "with air", ""),
    ("unbuffered board for cyanotypes", WORCESTER, "care.enclosure-cyanotype", "unbuffered", ""),
    ("50,000 lux-hours a year at most", LIGHT, "care.light", "50,000 lux-hours", ""),
    ("then rest for three years", LIGHT, "care.light", "three years of rest", ""),
    ("unfixed salted paper only as a copy", LIGHT, "care.salted-paper", "show a copy", ""),
    # --- enclosures and handling
    ("no daguerreotype out of its case unadvised", PSAP, "care.enclosure-daguerreotype",
     "before a conservator", ""),
    ("no wooden cabinets", PSAP, "care.enclosure-daguerreotype", "better than wood", ""),
    ("enamelled or stainless steel", PSAP, "care.enclosure-daguerreotype", "stainless steel", ""),
    ("cased pieces in acid-free tissue and a box", PSAP, "care.enclosure-cased",
     "acid-free tissue", ""),
    ("originals not long on show", PSAP, "care.light-daguerreotype", "Show a copy", ""),
    ("ambrotypes in four-flap enclosures", PSAP, "care.enclosure-ambrotype", "four flaps", ""),
    ("seams away from the picture", PSAP, "care.enclosure-ambrotype", "Seams stay away", ""),
    ("flaking ambrotypes flat", PSAP, "care.enclosure-ambrotype", "flakes lies flat", ""),
    ("tintypes in sturdy four-flap enclosures", PSAP, "care.enclosure-tintype", "sturdy", ""),
    ("flaking tintypes flat and in low humidity", PSAP, "care.enclosure-tintype",
     "low humidity", ""),
    ("slides on edge with dividers", PSAP, "care.enclosure-slide", "dividers", ""),
    ("broken slides flat in a sunk mount", PSAP, "care.enclosure-slide", "sunk mount", ""),
    ("broken plates in sunk mounts", ("What to do with a broken plate",
     "State Library of New South Wales"), "care.broken-glass", "sunk mount", ""),
    ("glass plates are never stacked", NARA_GLASS, "care.broken-glass", "do not stack", ""),
    ("cotton slips and snags on glass", NARA_GLASS, "care.handling", "cotton slips", ""),
    ("nitrile gloves for glass", NARA_GLASS, "care.handling", "nitrile gloves", ""),
    ("fresh paint, plywood, cardboard harm prints", LOC, "care.developing-out", "plywood", ""),
    ("lockets: a trained conservator of miniatures", ("Mourning jewellery",
     "Victoria and Albert Museum"), "care.case-locket", "conservator of miniatures", ""),
    ("lockets close by a rolled edge or pins", ("Mourning jewellery",
     "Victoria and Albert Museum"), "care.case-locket", "rolled edge", ""),
    ("shells under 45% humidity", ("Byne's disease", "MUSEUM-L"), "care.case-shell",
     "below 45%", ""),
    ("acid vapours of oak attack shell", ("Byne's disease", "MUSEUM-L"), "care.case-shell",
     "oak", ""),
    # --- where not to keep them
    ("not in an attic or basement", LOC, "never.bad-room", "attic", ""),
    ("an interior closet is best", LOC, "never.bad-room", "closet", ""),
    ("light fades prints and hand colour", LOC, "never.bad-light", "Light fades hand colour", ""),
    ("no cold store for collodion", MGC, "never.freezing", "cold store", ""),
    # --- cautions
    ("50 of 110 plates fluoresced", TARNISH, "cautions.cyanide", "may carry cyanide", "half"),
    ("fluorescence shows on bare plates only", TARNISH, "never.short-wave-lamp", "bare", ""),
    ("people with asthma or allergy keep away", CCI_MOULD, "cautions.mould", "asthma", ""),
    ("bag damp things only until dried", CCI_MOULD, "cautions.mould", "before it is bagged", ""),
    ("isolate what is mouldy", CCI_MOULD, "cautions.mould", "apart", ""),
    ("gloves and a respirator", NEDCC_MOULD, "cautions.mould", "gloves and a mask", ""),
    ("consult a conservator for mould", ("Managing a Mold Infestation",
     "Conservation Center for Art and Historic Artifacts"), "cautions.mould", "conservator", ""),
    ("water and red rot do not mix", ARCHIVISTS, "cautions.red-rot", "Water", ""),
    ("paste turns such leather black and hard", DARKENING, "cautions.red-rot", "black and hard",
     ""),
    ("lead: nitrile gloves", LEAD, "cautions.lead", "Nitrile gloves", ""),
    ("lead: no eating or drinking", LEAD, "cautions.lead", "no food or drink", ""),
    ("lead: wash hands", LEAD, "cautions.lead", "wash your hands", ""),
    ("emerald green cloth holds arsenic", ("Poison Book Project", "Winterthur"),
     "cautions.arsenic-green", "arsenic", ""),
    ("mercury stays in the body and is a poison", ("Mercury in Museum Collections",
     "Canadian Conservation Institute"), "cautions.mercury", "precaution", ""),
    ("the image is destroyed by touch", ("digital photography to recover daguerreotypes",
     "Powerhouse Museum"), "cautions.bare-plate", "any touch destroys it", ""),
    # --- materials
    ("water and red rot do not mix", ARCHIVISTS, "materials.starch-paste", "red rot", ""),
    ("methyl cellulose in water and red rot do not mix", ARCHIVISTS, "materials.methyl-cellulose",
     "red rot", ""),
    ("old glass rich in soda decays", MIRRORS, "materials.old-glass", "soda glass", ""),
    ("drops of weeping glass fall on the plate", MIRRORS, "materials.old-glass", "harm the plate",
     ""),
    ("new glass only where the old is cracked or badly damaged", LOC_DAGS, "materials.new-glass",
     "broken or decayed", ""),
    ("keep original glass where possible", LOC_DAGS, "materials.new-glass", "Keep the old glass",
     ""),
    # --- refusals
    ("no eraser on records", ("At-A-Glance Guide", "US National Archives"), "never.eraser",
     "crumbs stay behind", ""),
    ("keep the original glass", MIRRORS, "never.new-glass", "sound old glass", ""),
    ("tape brings up the surface", ("Sticky Tape is Evil", "Texas State Library"), "never.peeling",
     "image", ""),
    ("dressing comes out as a white film", ('Oleates on copper and "bloom"', "MUSEUM-L"),
     "never.leather-dressing", "white film", ""),
    # --- law
    ("buying ivory is dealing in it", DEALING, "cautions.ivory-gb", "buying included", ""),
    ("under 10% by volume before 3 March 1947", IVORY, "cautions.ivory-gb", "under 10%", ""),
    ("before 3 March 1947", IVORY, "cautions.ivory-gb", "3 March 1947", ""),
    ("miniatures before 1918 of 320 square cm", IVORY, "cautions.ivory-gb", "320 square cm", ""),
    ("from 28 January 2025", EXTENSION, "cautions.ivory-gb", "28 January 2025", "walrus"),
    ("hippopotamus", EXTENSION, "cautions.ivory-gb", "hippopotamus", ""),
    ("narwhal", EXTENSION, "cautions.ivory-gb", "narwhal", ""),
    ("killer and sperm whale", EXTENSION, "cautions.ivory-gb", "killer and sperm whale", ""),
    ("EU trade only in worked ivory of before 1947", EU_IVORY, "cautions.ivory-eu", "1947", ""),
    ("EU trade only with a certificate", BADA, "cautions.ivory-eu", "certificate", ""),
    ("EU import and re-export refused", BADA, "cautions.ivory-eu", "re-export", ""),
    ("Australia: pre-Convention certificate", AU_IVORY, "cautions.ivory-au", "pre-Convention", ""),
    ("Australia: states have rules of their own", AU_IVORY, "cautions.ivory-au",
     "States and territories", ""),
    ("Australia: into or out of the country", AU_OLD, "cautions.ivory-au", "enters or leaves", ""),
    ("US: sea turtle falls under the Act", ("Administrative Actions to Strengthen",
     "US Fish and Wildlife Service"), "cautions.tortoiseshell-us", "sea turtle", ""),
    ("US: antiques are an exception", ("Administrative Actions to Strengthen",
     "US Fish and Wildlife Service"), "cautions.tortoiseshell-us", "antique", ""),
    ("14 days at a distance, EU", RIGHTS, "cautions.returns", "14 days", ""),
    ("not at a public auction", RIGHTS, "cautions.returns", "except at a public auction", ""),
    ("14 days at a distance, UK", GB_RIGHTS, "cautions.returns", "EU and UK", ""),
    ("a fixed price on an auction site is not an auction", ("Internet auction sites",
     "East Riding of Yorkshire Council"), "cautions.sales-gb", "not an auction", ""),
    ("a description is an express warranty", ("section 2-313", "Uniform Commercial Code"),
     "cautions.sales-us", "express warranty", ""),
    # --- materials, and what acts on them
    ("wool felt tarnished silver beside it", FELT, "materials.felt-foam", "tarnish silver", ""),
    ("sulphur from wool tarnishes silver", WOOL, "materials.felt-foam", "sulphur", ""),
    ("shellac dissolves in alcohol", SHELLAC, "never.solvent-test", "dissolve shellac", ""),
    ("daguerreotype cases are shellac and wood flour", SHELLAC, "care.case-thermoplastic",
     "alcohol", ""),
    ("no solvent tells what a moulded case is", SHELLAC, "cautions.moulded-tests", "solvent", ""),
    ("acid frees poisonous gas from cyanide", SLAC, "never.acids", "poisonous gas", ""),
    ("an autochrome's dyes fade in light", VA_PLATES, "care.autochrome", "fade in light", ""),
    ("autochromes are rarely shown", VA_PLATES, "care.autochrome", "look at a copy", ""),
    ("a sound cover glass keeps moisture out", VA_PLATES, "care.autochrome", "keeps damp out", ""),
    ("glass negatives stand on the long edge", NARA_GLASS, "care.glass-negative", "long edge", ""),
    ("several states have laws of their own", STATES, "cautions.ivory-us", "several states", ""),
]  # fmt: skip


def row_of(name: str) -> object:
    """The row by topic and id."""
    topic, _, key = name.partition(".")
    rows: Mapping[str, object] = getattr(KNOWLEDGE, topic)
    return rows[key]


def text_of(row: object) -> str:
    """All that a row tells the user, on one line."""
    fields = ("text", "says", "why", "instead")
    told = " ".join(str(getattr(row, one, "")) for one in fields)
    return " ".join(told.split())


@every(
    ("statement", "source", "name", "must", "must_not"),
    STATEMENTS,
    ids=[f"{one[2]}: {one[0]}" for one in STATEMENTS],
)
def test_a_row_says_what_its_source_says(statement, source, name, must, must_not):
    row = row_of(name)
    title, body = source
    cited = [KNOWLEDGE.sources[key] for key in row.basis.sources]
    assert any(title in one.title and body in one.body for one in cited), statement
    assert must.lower() in text_of(row).lower()
    if must_not:
        assert must_not.lower() not in text_of(row).lower()


def test_there_are_enough_of_them():
    assert len(STATEMENTS) >= 60


# ------------------------------------------------------------------ what follows from several


# Common practice, no source: what one may hear advised at a stall, and the refusal that answers.
@pytest.mark.parametrize(
    ("wish", "refusal"),
    [
        ("white vinegar on the brass", "acids"),
        ("lemon juice", "acids"),
        ("a little bleach against the mould", "bleach"),
        ("hydrogen peroxide", "bleach"),
        ("a soft eraser on the mount", "eraser"),
        ("a melamine sponge", "eraser"),
        ("rust remover on the tintype", "rust-remover"),
        ("fine steel wool", "rust-remover"),
        ("a new cover glass", "new-glass"),
        ("picture glass cut to size", "new-glass"),
        ("the attic", "bad-room"),
        ("in a damp cellar", "bad-room"),
        ("on the window sill", "bad-light"),
        ("in the cold store", "freezing"),
    ],
)
def test_what_is_heard_at_a_stall_is_refused(wish, refusal):
    named = [row.id for row in KNOWLEDGE.never.values() if row.named_in(wish)]
    assert refusal in named


def test_film_is_never_laid_on_a_bare_image():
    """The image is destroyed by touch: Using digital photography to recover daguerreotypes,
    Powerhouse Museum. With a piece of glass out, what lies on the face lies on the image."""
    for name in ("glass.crack", "glass.shards", "glass.missing"):
        defect = KNOWLEDGE.checks[name].defect
        assert "film" not in defect.do
    assert "film" in KNOWLEDGE.checks["glass.shards"].defect.never
    assert "3" in KNOWLEDGE.cautions["bare-plate"].when["glass.shards"]


def test_only_a_separate_whole_cover_glass_may_be_wiped():
    """Ambrotypes may bear their image on the outer glass: PMG Cased Photographs, Ambrotype,
    American Institute for Conservation. That only the outside of a cover glass is wiped, and dry,
    is common practice."""
    defect = KNOWLEDGE.checks["glass.dirt"].defect
    do = " ".join(defect.do.split())
    assert do.startswith("Leave it.")
    assert "separate cover glass, whole and firmly held" in do
    assert "outside" in do
    assert "Wipe no cracked glass" in " ".join(defect.never.split())


def test_old_glass_is_no_better_than_new_as_a_part():
    """Old glass rich in sodium oxide hazes and weeps: Mirrors with Memory, Part II, Library and
    Archives Canada. New glass where the old is badly damaged: Preservation of the Daguerreotype
    Collection, Library of Congress."""
    old, new = KNOWLEDGE.materials["old-glass"], KNOWLEDGE.materials["new-glass"]
    assert old.archival == new.archival == "depends"
    assert "conservator" in old.says
    assert all(word in new.says for word in ("clean", "thin", "right size", "conservator"))
    assert not any("glass" in word for word in KNOWLEDGE.materials["period-part"].words)


LEGAL = [row for row in KNOWLEDGE.cautions.values() if row.checked_on]


@pytest.mark.parametrize("row", LEGAL, ids=[row.id for row in LEGAL])
def test_law_names_its_place_its_day_and_defers(row):
    """The tool informs and gives no legal advice: common practice."""
    assert "see your local authority" in " ".join(row.text.lower().split())
    assert re.fullmatch(r"2026-11-(25|30)", row.checked_on)
    assert row.basis.sources


@pytest.mark.parametrize("row", KNOWLEDGE.never.values(), ids=list(KNOWLEDGE.never))
def test_a_refusal_never_sends_an_owner_to_the_work_himself(row):
    """Treatment is for a conservator: How to choose a conservator, American Institute for
    Conservation."""
    tools = r"\b(scrape|sand|soak|bleach|polish|dip|peel|unseal|prise)\b"
    assert not re.search(tools, row.instead.lower())
