"""Tables of facts, each with its source."""
