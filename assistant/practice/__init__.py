"""The practice drill: a machine that is not there, for who learns the job indoors."""
