import type { Texts } from "../phrase";
import { advice } from "./advice";
import { classroom } from "./classroom";
import { house } from "./house";
import { inspection } from "./inspection";
import { record } from "./record";
import { rules } from "./rules";
import { trial } from "./trial";
import { words } from "./words";
import { work } from "./work";

// german is everything the page says in German. What rules, cautions and the service itself say is not ours: it stays as it is.
export const german: Texts = { phrases: { ...house, ...inspection, ...advice, ...trial, ...record, ...classroom, ...rules, ...work }, words };
