"""What the findings mean: the joint table, formats, condition, explanation. Pure, plain Python."""
