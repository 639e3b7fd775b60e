// Figures are written as the Unicode CLDR has them, which ECMA-402 (Intl) brings; also where the page writes them without it.
import assert from "node:assert/strict";
import { before, test } from "node:test";
import { runnerImport } from "vite";

let words, device;
before(async () => {
  Object.defineProperty(globalThis, "navigator", {
    value: {
      get languages() {
        return [device];
      },
    },
    configurable: true,
  });
  words = (await runnerImport("./browser/figures.ts", { logLevel: "error" })).module;
});

// The edges of rounding and of what is written without Intl, and a spread of others.
const edges = [
  0, -0, 0.04, -0.04, 0.05, 0.25, 0.35, 1, 1.5, 2.675, -3.25, 10, 100, 99.95, 999.95, 1000, 9998.96, 9999, 9999.04, 9999.95, 10_000, -12_345.6, 1e6,
];
const others = Array.from({ length: 400 }, (_, i) => Math.sin(i) * 10 ** (i % 7));
const cldr = (to, digits) => new Intl.NumberFormat(to, { maximumFractionDigits: digits, useGrouping: "min2" });

for (const to of ["en", "en-GB", "en-US", "en-IN", "de", "de-DE", "de-AT", "de-CH"])
  test(`figures in ${to}`, () => {
    device = to;
    words.language.set(to.slice(0, 2));
    assert.equal(words.decimalMark(), cldr(to, 1).format(1.5).charAt(1));
    for (const digits of [0, 1, 2])
      for (const value of [...edges, ...others])
        assert.equal(
          words.figure(value, digits),
          cldr(to, digits)
            .format(Object.is(value, -0) ? 0 : value)
            .replace("-", "−"),
          `${value} to ${digits} digits`,
        );
  });
