"""What build.py needs to pack Python and the pages for a phone."""
