"""Resource-constrained project scheduling; knows nothing of food."""
