import type { Span } from "../wire/contract";
import { besideUnit, duration, figure } from "./number";
import { phrase } from "./phrase";

// A figure that is not known exactly: the likely one, and in brackets from where to where it may lie.
const told = (s: Span | undefined, say: (v: number) => string): string => {
  if (!s) return "";
  const [low, likely, high] = [say(s.low ?? 0), say(s.likely ?? 0), say(s.high ?? 0)];
  return low === high ? likely : phrase("{likely} ({low} to {high})", { likely, low, high });
};

export const minutes = (s: Span | undefined): string => told(s, duration);
export const squareMetres = (s: Span | undefined): string => told(s, (v) => `${figure(v, 2)}${besideUnit}m²`);
export const microns = (s: Span | undefined): string => told(s, (v) => `${figure(v)}${besideUnit}µm`);
