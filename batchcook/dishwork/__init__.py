"""One dish as jobs, their order, and the way of each food."""
