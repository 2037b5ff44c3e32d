"""Reading an order out of a message by plain rules: nothing is guessed."""
