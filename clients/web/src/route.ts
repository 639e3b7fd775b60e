import { Store, useStore } from "./device/store";

// Places are told in the part of the address behind the "#", which never leaves the device.
const here = () => readable(location.hash.replace(/^#\/?/, ""));

function readable(address: string): string {
  try {
    return decodeURI(address);
  } catch {
    return address; // somebody typed it
  }
}

export const place = new Store(here());

addEventListener("hashchange", () => {
  place.set(here());
  scrollTo(0, 0);
});

export const usePlace = (): string[] => useStore(place).split("/").filter(Boolean);
export const to = (...parts: string[]): string => `#/${parts.map(encodeURIComponent).join("/")}`;
export const go = (...parts: string[]): void => {
  location.hash = to(...parts);
};
export const partOf = (name: string): string => name.slice(name.indexOf("/") + 1); // "jobs/x" → "x"
