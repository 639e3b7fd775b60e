// A page worked by its keys alone.
import assert from "node:assert/strict";
import { until } from "./house.mjs";

// here says what has the focus, by the name that is read out, and whether it can be seen to have it.
export const here = (page) =>
  page.evaluate(() => {
    const e = document.activeElement;
    const label = e.labels?.[0]?.textContent ?? e.closest("fieldset")?.querySelector("legend")?.textContent ?? "";
    const group = e.type === "radio" ? (e.closest("fieldset")?.querySelector("legend")?.textContent ?? "") : "";
    const shown = [e, e.nextElementSibling, e.querySelector("path")].filter(Boolean).some((x) => {
      const s = getComputedStyle(x);
      return (s.outlineStyle !== "none" && parseFloat(s.outlineWidth) >= 2) || parseFloat(s.strokeWidth) >= 6;
    });
    return { name: (group || e.getAttribute("aria-label") || label || e.textContent || "").trim(), tag: e.tagName.toLowerCase(), shown };
  });

// kept holds that the focus is somewhere: what had it may have gone, and then something near it takes it.
export const kept = (page) => until(async () => (await here(page)).tag !== "body", "something has the focus");

// reach tabs forward until something of that name has the focus.
export async function reach(page, name) {
  await kept(page);
  const passed = [];
  for (let i = 0; i < 140; i++) {
    await page.keyboard.press("Tab");
    const at = await here(page);
    passed.push(at.name.slice(0, 40));
    if (!name.test(at.name) || at.name.length > 200) continue;
    assert.ok(at.shown, `the focus on "${at.name}" cannot be seen`);
    return at;
  }
  throw new Error(`Tab never comes to ${name}: ${passed.join(" | ")}`);
}

export async function enter(page, name, key = "Enter") {
  await reach(page, name);
  await page.keyboard.press(key);
}

// pick chooses among radio buttons: from the first of them so many steps on.
export async function pick(page, group, steps) {
  await reach(page, group);
  await page.keyboard.press("Home");
  for (let i = 0; i < 12 && (await page.evaluate(() => document.activeElement.closest("fieldset").querySelector("input") !== document.activeElement)); i++)
    await page.keyboard.press("ArrowLeft");
  for (let i = 0; i < steps; i++) await page.keyboard.press("ArrowRight");
  assert.ok(await page.evaluate(() => document.activeElement.checked || (document.activeElement.click(), document.activeElement.checked)));
}

// everyStop tabs through a screen from its start to its end and holds that each control has its turn once, in the order in which
// they stand on it, seen to have the focus, and that nothing keeps the key.
export async function everyStop(page, what) {
  await page.evaluate(() => {
    for (const e of document.querySelectorAll("[data-turn]")) e.removeAttribute("data-turn");
    document.activeElement.blur?.();
    document.querySelector(".skip").focus();
  });
  for (let turn = 0; ; turn++) {
    assert.ok(turn < 600, `${what}: the key never comes to the end`);
    const at = await page.evaluate((n) => {
      const e = document.activeElement;
      const again = e.type === "datetime-local" ? null : e.getAttribute("data-turn"); // day and time have a turn each
      e.setAttribute("data-turn", String(n));
      return { again: again !== null, last: e.id === "language" };
    }, turn);
    const { name, shown } = await here(page);
    assert.ok(!at.again, `${what}: "${name}" has its turn twice`);
    assert.ok(shown, `${what}: the focus on "${name.slice(0, 60)}" cannot be seen`);
    if (at.last) break;
    await page.keyboard.press("Tab");
  }
  const missed = await page.evaluate(() => {
    const all = [...document.querySelectorAll("a[href], button, input, select, textarea, summary, [tabindex='0']")];
    return all
      .filter((e) => e.checkVisibility() && !e.disabled && e.tabIndex >= 0 && !e.hasAttribute("data-turn"))
      .filter((e) => e.type !== "radio" || !document.querySelector(`input[name="${CSS.escape(e.name)}"][data-turn]`))
      .map((e) => e.outerHTML.slice(0, 120));
  });
  assert.deepEqual(missed, [], `${what}: never has the focus`);
}
