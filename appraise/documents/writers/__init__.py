"""One piece told to one reader: what each is told, and how that is written."""
