"""Forms: the kinds of telling and question, each a row that says what it is filled with."""
