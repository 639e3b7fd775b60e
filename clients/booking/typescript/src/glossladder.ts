// Calls Glossladder's JSON API with what Node has. The types are the parts of /openapi.json that booking needs; fields are named
// as they are there, and numbers of 64 bits are text.

export interface Span {
  low: number;
  likely: number;
  high: number;
}

export interface Money {
  currency_code: string;
  units: string;
  nanos: number;
}

export interface Estimate {
  work_min: Span;
  total: { low: Money; likely: Money; high: Money };
}

export interface VehicleRecord {
  name?: string;
  label: string;
  size?: string;
  built_year?: number;
}

export interface Job {
  name?: string;
  vehicle: string;
  label?: string;
  book_time?: string;
  stage?: string;
}

export interface BayBlock {
  what: string;
  start_time: string;
  end_time: string;
}

interface Status {
  message?: string;
  details?: { field_violations?: { field: string; description: string }[]; reason?: string; metadata?: Record<string, string> }[];
}

/**
 * The service did not do it. `violations` says which field is wrong and why, for whoever filled in the form; `reason` is a word for
 * programs, such as BAY_TAKEN, and `about` what it is about.
 */
export class Refused extends Error {
  readonly status: number;
  readonly violations: Map<string, string>;
  readonly reason: string;
  readonly about: Record<string, string>;

  constructor(status: number, told: Status) {
    super(told.message ?? `HTTP ${status}`);
    this.status = status;
    this.violations = new Map(
      (told.details ?? []).flatMap((detail) => detail.field_violations ?? []).map((v) => [v.field, v.description]),
    );
    const info = (told.details ?? []).find((detail) => detail.reason !== undefined);
    this.reason = info?.reason ?? "";
    this.about = info?.metadata ?? {};
  }
}

/** A call. With `repeats` it may be sent again: it reads, or it brings a request id, by which it is done once. */
interface Call {
  body?: unknown;
  query?: Record<string, string>;
  repeats?: boolean;
}

export class Client {
  private readonly base: string;
  private readonly attempts: number;
  private readonly waitMs: number;

  constructor(base: string, attempts = 4, waitMs = 500) {
    this.base = base.replace(/\/+$/, "");
    this.attempts = attempts;
    this.waitMs = waitMs;
  }

  get<T>(path: string): Promise<T> {
    return this.send<T>("GET", path, { repeats: true });
  }

  /** Sends something that changes nothing, or that may be done twice only by mistake. */
  post<T>(path: string, body: unknown): Promise<T> {
    return this.send<T>("POST", path, { body });
  }

  /** Makes something once, however often it has to be sent. */
  create<T>(path: string, body: unknown, requestId: string): Promise<T> {
    return this.send<T>("POST", path, { body, query: { request_id: requestId }, repeats: true });
  }

  private async send<T>(method: string, path: string, call: Call): Promise<T> {
    const url = new URL(this.base + path);
    for (const [name, value] of Object.entries(call.query ?? {})) url.searchParams.set(name, value);
    for (let attempt = 1; ; attempt++) {
      try {
        return await once<T>(url, method, call.body);
      } catch (error) {
        const away = !(error instanceof Refused) || error.status === 503;
        if (!away || !call.repeats || attempt === this.attempts) throw error;
      }
      await new Promise((done) => setTimeout(done, this.waitMs * 2 ** (attempt - 1)));
    }
  }
}

async function once<T>(url: URL, method: string, body: unknown): Promise<T> {
  const request: RequestInit = { method, signal: AbortSignal.timeout(30_000) };
  if (body !== undefined) {
    request.body = JSON.stringify(body);
    request.headers = { "Content-Type": "application/json" };
  }
  const answer = await fetch(url, request);
  if (!answer.ok) throw new Refused(answer.status, (await answer.json().catch(() => ({}))) as Status);
  return (await answer.json()) as T;
}
