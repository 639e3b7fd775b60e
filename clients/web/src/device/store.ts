import { useLayoutEffect, useState } from "preact/hooks";

// Store is a value that several parts of the page look at.
export class Store<T> {
  private readonly watchers = new Set<() => void>();
  constructor(private value: T) {}

  get now(): T {
    return this.value;
  }

  set(value: T): void {
    if (Object.is(value, this.value)) return;
    this.value = value;
    for (const watcher of [...this.watchers]) watcher();
  }

  watch(watcher: () => void): () => void {
    this.watchers.add(watcher);
    return () => this.watchers.delete(watcher);
  }
}

// useStore draws the part again when the store changes.
export function useStore<T>(store: Store<T>): T {
  const [, draw] = useState(0);
  useLayoutEffect(() => {
    const before = store.now;
    const stop = store.watch(() => draw((n) => n + 1));
    if (!Object.is(before, store.now)) draw((n) => n + 1);
    return stop;
  }, [store]);
  return store.now;
}
