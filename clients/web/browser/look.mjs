// What every screen must keep, by day and by night, on a phone, a tablet and a desk.
import assert from "node:assert/strict";
import { mkdirSync } from "node:fs";
import { sideways, tooSmall, violations } from "./house.mjs";

const shots = process.env.SHOTS; // a folder to put pictures in, for whoever wants to look
const sizes = [
  [390, 844],
  [820, 1180],
  [1440, 900],
];

// look holds a screen to the rules that axe knows and to the sizes of thumb and screen.
export async function look(page, name) {
  if (shots) mkdirSync(shots, { recursive: true });
  for (const scheme of ["light", "dark"]) {
    await page.emulateMedia({ colorScheme: scheme, reducedMotion: "reduce" });
    assert.deepEqual(await violations(page), [], `${name}, ${scheme}`);
    for (const [width, height] of shots ? sizes : []) {
      await page.setViewportSize({ width, height });
      await page.waitForTimeout(80);
      await page.screenshot({ path: `${shots}/${name}-${width}-${scheme}.png`, fullPage: true });
    }
    await page.setViewportSize({ width: 390, height: 844 });
  }
  await page.emulateMedia({ colorScheme: "light" });
  assert.deepEqual(await tooSmall(page), [], `${name}: smaller than a thumb`);
  assert.equal(await sideways(page), 0, `${name}: wider than the screen`);
}
