"""In the place of the standard library's, on the phone: packages ask here for their own version, to show it, and take no
for an answer. The whole of it would bring the e-mail package along, a tenth of a megabyte."""


class PackageNotFoundError(ModuleNotFoundError):
    pass


def version(name):
    raise PackageNotFoundError(name)
