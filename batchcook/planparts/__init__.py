"""Parts of a plan that are told by themselves: what was packed, what changed; and their base."""
