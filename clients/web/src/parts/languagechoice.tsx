import { useStore } from "../device/store";
import { choose, names } from "../words/language";
import { type Language, language } from "../words/locale";
import { phrase } from "../words/phrase";
import { say } from "./notice";

// LanguageChoice stands at the end of every screen. Whoever cannot read the page finds it by the word in his own language.
export function LanguageChoice() {
  const now = useStore(language);
  const pick = (select: HTMLSelectElement) =>
    choose(select.value as Language).catch(() => {
      select.value = now;
      say(phrase("The texts of that language are not on the device yet, and there is no network to fetch them."));
    });
  return (
    <footer class="page-foot no-print">
      <label for="language">
        <span lang="en">Language</span> · <span lang="de">Sprache</span>
      </label>
      <select id="language" value={now} onChange={(e) => void pick(e.currentTarget)}>
        {Object.entries(names).map(([tag, name]) => (
          <option key={tag} value={tag} lang={tag}>
            {name}
          </option>
        ))}
      </select>
    </footer>
  );
}
