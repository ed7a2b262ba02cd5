"""Thirty-two auction sales of grandfather clocks: age in years, bidders, price.

Textbook data: Mendenhall and Sincich, A Second Course in Statistics: Regression Analysis, and
McClave and Sincich, Statistics. One public copy holds the misprint 1131 for 2131.
"""

import numpy as np

_ROWS = """
127,13,1235 115,12,1080 127,7,845 150,9,1522 156,6,1047 182,11,1979 156,12,1822 132,10,1253
137,9,1297 113,9,946 137,15,1713 117,11,1024 137,8,1147 153,6,1092 117,13,1152 126,10,1336
170,14,2131 182,8,1550 162,11,1884 184,10,2041 143,6,845 159,9,1483 108,14,1055 175,8,1545
108,6,729 179,9,1792 111,15,1175 187,8,1593 111,7,785 115,7,744 194,5,1356 168,7,1262
"""


def clock_sales() -> tuple[np.ndarray, np.ndarray]:
    """Features (32, 2), age and bidders, and prices (32,)."""
    table = np.array([[float(x) for x in row.split(",")] for row in _ROWS.split()])
    return table[:, :2], table[:, 2].copy()
