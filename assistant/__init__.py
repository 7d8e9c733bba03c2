"""Drillside: a conversation that walks a person through setting a seed drill."""

__version__ = "0.2.0"
