"""The door: parse, call one function, print."""
