"""What the user records: one module a record, a frozen dataclass and the tuple of its fields."""
