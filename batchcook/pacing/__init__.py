"""How long this household takes, and how sure a day's end is."""
