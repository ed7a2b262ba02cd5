"""A file that is imported: how it is read, told line by line and changed before it is saved."""
