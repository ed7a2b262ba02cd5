"""What a user can do: the use cases, and one row of the registry for each."""
