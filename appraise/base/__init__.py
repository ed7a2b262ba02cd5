"""What every other room stands on: errors, money, dates, measures, located YAML, places.

Errors (one family, one line each), money, EDTF dates, ages, measures, located YAML, values as JSON
has them, settings, places.
"""
