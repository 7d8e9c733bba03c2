"""The record book: one SQLite file that keeps every conversation and every finished card.

Rows are added and never changed. Nothing in here says a sentence: trouble is a code.
"""
