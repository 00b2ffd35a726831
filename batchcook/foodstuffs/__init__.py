"""The foods table: its figures, amounts of food, and the words for them."""
