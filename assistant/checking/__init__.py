"""Judges the flows before anyone talks to them: what the files mean, all findings at once."""
