"""What to buy, in the packs that stores have."""
