// What stands in the fields of a form: as texts by name, as an address, and a step further.

/** @typedef {Record<string, string>} Texts */

/** Taps closer together than this are one change. */
const TAPS = 300;

/**
 * The texts of what a form asks; what is put away is not asked.
 * @param {HTMLFormElement} form
 */
export function textsIn(form) {
  const texts = /** @type {Texts} */ (Object.fromEntries(new FormData(form)));
  for (const field of form.querySelectorAll(".ask[hidden] [name]")) delete texts[field.getAttribute("name") ?? ""];
  return texts;
}

/** @param {Record<string, string | null>} texts */
export function dropEmpty(texts) {
  return /** @type {Texts} */ (Object.fromEntries(Object.entries(texts).filter(([, text]) => text)));
}

/** @param {Texts} texts */
export const addressOf = (texts) => `?${new URLSearchParams(texts)}`;

/** @param {URL | Location} address */
export const textsOf = (address) => /** @type {Texts} */ (Object.fromEntries(new URLSearchParams(address.search)));

/** @param {Texts} texts */
export const termsOf = ({ units, rules }) => ({ units, rules });

/**
 * @param {Texts} some
 * @param {Texts} all
 */
export const isPartOf = (some, all) => Object.keys(some).every((name) => some[name] === all[name]);

/** Whether a form differs from how it came.  @param {HTMLFormElement} form */
export function isEdited(form) {
  return [...form.elements].some((field) => {
    if (field instanceof HTMLSelectElement) return [...field.options].some((option) => option.selected !== option.defaultSelected);
    return field instanceof HTMLInputElement && (field.value !== field.defaultValue || field.checked !== field.defaultChecked);
  });
}

/** The texts of the fields that differ from how they came.  @param {HTMLFormElement} form */
export function editedTexts(form) {
  const edited = [...form.elements].filter((field) => field instanceof HTMLInputElement && field.type === "text" && field.value !== field.defaultValue);
  return /** @type {Texts} */ (Object.fromEntries(edited.map((field) => [field.getAttribute("name"), /** @type {HTMLInputElement} */ (field).value])));
}

/** The units and rules that this person last chose. */
export const usualTerms = () => dropEmpty({ units: localStorage.getItem("units"), rules: localStorage.getItem("rules") });

/**
 * A tap on one of a field's own buttons: a step, or a usual value.
 * @param {HTMLFormElement} form
 * @param {MouseEvent} event
 * @returns {HTMLInputElement | HTMLSelectElement | undefined}  the field that it changed
 */
export function tapped(form, event) {
  const button = /** @type {HTMLElement} */ (event.target).closest("button");
  const field = button?.dataset.for && form.elements.namedItem(button.dataset.for);
  if (field instanceof HTMLSelectElement) move(field, Number(button?.dataset.move));
  else if (field instanceof HTMLInputElement) field.value = button?.dataset.value ?? stepped(field, Number(button?.dataset.by));
  else return;
  return field;
}

/**
 * Watches a form of facts, each of which is to be kept as soon as it is changed. Taps in a row count as one change.
 * @param {HTMLFormElement} form
 * @param {(path: string, text: string) => void} changed
 */
export function watchFacts(form, changed) {
  /** @type {Map<string, number>} */
  const waiting = new Map();
  const tell = (/** @type {string} */ name) => {
    clearTimeout(waiting.get(name));
    changed(name, new FormData(form).getAll(name).join("\n"));
  };
  form.addEventListener("submit", (event) => event.preventDefault());
  form.addEventListener("change", (event) => tell(/** @type {HTMLInputElement} */ (event.target).name));
  form.addEventListener("click", (event) => {
    const field = tapped(form, event);
    if (!field) return;
    clearTimeout(waiting.get(field.name));
    waiting.set(field.name, setTimeout(() => tell(field.name), TAPS));
  });
}

/**
 * @param {HTMLSelectElement} select
 * @param {number} by
 */
function move(select, by) {
  select.selectedIndex = Math.min(Math.max(select.selectedIndex + by, 0), select.options.length - 1);
}

/** A number and, after it, a unit; no fraction and no gauge such as 3/4 or 2/0. */
const NUMBER_WITH_UNIT = /^([-−]?\d*[.,]?\d+)(\s*[^\d\s/.,].*)?$/;

/**
 * The text of a number field, a step further on the step's own grid, within the field's range. A unit that was typed
 * stays. What is not a plain number starts from the example's.
 * @param {HTMLInputElement} field
 * @param {number} by
 */
function stepped(field, by) {
  if (field.value.trim() === "" && field.dataset.usual) return field.dataset.usual;
  const [, digits, unit = ""] = NUMBER_WITH_UNIT.exec(field.value.trim()) ?? ["", field.defaultValue];
  const number = Number(digits.replace(",", ".").replace("−", "-"));
  const size = Math.abs(by);
  const steps = by > 0 ? Math.floor(number / size + 1e-9) + 1 : Math.ceil(number / size - 1e-9) - 1;
  const next = Number((steps * size).toPrecision(10));
  const isWithin = next >= Number(field.dataset.low) - 1e-9 && next <= Number(field.dataset.high) + 1e-9;
  return isWithin || unit ? String(next).replace("-", "−") + unit : field.value;
}
