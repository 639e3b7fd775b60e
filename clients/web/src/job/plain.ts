// plain leaves out what the service wrote only because a field has no "not there": "", and words that stand for nothing.
export function plain<T>(value: T): T {
  if (Array.isArray(value)) return value.map(plain) as T;
  if (value === null || typeof value !== "object") return value;
  const kept = Object.entries(value).filter(
    ([, v]) => v !== "" && v !== null && !(typeof v === "string" && v.endsWith("_UNSPECIFIED")) && !(Array.isArray(v) && v.length === 0),
  );
  return Object.fromEntries(kept.map(([k, v]) => [k, plain(v)])) as T;
}
