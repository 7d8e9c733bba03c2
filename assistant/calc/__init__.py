"""The arithmetic of the trade: pure functions from facts to facts and one outcome.

No words, no rounding for show, no clock, no file. Every number that has a dimension comes in as a
parameter, in SI units, so that the same functions can be run on quantities to check dimensions.
"""
