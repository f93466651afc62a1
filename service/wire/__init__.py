"""What every message is made of. A subject's own messages stand in its ``wire``; nothing else crosses.

Commands go up over HTTP, changes come down over Socket.IO. The TypeScript types in
``display/src/wire.gen.ts`` and the OpenAPI document are both generated from the messages of all subjects.
Times are milliseconds since 1970 UTC on the service's clock; money is integer minor units.
"""

from __future__ import annotations

from service.wire.base import Asked, Id, Millis, Minor, Wire
from service.wire.problem import FieldFault, Problem

__all__ = ["Asked", "FieldFault", "Id", "Millis", "Minor", "Problem", "Wire"]
