"""Tables, store and migrations: everything about the database."""
