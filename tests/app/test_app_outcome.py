"""What became of a piece, told on its entry's page."""

from app.kit import app_on, settled, shown

from appraise.pricing.outcomes import outcome_of


async def test_an_outcome_is_told_kept_and_undone(tmp_path):
    app = app_on(tmp_path, demo=True)
    async with app.run_test(size=(80, 24)) as pilot:
        await settled(pilot)
        await pilot.press("p")
        await settled(pilot)
        await pilot.press("enter")
        await settled(pilot)
        await pilot.press("w")
        await settled(pilot)
        assert "Outcome" in shown(app)
        app.screen.query_one("#field-found").value = "married"
        app.screen.query_one("#field-sure").value = "certain"
        app.screen.query_one("#field-by").value = "a conservator"
        app.screen.query_one("#field-price").value = "thirty-eight and more"
        app.screen.query_one("#field-price").focus()
        await pilot.press("enter")
        await settled(pilot)
        assert "is not an amount" in " ".join(shown(app).split())
        app.screen.query_one("#field-price").value = "38"
        await pilot.press("enter")
        await settled(pilot)
        await pilot.press("end", "pagedown", "pagedown")
        await settled(pilot)
        told = "found married (certain) by a conservator, fetched 38.00 USD"
        assert told in " ".join(shown(app).split())
        entry = app.session.log.entries(limit=1)[0]
        assert outcome_of(entry).found == "married"
        await pilot.press("q", "u")
        await settled(pilot)
        assert outcome_of(app.session.log.entry(entry.id)) is None
    app.session.close()
