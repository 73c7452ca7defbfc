"""The plan of the days ahead: read, stepped through, and put into words. Its door is `calc/day.py`."""
