// Books an invented vehicle: estimate, vehicle, job, bay time, calendar, and the events that come back.
//
//   npm run book -- http://127.0.0.1:7070
//   npm run book -- http://127.0.0.1:7070 --refuse    what a wrong form gets
//   npm run book -- --receive PORT SECRET             only take events
//
// The service must keep jobs: glossladder serve --data FILE.

import { randomUUID } from "node:crypto";
import { type BayBlock, Client, type Estimate, type Job, type Money, Refused, type VehicleRecord } from "./glossladder.js";
import { Receiver } from "./receiver.js";
import type { Event } from "./webhook.js";

const vehicle = { size: "VEHICLE_SIZE_MEDIUM", kept: "VEHICLE_KEPT_OUTSIDE", paint: { shade: "SHADE_DARK", age_years: 6 } };
const blocks: BayBlock[] = [
  { what: "wash and trial", start_time: "2027-03-02T08:00:00Z", end_time: "2027-03-02T11:00:00Z" },
  { what: "polish", start_time: "2027-03-02T12:00:00Z", end_time: "2027-03-02T16:00:00Z" },
];

async function main(words: string[]): Promise<number> {
  if (words[0] === "--receive" && words.length === 3) return receive(Number(words[1]), words[2] as string);
  const [base, ...rest] = words;
  if (base === undefined || base.startsWith("-")) {
    console.error("usage: book URL [--refuse]\n       book --receive PORT SECRET");
    return 2;
  }
  const service = new Client(base);
  try {
    if (rest.includes("--refuse")) {
      await service.post("/v1:estimateJob", { inspection: { panels: [{ id: "Front Door", panel_c: 300 }] } });
    } else {
      await book(service);
    }
  } catch (error) {
    if (!(error instanceof Refused)) throw error;
    console.error(`refused with ${error.status}: ${error.message}`);
    for (const [field, says] of error.violations) console.error(`  ${field}: ${says}`);
    return 1;
  }
  return 0;
}

async function book(service: Client): Promise<void> {
  // Before anybody has seen the vehicle: an honest range for the offer.
  const { estimate } = await service.post<{ estimate: Estimate }>("/v1:estimateJob", { vehicle, goal: { level: "GOAL_LEVEL_ENHANCE" } });
  const { work_min: work, total } = estimate;
  console.log(
    `estimate: ${hours(work.low)} to ${hours(work.high)} h, likely ${hours(work.likely)} h; ` +
      `${amount(total.low)} to ${amount(total.high)} ${total.likely.currency_code}`,
  );

  // Whoever wants to hear of jobs says so once. The secret is told here and never again: keep it like a password.
  const events = new Inbox();
  const receiver = new Receiver((event) => events.put(event));
  const url = await receiver.start();
  const made = await service.post<{ webhook: { name: string }; secret: string }>("/v1/webhooks", { url, allow_private: true });
  receiver.secrets.push(made.secret);
  console.log(`webhook: ${made.webhook.name}`);

  // Request ids make the calls safe to send again when an answer is lost.
  const record: VehicleRecord = { label: "invented dark estate", size: vehicle.size, built_year: 2021 };
  const kept = await service.create<VehicleRecord>("/v1/vehicles", record, randomUUID());
  const booking = randomUUID();
  const job: Job = { vehicle: kept.name ?? "", label: "spring visit", book_time: "2027-03-02T08:00:00Z" };
  const first = await service.create<Job>("/v1/jobs", job, booking);
  const again = await service.create<Job>("/v1/jobs", job, booking);
  console.log(`job: ${first.name} for ${kept.name}; sent again, the same: ${first.name === again.name}`);

  await bookBay(service, first.name ?? "", "bay-1", blocks);
  const { ics } = await service.get<{ ics: string }>(`/v1/${first.name}/calendar`);
  console.log(`calendar: ${ics.split("BEGIN:VEVENT").length - 1} entries`);

  for (let i = 0; i < 2; i++) {
    const event = await events.next();
    console.log(`event: ${event.type} ${event.subject} ${event.data?.stage}`);
  }
  receiver.stop();
}

/** Books the first day on which no other job has the bay. Who asks first gets it, however many ask at once. */
async function bookBay(service: Client, job: string, bay: string, wanted: BayBlock[]): Promise<void> {
  for (let later = 0; later < 60; later++) {
    const moved = wanted.map((b) => ({ ...b, start_time: onDay(b.start_time, later), end_time: onDay(b.end_time, later) }));
    try {
      await service.post(`/v1/${job}:bookBay`, { entry: { request_id: randomUUID() }, bay, blocks: { blocks: moved } });
      return;
    } catch (error) {
      if (!(error instanceof Refused) || error.reason !== "BAY_TAKEN") throw error;
      console.log(`taken: ${error.about.bay} by ${error.about.job} until ${error.about.end_time}; asking for the day after`);
    }
  }
  throw new Error(`${bay} is taken for two months`);
}

function onDay(time: string, later: number): string {
  const day = new Date(time);
  day.setUTCDate(day.getUTCDate() + later);
  return day.toISOString();
}

/** Events that arrived and were not read yet. */
class Inbox {
  private readonly waiting: Event[] = [];
  private wake: () => void = () => {};

  put(event: Event): void {
    this.waiting.push(event);
    this.wake();
  }

  async next(): Promise<Event> {
    while (this.waiting.length === 0) {
      await new Promise<void>((wake) => {
        this.wake = wake;
      });
    }
    return this.waiting.shift() as Event;
  }
}

function hours(minutes: number): string {
  return (minutes / 60).toFixed(1);
}

/** Exact: units and billionths, never a float. */
function amount(money: Money): string {
  return `${money.units}.${String(Math.floor(money.nanos / 10_000_000)).padStart(2, "0")}`;
}

async function receive(port: number, secret: string): Promise<number> {
  const receiver = new Receiver((event) => console.log(`event: ${event.type} ${event.subject ?? ""}`));
  receiver.secrets.push(secret);
  console.log(`taking events at ${await receiver.start(port)}`);
  await new Promise((done) => process.once("SIGTERM", done).once("SIGINT", done));
  receiver.stop();
  return 0;
}

process.exitCode = await main(process.argv.slice(2));
