// What stands in the fields of a form: as texts by name, as an address, and a step further.

/** @typedef {Record<string, string>} Texts */

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

/**
 * @param {HTMLSelectElement} select
 * @param {number} by
 */
export function move(select, by) {
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
export function stepped(field, by) {
  const [, digits, unit = ""] = NUMBER_WITH_UNIT.exec(field.value.trim()) ?? ["", field.defaultValue];
  const number = Number(digits.replace(",", ".").replace("−", "-"));
  const size = Math.abs(by);
  const steps = by > 0 ? Math.floor(number / size + 1e-9) + 1 : Math.ceil(number / size - 1e-9) - 1;
  const next = Number((steps * size).toPrecision(10));
  const isWithin = next >= Number(field.dataset.low) - 1e-9 && next <= Number(field.dataset.high) + 1e-9;
  return isWithin || unit ? String(next).replace("-", "−") + unit : field.value;
}
