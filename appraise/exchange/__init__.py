"""What goes in and out of the log: strangers' spreadsheets, CSV and YAML.

What goes in and out of it: `csv_file` and `yaml_file` the log's own files by the fields' kinds;
strangers' sheets by `tables` and `layout` (where the header stands), `sections` (later headers,
headings) or `note_lines` (a list in lines of text), `vocabulary` (their words, from the knowledge),
`header_words`, `columns`, `cell_kinds` and `beside` (which column is what, and why), `cells`,
`money_words`, `remarks`, `account` (what a row's cells say), `events` and `legend` (what happened,
and what is no event), `merged`, `placed_days`, `sheet_days` and `loose_days`, `words`,
`currencies`, `former`, `questions` (what is open, what is guessed), `rows` and `row_prices`, and
`sheets`, which puts them together as a `preview`; `intake` adds what is new, by the row that it
came from.
"""
