"""Kinds, units and how a value is shown: the one place that imports pint, and only when needed."""
