"""Track record: two pictures and four sentences on how good the estimates have been."""
