"""In the place of the standard library's, on the phone: a browser has no sockets. What is named when a module is read,
but never used."""

AF_UNSPEC = AI_PASSIVE = 0
