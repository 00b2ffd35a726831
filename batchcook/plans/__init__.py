"""The parts of a plan, and what follows from one."""
