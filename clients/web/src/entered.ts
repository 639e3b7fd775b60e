// The frame can be seen, and its form filled in, before the script that looks after it has come.

type Field = HTMLInputElement | HTMLTextAreaElement | HTMLSelectElement;

const isPick = (field: Field): field is HTMLInputElement => field instanceof HTMLInputElement && /^(radio|checkbox)$/.test(field.type);

function pick(field: HTMLInputElement): void {
  field.checked = false; // a choice that stands is not told again
  field.click();
}

// giveBackTo makes of a field that somebody changed what enters that once more, or undefined.
function giveBackTo(field: Field): (() => void) | undefined {
  if (isPick(field)) return field.checked && !field.defaultChecked ? () => pick(field) : undefined;
  const { value } = field;
  const was = field instanceof HTMLSelectElement ? [...field.options].find((o) => o.defaultSelected)?.value : field.defaultValue;
  if (value === was) return undefined;
  return () => {
    field.value = value;
    for (const type of ["input", "change"]) field.dispatchEvent(new Event(type, { bubbles: true }));
  };
}

const drawn = () => new Promise((then) => setTimeout(then));

// entered takes down what was entered, and gives what enters it again, for a script to hear of it that came later. One goes in after
// the other, each on what is drawn after the last; a form that was sent off is sent off at the end.
export function entered(within: HTMLElement): () => Promise<void> {
  const all = [...within.querySelectorAll<Field>("input, textarea, select")].map(giveBackTo).filter((g) => g !== undefined);
  return async () => {
    window.onsubmit = null; // from now on the forms look after that themselves
    for (const giveBack of all) {
      giveBack();
      await drawn();
    }
    within.querySelector<HTMLFormElement>("form[data-sent]")?.requestSubmit();
  };
}
