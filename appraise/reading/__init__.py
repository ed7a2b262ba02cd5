"""What the findings mean: the joint table, formats, condition. Pure, on numpy arrays."""
