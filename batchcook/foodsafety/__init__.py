"""Every published limit that the program keeps to, each with its source.

The only part of the program that knows such a limit. It knows nothing of recipes, plans or
schedules: values go in, limits and complaints come out.
"""
