"""How a report looks on a page: two sets of inks, and the style sheet made from them.

Every text colour stands at 7:1 or more on its ground (WCAG 2.1, W3C, success criterion 1.4.6), and
everything drawn at 3:1 (criterion 1.4.11); a test computes both.
"""

from collections.abc import Mapping

LIGHT: Mapping[str, str] = {
    "paper": "#FCFAF4",
    "ink": "#1A1713",
    "quiet": "#4B463F",
    "accent": "#1B3563",
    "warn": "#7A1C12",
    "doubt": "#5A4206",
    "bar": "#5D7BAA",
    "rule": "#DAD3C3",
    "band": "#E9EDF4",
}
DARK: Mapping[str, str] = {
    "paper": "#161512",
    "ink": "#ECE7DA",
    "quiet": "#BDB6A8",
    "accent": "#AAC5EC",
    "warn": "#F5AE9C",
    "doubt": "#E6C87C",
    "bar": "#7F9CCB",
    "rule": "#3A372F",
    "band": "#1E2530",
}
TEXTS = ("ink", "quiet", "accent", "warn", "doubt")
"""The inks in which words are written; `bar` draws, `rule` and `band` only divide."""

_SHEET = """
*{box-sizing:border-box}
html{background:var(--paper);color:var(--ink);-webkit-text-size-adjust:100%}
body{margin:0 auto;padding:2.5rem 1.25rem 4rem;max-width:42rem;
font:1.0625rem/1.55 Charter,"Bitstream Charter",Cambria,Georgia,serif;overflow-wrap:break-word}
h1{font-size:1.9rem;line-height:1.2;font-weight:600;margin:.2rem 0 .8rem}
h2{font-size:1.2rem;line-height:1.3;font-weight:600;color:var(--accent);margin:2.6rem 0 .7rem;
padding-top:.7rem;border-top:1px solid var(--rule);break-after:avoid}
p{margin:.7rem 0}
.kind,.quiet,.purpose,footer,figcaption,caption{color:var(--quiet);font-size:.94rem}
.kind{margin:0}
.lead{font-size:1.15rem}
.warn,.doubt{padding-left:.8rem;border-left:3px solid;font-weight:600;break-after:avoid}
.warn{color:var(--warn)}
.doubt{color:var(--doubt)}
ul{padding-left:1.2rem;margin:.7rem 0}
li{margin:.3rem 0}
dl{margin:.7rem 0}
dl div{display:grid;grid-template-columns:11rem 1fr;gap:0 1rem;padding:.25rem 0;break-inside:avoid}
dt{color:var(--quiet);grid-area:1/1/span 99}
dd{margin:0;grid-column:2}
figure{margin:1.2rem 0 .4rem;break-inside:avoid}
figcaption{margin-top:.3rem}
svg{display:block;width:100%;max-width:31rem;height:auto}
.photos{display:flex;flex-wrap:wrap;gap:0 1rem}
.photos figure{flex:1 1 14rem;max-width:100%}
img{display:block;max-width:100%;max-height:30rem;height:auto}
svg.row{min-width:5rem;max-width:10rem}
.total td{font-weight:600}
dl .warn,dl .doubt{font-weight:400}
.scroll{overflow-x:auto;margin:1rem 0}
table{border-collapse:collapse;width:100%;font-size:.94rem;line-height:1.4}
caption{text-align:left;padding-bottom:.3rem}
th,td{text-align:left;vertical-align:top;padding:.35rem .9rem .35rem 0;
border-bottom:1px solid var(--rule)}
th{font-weight:600;color:var(--quiet)}
.wide{min-width:30rem}
.figure{text-align:right;white-space:nowrap;font-variant-numeric:tabular-nums}
footer{margin-top:3rem;padding-top:.7rem;border-top:1px solid var(--rule)}
svg text{font-family:inherit;font-size:12px;fill:var(--ink)}
svg .axis{fill:var(--quiet);font-size:11px}
svg .grid{stroke:var(--rule)}
svg .band{fill:var(--band)}
svg .span{fill:var(--bar)}
svg .open{fill:none;stroke:var(--bar);stroke-width:1.5;stroke-dasharray:4 2}
svg .sum,svg .mark{fill:var(--accent)}
svg .middle{stroke:var(--paper);stroke-width:2}
svg .asked{stroke:var(--warn);stroke-width:1.5;stroke-dasharray:5 3}
svg .told{fill:var(--warn)}
@media (max-width:34rem){body{padding:1.5rem 1rem 3rem}dl div{grid-template-columns:1fr}
dt{grid-area:auto}dd{grid-column:1}}
@media print{body{max-width:none;padding:0;font-size:10.5pt}h2{margin-top:1.4rem}
.wide{min-width:0}.scroll{overflow:visible}tr{break-inside:avoid}}
""".strip()


def sheet() -> str:
    """The style sheet: ink on paper, light on dark where the reader's system asks for it."""
    light, dark = (
        "".join(f"--{name}:{value};" for name, value in inks.items()) for inks in (LIGHT, DARK)
    )
    return (
        f":root{{color-scheme:light dark;{light}}}\n"
        f"@media screen and (prefers-color-scheme:dark){{:root{{{dark}}}}}\n{_SHEET}"
    )
