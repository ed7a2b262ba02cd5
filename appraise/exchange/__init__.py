"""What goes in and out of the log: strangers' spreadsheets, CSV and YAML.

What goes in and out of it: `csv_file` and `yaml_file` the log's own files by the fields' kinds;
strangers' sheets by `tables` and `layout` (where the header stands), `header_words` and `columns`
(which column is what, and why), `events` (what happened, and what is no event), `merged`,
`sheet_days`, `words`, `currencies`, `questions` (what is open, what is guessed), `rows`, and
`sheets`, which puts them together as a `preview`; `intake` adds what is new, by the row that it
came from.
"""
