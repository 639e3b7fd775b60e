// Figures, days and money are written as the Unicode CLDR has them, which ECMA-402 (Intl) brings; also where the page writes them without it.
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

const locales = ["en", "en-GB", "en-US", "en-IN", "de", "de-DE", "de-AT", "de-CH"];
for (const to of locales)
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

// Every month, its first days and its last, where the device is at home; and close to midnight.
const days = Array.from({ length: 366 }, (_, i) => new Date(2027, 11, 31 - i, (i * 7) % 24, 59, 59).toISOString());

for (const to of locales)
  test(`days in ${to}`, () => {
    device = to;
    words.language.set(to.slice(0, 2));
    const cldr = new Intl.DateTimeFormat(to, { dateStyle: "medium" });
    for (const time of days) assert.equal(words.day(time), cldr.format(new Date(time)), time);
    assert.equal(words.day(undefined), "");
  });

// Units, and billionths of one: as google.type.Money says it.
const amounts = [["0"], ["0", 5_000_000], ["0", 4_999_999], ["0", 994_999_999], ["0", 995_000_000], ["1", 5e8], ["999", 99e7], ["1000"], ["8150", 1e7]];
const large = [["12345", 678_500_000], ["999999", 999_000_000], ["1234567"], ["123456789012", 5e8], ["-3", -25e7], ["0", -25e7], [undefined, 5e8]];

for (const to of locales)
  test(`money in ${to}`, () => {
    device = to;
    words.language.set(to.slice(0, 2));
    for (const currency_code of ["EUR", "GBP", "USD", "CHF", "JPY"]) {
      const cldr = new Intl.NumberFormat(to, { style: "currency", currency: currency_code });
      for (const [units, nanos = 0] of [...amounts, ...large]) {
        const sign = nanos < 0 && !units?.startsWith("-") ? "-" : "";
        const amount = { ...(units ? { units } : {}), ...(nanos ? { nanos } : {}), currency_code };
        const digits = `${sign}${units ?? "0"}.${String(Math.abs(nanos)).padStart(9, "0")}`;
        assert.equal(words.money(amount), cldr.format(digits), `${digits} ${currency_code}`);
      }
    }
    assert.equal(words.money(undefined), "");
  });
