"""Books an invented vehicle: estimate, vehicle, job, bay time, calendar, and the events that come back.

    python3 book.py http://127.0.0.1:7070
    python3 book.py http://127.0.0.1:7070 --refuse    # what a wrong form gets
    python3 book.py --receive PORT SECRET             # only take events

The service must keep jobs: glossladder serve --data FILE.
"""

import queue
import sys
import uuid
from datetime import datetime, timedelta

from glossladder import Client, Refused
from receiver import Receiver

VEHICLE = {"size": "VEHICLE_SIZE_MEDIUM", "kept": "VEHICLE_KEPT_OUTSIDE", "paint": {"shade": "SHADE_DARK", "age_years": 6}}
BLOCKS = [
    {"what": "wash and trial", "start_time": "2027-03-02T08:00:00+00:00", "end_time": "2027-03-02T11:00:00+00:00"},
    {"what": "polish", "start_time": "2027-03-02T12:00:00+00:00", "end_time": "2027-03-02T16:00:00+00:00"},
]


def main(arguments):
    if len(arguments) == 3 and arguments[0] == "--receive":
        return receive(int(arguments[1]), arguments[2])
    if not arguments or arguments[0].startswith("-"):
        print(__doc__.strip(), file=sys.stderr)
        return 2
    service = Client(arguments[0])
    try:
        if "--refuse" in arguments:
            service.post("/v1:estimateJob", {"inspection": {"panels": [{"id": "Front Door", "panel_c": 300}]}})
        else:
            book(service)
    except Refused as refused:
        print(f"refused with {refused.status}: {refused}", file=sys.stderr)
        for field, says in refused.violations.items():
            print(f"  {field}: {says}", file=sys.stderr)
        return 1
    return 0


def book(service):
    # Before anybody has seen the vehicle: an honest range for the offer.
    estimate = service.post("/v1:estimateJob", {"vehicle": VEHICLE, "goal": {"level": "GOAL_LEVEL_ENHANCE"}})["estimate"]
    work, total = estimate["work_min"], estimate["total"]
    print(f"estimate: {work['low'] / 60:.1f} to {work['high'] / 60:.1f} h, likely {work['likely'] / 60:.1f} h; "
          f"{amount(total['low'])} to {amount(total['high'])} {total['likely']['currency_code']}")

    # Whoever wants to hear of jobs says so once. The secret is told here and never again: keep it like a password.
    events = queue.Queue()
    receiver = Receiver(events.put).start()
    made = service.post("/v1/webhooks", {"url": receiver.url, "allow_private": True})
    receiver.secrets.append(made["secret"])
    print(f"webhook: {made['webhook']['name']}")

    # Request ids make the calls safe to send again when an answer is lost.
    vehicle = service.post("/v1/vehicles", {"label": "invented dark estate", "size": VEHICLE["size"], "built_year": 2021}, request_id=str(uuid.uuid4()))
    booking = str(uuid.uuid4())
    job = {"vehicle": vehicle["name"], "label": "spring visit", "book_time": "2027-03-02T08:00:00Z"}
    first = service.post("/v1/jobs", job, request_id=booking)
    again = service.post("/v1/jobs", job, request_id=booking)
    print(f"job: {first['name']} for {vehicle['name']}; sent again, the same: {first['name'] == again['name']}")

    book_bay(service, first["name"], "bay-2", BLOCKS)
    calendar = service.get(f"/v1/{first['name']}/calendar")["ics"]
    print(f"calendar: {calendar.count('BEGIN:VEVENT')} entries")

    for _ in range(2):
        event = events.get(timeout=60)
        print(f"event: {event['type']} {event['subject']} {event['data']['stage']}")
    receiver.stop()


def book_bay(service, job, bay, blocks):
    """Books the first day on which no other job has the bay. Who asks first gets it, however many ask at once."""
    for later in range(60):
        moved = [{**block, **{end: on_day(block[end], later) for end in ("start_time", "end_time")}} for block in blocks]
        try:
            return service.post(f"/v1/{job}:bookBay", {"entry": {"request_id": str(uuid.uuid4())}, "bay": bay, "blocks": {"blocks": moved}})
        except Refused as refused:
            if refused.reason != "BAY_TAKEN":
                raise
            print(f"taken: {refused.about['bay']} by {refused.about['job']} until {refused.about['end_time']}; asking for the day after")
    raise SystemExit(f"{bay} is taken for two months")


def on_day(time, later):
    return (datetime.fromisoformat(time) + timedelta(days=later)).isoformat()


def amount(money):
    """Exact: units and billionths, never a float."""
    return f"{money['units']}.{money['nanos'] // 10_000_000:02d}"


def receive(port, secret):
    receiver = Receiver(lambda event: print(f"event: {event['type']} {event.get('subject', '')}", flush=True), port)
    receiver.secrets.append(secret)
    print(f"taking events at {receiver.url}", flush=True)
    try:
        receiver.server.serve_forever()
    except KeyboardInterrupt:
        pass
    return 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
