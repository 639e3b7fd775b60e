// What a technician does on the page, step by step.

import { until } from "./house.mjs";

export const pick = (page, group, choice) => page.getByRole("group", { name: group, exact: true }).first().getByLabel(choice, { exact: true }).check();

// newJob books a vehicle in and ends at the drawing of its panels.
export async function newJob(page, url, name) {
  await page.goto(url);
  await page.getByRole("link", { name: "New job" }).click();
  await page.getByLabel("Name of the vehicle").fill(name);
  await pick(page, "Size", "medium");
  await pick(page, "Paint system", "clear coat");
  await pick(page, "Softness", "medium");
  await pick(page, "Shade", "dark");
  await pick(page, "What the owner wants", "enhance");
  await page.getByRole("button", { name: "Begin the inspection" }).click();
  await page.getByRole("heading", { name: "Panels" }).waitFor();
}

// grade enters one kind of mark.
export async function grade(page, kind, severity) {
  await page.getByRole("button", { name: kind, exact: true }).click();
  const label = kind[0].toUpperCase() + kind.slice(1);
  for (let i = 0; i < severity * 2; i++) await page.getByRole("button", { name: `${label}: 0.5 more` }).click();
  await page.getByText(`${severity} of 5`).first().waitFor();
}

// type presses the keys of the keypad.
export async function type(page, value) {
  for (const k of String(value)) await page.getByRole("button", { name: k === "." ? "Decimal point" : k, exact: true }).click();
}

// readings enters readings spot by spot on the keypad that is open, with the keys a thumb would use.
export async function readings(page, bySpot) {
  const spots = Object.entries(bySpot);
  for (const [i, [spot, values]] of spots.entries()) {
    const choice = page.getByRole("radio", { name: new RegExp(`${spot} · `) });
    await choice.check();
    const there = Number((await page.locator("label.chip", { has: choice }).innerText()).split("·")[1]);
    for (const value of values) {
      await type(page, value);
      await page.getByRole("button", { name: "Take", exact: true }).click();
    }
    await page.getByText(new RegExp(`· ${there + values.length} of 3`)).waitFor();
    if (i < spots.length - 1) await page.locator(".onward").click();
  }
}

// waitSent waits until nothing waits on the device.
export async function waitSent(page) {
  const left = () =>
    page.evaluate(
      () =>
        new Promise((resolve) => {
          const opening = indexedDB.open("glossladder");
          opening.onsuccess = () => {
            const counting = opening.result.transaction("waiting").objectStore("waiting").count();
            counting.onsuccess = () => (opening.result.close(), resolve(counting.result));
          };
        }),
    );
  await until(async () => (await left()) === 0, "all is sent");
  await page.locator(".reach a").waitFor({ state: "detached" });
}

// minutesOf reads the likely minutes of a span as the page tells it: "1 h 35 min (1 h 10 min to 2 h)".
export const minutesOf = (text) => Number(/(\d+)\sh/.exec(text)?.[1] ?? 0) * 60 + Number(/(\d+)\smin/.exec(text)?.[1] ?? 0);
