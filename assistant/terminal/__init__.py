"""The conversation on a terminal: what is written, what is typed, and how it is left."""
