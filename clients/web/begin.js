// This runs before the page is seen, so that its frame is in the right language: the one chosen on this device, or else the first of
// the device's own languages that the page speaks.
{
  let kept = null;
  try {
    kept = localStorage.getItem("language");
  } catch {
    // a browser that keeps nothing goes by its languages
  }
  const language = [kept, ...navigator.languages].map((tag) => tag?.split(/[-_]/)[0].toLowerCase()).find((tag) => tag === "en" || tag === "de");
  if (language) document.documentElement.lang = language;
  if (/^#\/?[^/]/.test(location.hash)) {
    // The frame that comes with the page is that of the jobs; the script draws what was asked for.
    document.querySelector("nav [aria-current]").removeAttribute("aria-current");
    document.getElementById("content").replaceChildren();
  }
}
