"""The practice drill, and somebody who learns on it."""
