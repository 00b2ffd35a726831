"""A prep day: what is ordered, its shared work, solved, checked and told in kitchen words."""
