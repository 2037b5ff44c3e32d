"""An invented bench whose plastic obeys transport theory: the truth a color loop is judged by.

Every colorant, drop and reading here is made up by seed. Nothing under `pourwright.color` is
used, so that an estimator is never checked against itself.
"""
