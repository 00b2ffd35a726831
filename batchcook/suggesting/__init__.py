"""What to make on the next prep day so that the freezer nights to come are covered."""
