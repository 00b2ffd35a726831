"""What a recipe is, and how one is shown."""
