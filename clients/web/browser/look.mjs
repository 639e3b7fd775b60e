// What every screen must keep, by day and by night, on a phone and on a desk.
import assert from "node:assert/strict";
import { mkdirSync } from "node:fs";
import { phone, sideways, tooSmall, violations, whole } from "./house.mjs";

const shots = process.env.SHOTS; // a folder to put pictures in, for whoever wants to look
const desk = { width: 1440, height: 900 };
const tablet = { width: 820, height: 1180 };
const sizes = { 390: phone, 820: tablet, 1440: desk };

// What axe looks at: each language, each size and each scheme once. With AXE=every each meets each other, which takes twice as long.
const byAxe =
  process.env.AXE === "every" ? { en: { 390: "light", 1440: "dark" }, de: { 390: "dark", 1440: "light" } } : { en: { 390: "light" }, de: { 1440: "dark" } };

export const scheme = (page, colorScheme) => page.emulateMedia({ colorScheme, reducedMotion: "reduce" });

// headings gives what a reader of headings stumbles over: none or many of the first level, and levels that are left out.
const headings = (page) =>
  page.evaluate(() => {
    const all = [...document.querySelectorAll("h1, h2, h3, h4, h5, h6")].filter((e) => e.checkVisibility());
    const first = all.filter((e) => e.tagName === "H1").length;
    const leap = all.filter((e, i) => i > 0 && Number(e.tagName[1]) > Number(all[i - 1].tagName[1]) + 1);
    return [...(first === 1 && all[0].tagName === "H1" ? [] : [`${first} of the first level`]), ...leap.map((e) => `${e.tagName} ${e.textContent}`)];
  });

async function picture(page, name, language) {
  mkdirSync(shots, { recursive: true });
  for (const [width, size] of Object.entries(sizes))
    for (const colour of ["light", "dark"]) {
      await page.setViewportSize(size);
      await scheme(page, colour);
      const height = await page.evaluate(() => document.documentElement.scrollHeight); // so that what sticks to the foot hides nothing
      await page.setViewportSize({ width: size.width, height: Math.max(size.height, height) });
      await page.screenshot({ path: `${shots}/${name}-${language}-${width}-${colour}.png` });
    }
}

// unfold shows what is folded away, so that it is looked at as well, and gives what has to be folded again.
const unfold = (page) =>
  page.evaluateHandle(() => {
    const folds = [...document.querySelectorAll("main details:not([open])")];
    for (const fold of folds) fold.open = true;
    return folds;
  });

// look holds a screen to the rules that axe knows, to the sizes of thumb and screen, and to the order of its headings.
export async function look(page, name, language = "en") {
  const before = page.viewportSize();
  await whole(page);
  if (shots) await picture(page, name, language);
  const folds = await unfold(page);
  for (const width of [390, 1440]) {
    const where = `${name}, ${language}, ${width}`;
    await page.setViewportSize(sizes[width]);
    const colour = byAxe[language][width];
    if (colour) {
      await scheme(page, colour);
      assert.deepEqual(await violations(page), [], `${where}, ${colour}`);
    }
    assert.deepEqual(await tooSmall(page), [], `${where}: smaller than a thumb`);
    assert.equal(await sideways(page), 0, `${where}: wider than the screen`);
    const stops = await page.evaluate(() => [...document.querySelectorAll(".stops:not(.scales)")].map((e) => e.scrollWidth - e.clientWidth));
    assert.ok(
      stops.every((more) => more <= 0),
      `${where}: stops of a job lie beside the screen, ${stops} px`,
    );
  }
  assert.deepEqual(await headings(page), [], `${name}, ${language}: headings`);
  await folds.evaluate((all) => {
    for (const fold of all) fold.open = false;
  });
  await page.setViewportSize(before);
  await scheme(page, "light");
}
