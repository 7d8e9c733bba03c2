"""A job held over a book: every record is stored before the next question shows."""
