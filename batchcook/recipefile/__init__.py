"""Reading one recipe file: its shape, its amounts, its names, its steps, its sense."""
