// Takes events of the service, each once, after proving its signature.

import { createServer, type IncomingMessage, type Server } from "node:http";
import type { AddressInfo } from "node:net";
import { type Event, NotProven, verify } from "./webhook.js";

const largest = 1 << 20;

/** An HTTP server on this machine. Secrets may be added while it runs. */
export class Receiver {
  readonly secrets: string[] = [];
  // A real system keeps these with its own data, in the same transaction as what it does.
  private readonly seen = new Set<string>();
  private readonly server: Server;
  private readonly take: (event: Event) => void;

  constructor(take: (event: Event) => void) {
    this.take = take;
    this.server = createServer(async (request, response) => {
      response.statusCode = await this.receive(request).catch(() => 500);
      response.end();
    });
  }

  async start(port = 0): Promise<string> {
    await new Promise<void>((up) => this.server.listen(port, "127.0.0.1", up));
    return `http://127.0.0.1:${(this.server.address() as AddressInfo).port}/events`;
  }

  stop(): void {
    this.server.close();
    this.server.closeAllConnections();
  }

  private async receive(request: IncomingMessage): Promise<number> {
    if (request.method !== "POST") return 405;
    const body = await read(request);
    if (body === undefined) return 413;
    let event: Event;
    try {
      event = verify(this.secrets, request.headers, body);
    } catch (error) {
      if (error instanceof NotProven) return 401;
      throw error;
    }
    const id = request.headers["webhook-id"] as string;
    if (!this.seen.has(id)) {
      // The service may send one twice, never a wrong one.
      this.take(event);
      this.seen.add(id);
    }
    return 204;
  }
}

async function read(request: IncomingMessage): Promise<Buffer | undefined> {
  const parts: Buffer[] = [];
  let size = 0;
  for await (const part of request) {
    size += part.length;
    if (size > largest) return undefined;
    parts.push(part);
  }
  return Buffer.concat(parts);
}
