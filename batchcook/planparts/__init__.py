"""Parts of a plan that are told by themselves: its figures, what was packed, what changed."""
