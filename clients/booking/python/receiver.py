"""Takes events of the service, each once, after proving its signature."""

import http.server
import threading

import webhook

LARGEST = 1 << 20


class Receiver:
    """An HTTP server on this machine. Secrets may be added while it runs; events are handed to `take` one by one."""

    def __init__(self, take, port=0):
        self.secrets = []
        self.seen = set()  # a real system keeps these with its own data, in the same transaction as what it does
        self.take = take
        receiver = self

        class Handler(http.server.BaseHTTPRequestHandler):
            def do_POST(self):
                status = receiver.receive(self)
                self.send_response(status)
                self.send_header("Content-Length", "0")
                self.end_headers()

            def log_message(self, *_):
                pass

        self.server = http.server.ThreadingHTTPServer(("127.0.0.1", port), Handler)
        self.lock = threading.Lock()

    @property
    def url(self):
        return f"http://127.0.0.1:{self.server.server_port}/events"

    def receive(self, request):
        try:
            length = int(request.headers.get("Content-Length", ""))
        except ValueError:
            return 411
        if not 0 <= length <= LARGEST:
            return 413
        body = request.rfile.read(length)
        try:
            event = webhook.verify(self.secrets, request.headers, body)
        except webhook.NotProven:
            return 401
        with self.lock:  # events of one job are to be taken in order
            message_id = request.headers["webhook-id"]
            if message_id not in self.seen:  # the service may send one twice, never a wrong one
                self.take(event)
                self.seen.add(message_id)
        return 204

    def start(self):
        threading.Thread(target=self.server.serve_forever, daemon=True).start()
        return self

    def stop(self):
        self.server.shutdown()
        self.server.server_close()
