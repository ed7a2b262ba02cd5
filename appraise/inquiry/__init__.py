"""What to look at next: what each question would tell, their order, when enough is seen. Pure."""
