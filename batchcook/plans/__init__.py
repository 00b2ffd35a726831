"""What follows from a plan: its network, its milestones, how far it is done."""
