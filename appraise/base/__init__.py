"""What every other room stands on: errors, money, dates, measures, located YAML, places."""
