// Streams of the Connect protocol carry each message in an envelope: a byte of flags, the length in four bytes, the highest first,
// and the message.
export const packed = 0b01; // the message is compressed; this page never asks for that
export const last = 0b10; // not a message: how the stream ended

export type Envelope = { flags: number; text: string };

const head = 5;

// enclose puts a question into an envelope.
export function enclose(text: string): Uint8Array<ArrayBuffer> {
  const body = new TextEncoder().encode(text);
  const out = new Uint8Array(head + body.length);
  new DataView(out.buffer).setUint32(1, body.length);
  out.set(body, head);
  return out;
}

// Opener takes the pieces of a stream as the network cuts them, and gives the envelopes that are whole.
export class Opener {
  private held = new Uint8Array(0);

  take(piece: Uint8Array): Envelope[] {
    const all = new Uint8Array(this.held.length + piece.length);
    all.set(this.held);
    all.set(piece, this.held.length);
    const look = new DataView(all.buffer);
    const out: Envelope[] = [];
    let at = 0;
    while (all.length - at >= head) {
      const end = at + head + look.getUint32(at + 1);
      if (end > all.length) break;
      out.push({ flags: look.getUint8(at), text: new TextDecoder().decode(all.subarray(at + head, end)) });
      at = end;
    }
    this.held = all.slice(at);
    return out;
  }

  // torn says that a stream ended within an envelope.
  get torn(): boolean {
    return this.held.length > 0;
  }
}
