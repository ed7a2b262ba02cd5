"""One screen for every list of records, one page for every record, and a spec for each type."""
