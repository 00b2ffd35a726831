"""The day followed live in the terminal."""
