"""What drills are assumed to be like where nobody has measured, and what a plan goes by.

Numbers of a population and of a rule, not of a formula: common practice, no source. They are to be
put right from cards, once there are many.
"""

DEAD_ZONES, REPEATS, PLAYS = (-1.75, 0.75, 3.25), (0.006, 0.0125, 0.020), (0.08, 0.15, 0.27)
"""What a feed may be like: where it begins to throw and how its lever lands, in mm; its scatter."""
USUAL_DEAD_ZONE, USUAL_DEAD_ZONE_BY = 1, 2
"""In mm: the middle of the dead zones, and their standard deviation."""
UNPRIMED, SHORT, SHORT_BY = 0.1, 0.09, 0.04
"""How often a first catch is short, by how much of it, and how much that differs."""
PULSE, LOST = 0.5, 0.02
"""A catch scatters by half a turn; in one of fifty a turn is miscounted."""
NARROWEST, CLEAR = 0.5, 1.5
"""In mm: a feed throws at least as if so far open; a dead zone ends so far under the first mark."""
FROM_MISS = 0.6
"""The standard deviation of a start that may miss by 1, evenly."""
FAINT = 12
"""A guess with less than exp(-12) of the best one's weight tells nothing."""
MOVING = 0.3
"""What it costs to set a lever anew, in catches."""
HALF_MARKS = 1.1
"""A place midway between two marks is taken where it is worth so many times the best mark."""
HOPELESS, TRIES = 0.1, 4
"""Worth less than so much after so many catches, no plan is likely to end on target."""
ODD = 3.5
"""A catch so many standard deviations from what was foretold is odd."""
LOOK_AHEAD = 4
"""Plans of up to so many more catches at one setting are weighed against each other."""
HUNDREDTH = 0.01
"""Shares that are told of a judgement are whole hundredths, on the safe side."""
LEFT_FOR_ROWS = 0.32
"""What a proven setting of the caught rows leaves of the tolerance, as a standard deviation."""
FEW_CATCHES_FROM, SOME_CATCHES_FROM = 0.05, 0.03
"""Tolerances that most drills are set to in 2 to 5 and in 3 to 9 catches: see the closed loop."""
FALL, FALLING_FROM, FALLS = 0.03, 50, 3
"""A box that runs empty brings so much less each time; told when so much likelier, by so many."""
SCATTER_STEP = 0.001
"""A scatter that few catches tell is kept in tenths of a hundredth."""
MOST_REPEATS = 12
"""So many earlier repeats tell at most of the scatter of a drill: it wears, and seed differs."""
APART = 2
"""Two groups of rows are apart from so many times on what such groups differ by as a rule."""
KEPT = 64
"""So many rows of catches are kept with what they tell: each row is the beginning of a next."""
MEANS_OF = 12
"""Of so many catches every mean is looked at for the one that was told."""
