"""What to look at next: what each question would tell, their order, when enough is seen. Pure.

What to look at next. Pure. `forecast` what each open check would tell, `next_check` their order,
`offering` which are put before a person, `why` what one is for, `simulation`, `batch`, `rest`
everything open answered at once, `enough` when to stop, `telling` what a check is good for before
anything is seen, `outside` which dated findings are of another time than the rest.
"""
