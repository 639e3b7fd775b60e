"""Proves that an event comes from the service: the Standard Webhooks signature scheme, version 1.

See https://www.standardwebhooks.com and RFC 2104 (HMAC).
"""

import base64
import hashlib
import hmac
import json
import time

TOLERANCE_S = 5 * 60
"""How far the sender's clock may be off. What is older may be an old message that somebody sends again."""


class NotProven(Exception):
    """The message may come from anybody: answer 401 and do nothing else."""


def verify(secrets, headers, body, now=None):
    """Return the event in `body`, bytes as they arrived, or raise NotProven.

    `secrets` are all that are good at the moment: two while a secret is being changed, so that no event is lost.
    """
    message_id = headers.get("webhook-id", "")
    stamp = headers.get("webhook-timestamp", "")
    if not message_id or not stamp.isascii() or not stamp.isdigit():
        raise NotProven("webhook-id or webhook-timestamp is missing")
    if abs((time.time() if now is None else now) - int(stamp)) > TOLERANCE_S:
        raise NotProven("the timestamp is too far from now")
    signed = f"{message_id}.{stamp}.".encode() + body
    for secret in secrets:
        key = base64.b64decode(secret.removeprefix("whsec_"), validate=True)
        want = base64.b64encode(hmac.new(key, signed, hashlib.sha256).digest())
        for given in headers.get("webhook-signature", "").split():
            version, _, signature = given.partition(",")
            if version == "v1" and hmac.compare_digest(signature.encode(), want):
                return json.loads(body)
    raise NotProven("no signature fits")
