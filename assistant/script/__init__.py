"""A conversation without a terminal: typed lines or named facts in, text or JSON out."""
