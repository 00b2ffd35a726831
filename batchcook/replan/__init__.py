"""The rest of a day that went otherwise, planned anew."""
