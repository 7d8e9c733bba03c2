"""Typed text to a settled value, or a named problem. Codes, values and parameters; no sentences."""
