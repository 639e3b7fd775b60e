import type { ComponentChildren, FunctionComponent } from "preact";
import { useLayoutEffect, useState } from "preact/hooks";
import { phrase } from "../words/phrase";

type Loaded<P> = { Screen: FunctionComponent<P> };

// later makes a screen that is loaded when somebody opens it. It is on the device with the rest of the page, network or not.
export function later<P extends object>(load: () => Promise<FunctionComponent<P>>): FunctionComponent<P> {
  let ready: Loaded<P> | undefined;
  return function Later(given: P): ComponentChildren {
    const [loaded, set] = useState(ready);
    const [lost, lose] = useState(false);
    useLayoutEffect(() => {
      if (loaded) return;
      load().then(
        (Screen) => {
          ready = { Screen };
          set(ready);
        },
        () => lose(true),
      );
    }, []);
    if (loaded) return <loaded.Screen {...given} />;
    if (lost) return <p role="alert">{phrase("This screen is not on the device yet, and there is no network to fetch it.")}</p>;
    return <p role="status">{phrase("Loading …")}</p>;
  };
}
