"""In the place of the package of this name, on the phone: pint imports it for a folder to cache in, which is not asked for."""


def user_cache_path(*_, **__):
    raise OSError("there is no folder to cache in")
