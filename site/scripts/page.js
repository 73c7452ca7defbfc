// The page: watches its form, asks Python, puts the pieces of the answer in their places. What is a word or a
// number comes from Python or the templates; this only carries.
import { Python } from "./python.js";
import { askToStay, saveHere, sayHowPythonIs } from "./saved.js";
import { markup } from "./trust.js";

const page = document.documentElement;

/** @param {string} id */
const byId = (id) => /** @type {HTMLElement} */ (document.getElementById(id));

/** The names that say how an answer is wanted: as the seam in calc/reply.py knows them. */
const TYPING = "typing", BUTTON = "button", FORM = "form";

// --- looks ------------------------------------------------------------------------------------------------------

function dressPage() {
  const looks = byId("looks");
  const kept = localStorage.getItem("look") ?? "day";
  page.dataset.look = kept;
  for (const radio of looks.querySelectorAll("input")) {
    radio.checked = radio.value === kept;
    radio.addEventListener("change", () => {
      page.dataset.look = radio.value;
      localStorage.setItem("look", radio.value);
    });
  }
  looks.hidden = false;
}

// --- the form of a check ------------------------------------------------------------------------------------------

class CheckPage {
  #python;
  #form;
  #used = false;
  /** @type {Record<string, string> | null} what stood in the form before it was cleared */
  #before = null;
  #units;

  /**
   * @param {Python} python
   * @param {HTMLFormElement} form
   */
  constructor(python, form) {
    this.#python = python;
    this.#form = form;
    this.#units = this.#texts().units;
    form.addEventListener("input", (event) => this.#edited(event.target));
    form.addEventListener("click", (event) => this.#tapped(/** @type {HTMLElement} */ (event.target)));
    form.addEventListener("submit", (event) => {
      event.preventDefault();
      this.#ask(BUTTON, true);
    });
    form.addEventListener("reset", (event) => {
      event.preventDefault();
      this.#startAgain();
    });
    byId("fixes").addEventListener("click", (event) => this.#takeFix(event));
    byId("problems").addEventListener("click", (event) => goToField(event));
    byId("print").addEventListener("click", () => window.print());
    byId("print").hidden = false;
    addEventListener("popstate", () => this.#fromAddress());
    python.addEventListener("failed", () => (byId("asleep").hidden = false));
    this.#showAsked();
    this.#fromAddress();
  }

  /** The texts in the form, by name. */
  #texts() {
    return /** @type {Record<string, string>} */ (Object.fromEntries(new FormData(this.#form)));
  }

  /** A link that carries a question: its texts into the form, and the answer to them. */
  #fromAddress() {
    const linked = Object.fromEntries(new URLSearchParams(location.search));
    const kept = { units: localStorage.getItem("units"), rules: localStorage.getItem("rules") };
    const wanted = { ...dropEmpty(kept), ...linked };
    if (!Object.keys(wanted).some((name) => wanted[name] !== this.#texts()[name])) return;
    const inOtherTerms = (wanted.units ?? this.#units) !== this.#units || (wanted.rules ?? "") !== this.#texts().rules;
    this.#fill(wanted);
    // The link's numbers are already in the link's units.
    if (inOtherTerms) this.#ask(FORM, false, { ...this.#texts(), ...wanted, was_units: linked.units ?? this.#units });
    else this.#ask(TYPING);
  }

  /** @param {Record<string, string>} texts */
  #fill(texts) {
    for (const [name, text] of Object.entries(texts)) {
      const field = this.#form.elements.namedItem(name);
      if (field instanceof RadioNodeList) field.value = text;
      else if (field instanceof HTMLInputElement || field instanceof HTMLSelectElement) field.value = text;
    }
    this.#showAsked();
    this.#markStale();
  }

  /** @param {EventTarget | null} field */
  #edited(field) {
    const name = /** @type {HTMLInputElement} */ (field).name;
    this.#showAsked();
    this.#markStale();
    if (name !== "units" && name !== "rules") return void this.#ask(TYPING);
    const texts = this.#texts();
    localStorage.setItem(name, texts[name]);
    this.#ask(FORM, false, { ...texts, was_units: this.#units });
  }

  /** @param {HTMLElement} target */
  #tapped(target) {
    const button = target.closest("button");
    const field = button?.dataset.for && this.#form.elements.namedItem(button.dataset.for);
    if (!button || !field) return;
    if (field instanceof HTMLSelectElement) move(field, Number(button.dataset.move));
    else if (field instanceof HTMLInputElement) field.value = button.dataset.value ?? stepped(field, Number(button.dataset.by));
    field.dispatchEvent(new Event("input", { bubbles: true }));
  }

  /** Nothing is lost on one tap: the same button puts the numbers back. */
  #startAgain() {
    const again = byId("again");
    const words = again.textContent;
    const texts = this.#texts();
    if (this.#before) this.#fill(this.#before);
    else resetFields(this.#form);
    this.#before = this.#before ? null : texts;
    again.textContent = again.dataset.undo ?? "";
    again.dataset.undo = words;
    this.#showAsked();
    this.#markStale();
    this.#ask(TYPING);
  }

  /** @param {MouseEvent} event */
  #takeFix(event) {
    const link = /** @type {HTMLElement} */ (event.target).closest("a");
    if (!link) return;
    event.preventDefault();
    this.#fill(Object.fromEntries(new URL(link.href).searchParams));
    this.#ask(BUTTON, true);
  }

  /**
   * @param {string} what
   * @param {boolean} [keep]  whether the question becomes an entry to go back to
   * @param {Record<string, string>} [texts]
   */
  async #ask(what, keep = false, texts = this.#texts()) {
    const reply = await this.#python.ask(what, { ...texts, check: this.#form.dataset.check ?? "" });
    if (!reply?.html) return;
    const problems = place(reply.html);
    document.title = (problems ? byId("problems").dataset.title : "") + document.title.replace(byId("problems").dataset.title ?? "", "");
    if (problems) return void byId("problems").focus();
    this.#answered(what, keep);
  }

  /**
   * @param {string} what
   * @param {boolean} keep
   */
  #answered(what, keep) {
    this.#units = this.#texts().units;
    page.classList.remove("out-of-date");
    byId("stale").hidden = true;
    this.#showAsked();
    const address = "?" + new URLSearchParams(this.#texts());
    if (keep && address !== location.search) history.pushState(null, "", address);
    else history.replaceState(null, "", address);
    if (what === BUTTON) byId("say").focus();
    if (!this.#used) askToStay();
    this.#used = true;
  }

  #markStale() {
    page.classList.add("out-of-date");
    byId("stale").hidden = false;
  }

  /** Fields that the other choices make pointless are put away. */
  #showAsked() {
    const texts = this.#texts();
    for (const field of /** @type {NodeListOf<HTMLElement>} */ (this.#form.querySelectorAll("[data-when]"))) {
      /** @type {Record<string, string[]>[]} */
      const cases = JSON.parse(field.dataset.when ?? "[]");
      field.hidden = !cases.some((needed) => Object.entries(needed).every(([name, options]) => options.includes(texts[name])));
    }
  }
}

/** @param {Record<string, string | null>} texts */
function dropEmpty(texts) {
  return /** @type {Record<string, string>} */ (Object.fromEntries(Object.entries(texts).filter(([, text]) => text)));
}

/**
 * @param {HTMLSelectElement} select
 * @param {number} by
 */
function move(select, by) {
  select.selectedIndex = Math.min(Math.max(select.selectedIndex + by, 0), select.options.length - 1);
}

/**
 * The number in a field, a step further, on the step's own grid. What is not a plain number starts from the example's.
 * @param {HTMLInputElement} field
 * @param {number} by
 */
function stepped(field, by) {
  const typed = field.value.trim().replace(",", ".").replace("−", "-");
  const number = Number(typed === "" || Number.isNaN(Number(typed)) ? field.defaultValue.replace("−", "-") : typed);
  const size = Math.abs(by);
  const steps = by > 0 ? Math.floor(number / size + 1e-9) + 1 : Math.ceil(number / size - 1e-9) - 1;
  const next = steps * size;
  return String(Number(next.toPrecision(10))).replace("-", "−");
}

/** @param {HTMLFormElement} form */
function resetFields(form) {
  for (const field of form.elements) {
    if (field instanceof HTMLSelectElement) for (const option of field.options) option.selected = option.defaultSelected;
    else if (field instanceof HTMLInputElement) [field.value, field.checked] = [field.defaultValue, field.defaultChecked];
  }
}

/**
 * Put each piece where its name says. Hosts stay and their content changes: a live region must not be replaced.
 * @param {string} html
 * @returns {boolean} whether there are problems to show
 */
function place(html) {
  const holder = document.createElement("template");
  holder.innerHTML = markup(html);
  for (const piece of /** @type {NodeListOf<HTMLElement>} */ (holder.content.querySelectorAll("[data-piece]"))) {
    const host = byId(piece.dataset.piece ?? "");
    if (!host) continue;
    if (piece.dataset.verdict) host.dataset.verdict = piece.dataset.verdict;
    host.replaceChildren(...piece.childNodes);
  }
  return byId("problems").childElementCount > 0;
}

/** From the summary of problems to the field, its label in view.  @param {MouseEvent} event */
function goToField(event) {
  const link = /** @type {HTMLElement} */ (event.target).closest("a");
  const field = link && byId(link.hash.slice(1));
  if (!field) return;
  event.preventDefault();
  field.closest(".ask")?.scrollIntoView();
  field.focus({ preventScroll: true });
}

dressPage();
page.dataset.live = "";
const python = new Python();
sayHowPythonIs(python);
const form = document.querySelector("form[data-check]");
if (form instanceof HTMLFormElement) new CheckPage(python, form);
saveHere().finally(() => python.start());
