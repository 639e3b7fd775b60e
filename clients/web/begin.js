// This runs before the page is seen. It puts in the frame of the screen that was asked for, in the right language: the one chosen on
// this device, or else the first of the device's own languages that the page speaks. And it asks for the files which that screen needs
// beyond the page, so that they come while the script is still being read.
{
  const frames = "FRAMES";
  const files = "FILES";
  let kept = null;
  try {
    kept = localStorage.getItem("language");
  } catch {
    // a browser that keeps nothing goes by its languages
  }
  const spoken = [kept, ...navigator.languages].map((tag) => tag?.split(/[-_]/)[0].toLowerCase()).find((tag) => Object.hasOwn(frames, tag));
  const language = spoken ?? "en";
  const [screen] = location.hash.replace(/^#\/?/, "").split("/");
  const frame = Object.hasOwn(frames[language], screen) ? screen : "";
  document.documentElement.lang = language;
  // It is written where the reading stands, so that nothing empty is drawn before.
  document.write(`<div id="page">${frames[language][frame]}</div>`);
  document.getElementById("page").dataset.frame = `${language}/${screen}`;
  for (const file of new Set([...(files[language] ?? []), ...(files[frame] ?? [])])) {
    const kind = file.endsWith(".css") ? { rel: "preload", as: "style", crossOrigin: "" } : { rel: "modulepreload" };
    document.head.append(Object.assign(document.createElement("link"), kind, { href: file }));
  }
  // Until the script has come there is nobody who could take what a form holds.
  window.onsubmit = (event) => {
    event.preventDefault();
    event.target.dataset.sent = "";
  };
}
