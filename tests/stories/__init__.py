"""Whole conversations, typed as people type, with results worked out by hand."""
