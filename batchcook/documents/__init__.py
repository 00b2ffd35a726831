"""What comes out of a plan on paper: run sheet, labels, shopping list."""
