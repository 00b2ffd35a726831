"""What there is to cook with, what it holds, and how long work in it takes."""
