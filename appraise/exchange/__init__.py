"""What goes in and out of the log: strangers' spreadsheets, CSV and YAML."""
