"""In the place of the standard library's, on the phone: what an event loop of the browser's own needs. Sockets, streams
and processes are left out, of which a browser has none."""

from .coroutines import *  # noqa: F403
from .events import *  # noqa: F403
from .events import _AbstractEventLoopPolicy as DefaultEventLoopPolicy  # noqa: F401
from .events import _get_running_loop, _set_running_loop  # noqa: F401
from .exceptions import *  # noqa: F403
from .futures import *  # noqa: F403
from .locks import *  # noqa: F403
from .queues import *  # noqa: F403
from .runners import *  # noqa: F403
from .tasks import *  # noqa: F403
from .timeouts import *  # noqa: F403
