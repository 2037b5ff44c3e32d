"""Heating and cooling: the oven, the cup, the pour window and the mold."""
