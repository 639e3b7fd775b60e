import { phrase } from "../words/phrase";

// What went wrong with one field of a request, by its path in the contract.
export type Violation = { field: string; description: string };

// Codes after which the same call may work later. Every other refusal is for a person to look at.
const passing = new Set(["unreached", "unauthenticated", "unavailable", "deadline_exceeded", "resource_exhausted", "internal", "unknown", "canceled"]);

// Failure is a call without an answer.
export class Failure extends Error {
  constructor(
    readonly code: string,
    message: string,
    readonly violations: Violation[],
    readonly detail?: unknown,
    readonly ours = false, // said by the page itself, in its language; whatever the service says is in English
  ) {
    super(message);
  }

  // passes says that waiting may help.
  get passes(): boolean {
    return passing.has(this.code);
  }

  static unreached(cause: unknown): Failure {
    return new Failure("unreached", phrase("The service cannot be reached."), [], cause, true);
  }

  static told(status: number, text: string): Failure {
    let said: { code?: unknown; message?: unknown; details?: { type?: string; debug?: { fieldViolations?: Violation[] } }[] } = {};
    try {
      said = JSON.parse(text) as typeof said;
    } catch {
      // a proxy in between writes pages of its own
    }
    const code = status === 401 ? "unauthenticated" : typeof said.code === "string" ? said.code : status >= 500 ? "unavailable" : "unknown_answer";
    const violations = (said.details ?? []).flatMap((d) => d.debug?.fieldViolations ?? []);
    const message = typeof said.message === "string" ? said.message : "";
    const plain = phrase("The service answered with status {status}.", { status: String(status) });
    return new Failure(code, message || plain, violations, (said.details ?? [])[0]?.debug, message === "");
  }
}

// toFailure makes one of whatever was thrown.
export function toFailure(thrown: unknown): Failure {
  return thrown instanceof Failure ? thrown : new Failure("page", thrown instanceof Error ? thrown.message : String(thrown), []);
}
