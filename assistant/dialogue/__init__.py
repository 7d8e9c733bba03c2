"""The conversation: a pure fold of events over a compiled job. No clock, no book, no words."""
