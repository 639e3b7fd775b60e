// This runs before the page is seen. It puts in the frame of the screen that was asked for, in the right language: the one chosen on
// this device, or else the first of the device's own languages that the page speaks.
{
  const frames = "FRAMES";
  const chosen = () => {
    try {
      return localStorage.getItem("language");
    } catch {
      return null; // a browser that keeps nothing goes by its languages
    }
  };
  const spoken = [chosen(), ...navigator.languages].map((tag) => tag?.split(/[-_]/)[0].toLowerCase()).find((tag) => Object.hasOwn(frames, tag));
  const language = spoken ?? "en";
  const [screen] = location.hash.replace(/^#\/?/, "").split("/");
  const frame = Object.hasOwn(frames[language], screen) ? screen : "";
  globalThis.bring(language); // its texts, unless the page has them (see ask.js)
  document.documentElement.lang = language;
  // It is written where the reading stands, so that nothing empty is drawn before.
  document.write(`<div id="page">${frames[language][frame]}</div>`);
  document.getElementById("page").dataset.frame = `${language}/${screen}`;
  // Until the script has come there is nobody who could take what a form holds.
  window.onsubmit = (event) => {
    event.preventDefault();
    event.target.dataset.sent = "";
  };
}
