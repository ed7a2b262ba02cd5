"""Widgets of our own, for what the library lacks.

What the screen library lacks, one module each, pure: years, stacked bar, money axis, marks, band,
drawing, photo. All on one page: `python demo/screens/widgets.py`.
"""
