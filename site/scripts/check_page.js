// A check's page: watches its form, asks Python, and keeps the address and the answer together.
import { dropEmpty, addressOf, editedTexts, isEdited, isPartOf, tapped, termsOf, textsIn, textsOf, usualTerms } from "./fields.js";
import { byId, focusable, place } from "./pieces.js";
import { onOtherTab } from "./rigs.js";
import { askToStay } from "./saved.js";

const page = document.documentElement;

/** @typedef {import("./fields.js").Texts} Texts */

/** The names that say how an answer is wanted: as the seam in calc/reply.py knows them. */
const TYPING = "typing", LATER = "later", BUTTON = "button", FORM = "form";

/** How long nobody must have typed before the working is asked for: a next digit should not find Python busy. */
const PAUSE = 250;

export class CheckPage {
  #desk;
  #form;
  #used = false;
  /** @type {Texts | null} what stood in the form before it was cleared */
  #before = null;
  /** In what units and under which rules the form is written. */
  #terms;
  /** The address of the last answer that can be gone back to. */
  #kept;
  #pause = 0;

  /**
   * @param {import("./python.js").Python} python
   * @param {import("./desk.js").Desk} desk
   * @param {HTMLFormElement} form
   */
  constructor(python, desk, form) {
    this.#desk = desk;
    this.#form = form;
    this.#terms = termsOf(this.#texts());
    form.addEventListener("input", (event) => this.#edited(event.target));
    form.addEventListener("click", (event) => tapped(form, event)?.dispatchEvent(new Event("input", { bubbles: true })));
    form.addEventListener("submit", (event) => {
      event.preventDefault();
      this.#ask(BUTTON, true);
    });
    form.addEventListener("reset", (event) => {
      event.preventDefault();
      this.#startAgain();
    });
    byId("fixes").addEventListener("click", (event) => this.#takeFix(event));
    byId("keep").addEventListener("click", (event) => this.#keep(event));
    onOtherTab(() => desk.open().then(() => this.#ask(FORM)));
    byId("main").addEventListener("click", goToPlace);
    byId("code").hidden = false;
    byId("code").addEventListener("click", () => this.#showCode());
    addEventListener("popstate", () => this.#put(textsOf(location)));
    python.addEventListener("failed", () => (byId("asleep").hidden = false));
    this.#showAsked();
    this.#kept = addressOf(this.#texts());
    if (desk.rig) byId("again").textContent = byId("again").dataset.own ?? "";
    this.#openWith({ ...usualTerms(), ...textsOf(location) });
  }

  #texts() {
    return textsIn(this.#form);
  }

  get #check() {
    return this.#form.dataset.check ?? "";
  }

  /**
   * The page as it came shows the answer to the example. Where anything else is asked, by the rig in use, by the
   * address, by habit or by what was typed before this script ran, that is to be answered.
   * @param {Texts} wanted
   */
  #openWith(wanted) {
    const edited = isEdited(this.#form);
    if (this.#desk.rig || "subject" in wanted) {
      this.#markStale();
      return void this.#ask(FORM, false, { ...wanted, ...editedTexts(this.#form) }).then(() => (this.#kept = addressOf(this.#texts())));
    }
    if (!edited && isPartOf(wanted, this.#texts())) return;
    this.#put(wanted, textsOf(location).units ?? this.#terms.units);
    if (!edited) this.#kept = addressOf(this.#texts());
  }

  /**
   * Texts into the form, and the answer to them. In other units or under other rules Python writes the form anew.
   * @param {Texts} texts
   * @param {string} [was]  the units in which these texts are
   */
  #put(texts, was = texts.units) {
    this.#fill(texts);
    if (isPartOf(this.#terms, this.#texts())) this.#ask(TYPING);
    else this.#ask(FORM, false, { ...this.#texts(), ...texts, was_units: was });
  }

  /** @param {Texts} texts */
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
    const { name, value } = /** @type {HTMLInputElement} */ (field);
    this.#showAsked();
    this.#markStale();
    if (name === "subject") return void this.#ask(FORM, true, { ...this.#terms, subject: value });
    if (!(name in this.#terms)) {
      showAnswerUnder(/** @type {HTMLElement} */ (field));
      return void this.#ask(TYPING);
    }
    localStorage.setItem(name, value);
    this.#ask(FORM, false, { ...this.#texts(), was_units: this.#terms.units });
  }

  /** Nothing is lost on one tap: the same button puts the numbers back. */
  #startAgain() {
    const again = byId("again");
    const words = again.textContent;
    const texts = this.#texts();
    this.#markStale();
    if (this.#before) this.#put(this.#before);
    else this.#ask(FORM, false, { ...termsOf(texts), ...dropEmpty({ subject: texts.subject ?? null }) });
    this.#before = this.#before ? null : texts;
    again.textContent = again.dataset.undo ?? "";
    again.dataset.undo = words;
  }

  /** @param {MouseEvent} event */
  #takeFix(event) {
    const link = /** @type {HTMLElement} */ (event.target).closest("a");
    if (!link) return;
    event.preventDefault();
    this.#fill(textsOf(new URL(link.href)));
    this.#ask(BUTTON, true);
  }

  /** What was typed becomes a fact of the rig.  @param {MouseEvent} event */
  async #keep(event) {
    const name = /** @type {HTMLElement} */ (event.target).closest("button")?.dataset.keep;
    if (!name) return;
    await this.#desk.change("keep", { ...this.#texts(), check: this.#check, name });
    this.#ask(FORM);
  }

  /**
   * @param {string} what
   * @param {boolean} [keep]  whether the question becomes an entry to go back to
   * @param {Texts} [texts]
   */
  async #ask(what, keep = false, texts = this.#texts()) {
    clearTimeout(this.#pause);
    const reply = await this.#desk.ask(what, { ...texts, check: this.#check });
    if (!reply?.html) return;
    if (what === TYPING) this.#pause = setTimeout(() => this.#ask(LATER), PAUSE);
    page.classList.toggle("behind", what === TYPING);
    if (what === LATER) return void place(reply.html);
    const problems = what === FORM ? placeForm(this.#form, reply.html) : place(reply.html);
    document.title = (problems ? byId("problems").dataset.title : "") + document.title.replace(byId("problems").dataset.title ?? "", "");
    if (problems) return void byId("problems").focus();
    this.#answered(what, keep);
  }

  /**
   * @param {string} what
   * @param {boolean} keep
   */
  #answered(what, keep) {
    this.#showAsked();
    this.#terms = termsOf(this.#texts());
    page.classList.remove("out-of-date");
    byId("stale").hidden = true;
    const address = addressOf(this.#texts());
    // A changed address costs as much as the answer: it follows at the heels of a key.
    if (what === TYPING) setTimeout(() => this.#remember(address, keep));
    else this.#remember(address, keep);
    if (what === BUTTON) byId("say").focus();
    if (!this.#used) askToStay();
    this.#used = true;
  }

  /**
   * The address always asks what is answered. What was typed on the way is no entry of its own to go back to.
   * @param {string} address
   * @param {boolean} keep
   */
  #remember(address, keep) {
    if (!keep || address === this.#kept) return history.replaceState(null, "", address);
    history.replaceState(null, "", this.#kept);
    history.pushState(null, "", address);
    this.#kept = address;
  }

  async #showCode() {
    const reply = await this.#desk.ask("proof", { ...this.#texts(), check: this.#check, address: location.origin + location.pathname });
    if (reply?.html) place(reply.html);
    else byId("proof-code").textContent = reply?.problem ?? "";
  }

  #markStale() {
    byId("proof-code").replaceChildren();
    page.classList.add("out-of-date");
    byId("stale").hidden = false;
  }

  /** Fields that the other choices make pointless are put away. */
  #showAsked() {
    const texts = Object.fromEntries(new FormData(this.#form));
    for (const field of /** @type {NodeListOf<HTMLElement>} */ (this.#form.querySelectorAll("[data-when]"))) {
      /** @type {Record<string, string[]>[]} */
      const cases = JSON.parse(field.dataset.when ?? "[]");
      field.hidden = !cases.some((needed) => Object.entries(needed).every(([name, options]) => options.includes(String(texts[name]))));
      const name = field.querySelector("[name]")?.getAttribute("name");
      const listed = byId("index").querySelector(`a[href="#${name}"]`)?.parentElement;
      if (listed) listed.hidden = field.hidden;
    }
  }
}

/**
 * The whole form anew: what is held stays held, and what stood between its fields is kept.
 * @param {HTMLFormElement} form
 * @param {string} html
 */
function placeForm(form, html) {
  const held = document.activeElement?.getAttribute("name");
  byId("here").hidden = true;
  form.append(byId("here"));
  const problems = place(html);
  if (held && document.activeElement === document.body) focusable(form.querySelector(`[name="${held}"]`))?.focus();
  return problems;
}

/**
 * The answer once more, under what was just changed, so that nobody has to scroll up to see what it did. The page
 * must not move under a finger that taps the same button again.
 * @param {HTMLElement} field
 */
function showAnswerUnder(field) {
  const here = byId("here");
  const ask = field.closest(".ask");
  if (!ask || here.previousElementSibling === ask) return;
  const before = field.getBoundingClientRect().top;
  ask.after(here);
  here.hidden = false;
  scrollBy(0, field.getBoundingClientRect().top - before);
}

/** To a place in the page, with the label of a field in view. @param {MouseEvent} event */
function goToPlace(event) {
  const link = /** @type {HTMLElement} */ (event.target).closest("a");
  const place = link?.getAttribute("href")?.startsWith("#") && byId(link.hash.slice(1));
  if (!place) return;
  event.preventDefault();
  byId("finder").removeAttribute("open");
  place.closest("details")?.setAttribute("open", "");
  (place.closest(".ask") ?? place).scrollIntoView();
  focusable(place)?.focus({ preventScroll: true });
}
