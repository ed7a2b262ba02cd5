"""One piece told to one reader: what each is told, and how that is written.

How a document is written: `lines.py` lines with roles for the app, and the same as plain text;
`markdown.py`, `html.py` (`svg.py`, `style.py`), `forms.py`.
"""
