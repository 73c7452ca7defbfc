"""In the place of the standard library's, on the phone: a browser starts no processes. What is named when a module is
read, but never used."""

PIPE = STDOUT = DEVNULL = None
