import type { Failure } from "../wire/failure";

// Held is bay time that another job has: which, from when to when, how many stretches more are in the way, and from when on the
// bay is free for what was asked.
export type Held = { bay: string; job: string; from: string; to: string; free: string; more: number };

// heldIn reads what the service tells of bay time that is taken; undefined for any other refusal.
export function heldIn(failure: Failure | undefined): Held | undefined {
  const why = failure?.detail as { reason?: string; metadata?: Record<string, string> } | undefined;
  if (why?.reason !== "BAY_TAKEN") return undefined;
  const { bay = "", job = "", start_time = "", end_time = "", free_time = "", in_the_way = "1" } = why.metadata ?? {};
  return { bay: lastOf(bay), job: lastOf(job), from: start_time, to: end_time, free: free_time, more: Number(in_the_way) - 1 };
}

const lastOf = (name: string): string => name.slice(name.lastIndexOf("/") + 1);
