"""Calls Glossladder's JSON API with the standard library alone.

The paths and fields are those of the service's own /openapi.json.
"""

import json
import time
import urllib.error
import urllib.parse
import urllib.request


class Refused(Exception):
    """The service did not do it. `violations` says which field is wrong and why, for whoever filled in the form; `reason` is a word
    for programs, such as BAY_TAKEN, and `about` what it is about."""

    def __init__(self, status, body):
        super().__init__(body.get("message", f"HTTP {status}"))
        self.status = status
        self.violations = {
            violation["field"]: violation["description"]
            for detail in body.get("details", [])
            for violation in detail.get("field_violations", [])
        }
        info = next((detail for detail in body.get("details", []) if "reason" in detail), {})
        self.reason = info.get("reason", "")
        self.about = info.get("metadata", {})


class Client:
    """One service. `attempts` is how often a call is sent before a service that is away is given up."""

    def __init__(self, base, attempts=4, wait=0.5):
        self.base = base.rstrip("/")
        self.attempts = attempts
        self.wait = wait

    def get(self, path, **query):
        return self._call("GET", path, None, query)

    def post(self, path, body, **query):
        """Send a change. Give it a request_id, and it is done once however often it has to be sent."""
        return self._call("POST", path, body, query)

    def _call(self, method, path, body, query):
        url = self.base + path
        if query:
            url += "?" + urllib.parse.urlencode(query)
        repeats = method == "GET" or "request_id" in query or "request_id" in ((body or {}).get("entry") or {})
        for attempt in range(1, self.attempts + 1):
            try:
                return self._once(method, url, body)
            except Refused as refused:
                if refused.status != 503 or not repeats or attempt == self.attempts:
                    raise
            except urllib.error.URLError:
                if not repeats or attempt == self.attempts:
                    raise
            time.sleep(self.wait * 2 ** (attempt - 1))

    @staticmethod
    def _once(method, url, body):
        request = urllib.request.Request(url, method=method)
        if body is not None:
            request.data = json.dumps(body).encode()
            request.add_header("Content-Type", "application/json")
        try:
            with urllib.request.urlopen(request, timeout=30) as answer:
                return json.load(answer)
        except urllib.error.HTTPError as error:
            try:
                told = json.load(error)
            except ValueError:
                told = {}
            raise Refused(error.code, told) from None
