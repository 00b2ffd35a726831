"""What is in the freezer, and on which evenings it is eaten.

Everything that happens is an entry in a dated journal; the stock is what the journal adds up to.
Only ``store.py`` opens the file that holds it.
"""
