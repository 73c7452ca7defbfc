// The control that notes a reading, wherever it stands: what is read, its value, one tap; then what it means.
import { tapped, textsIn, usualTerms } from "./fields.js";
import { byId, place } from "./pieces.js";
import { say } from "./state.js";

/** The phone's own time, as a log writes it: 2025-05-17T10:20.  @param {number} when  in milliseconds */
export function clockOf(when) {
  return new Date(when - new Date(when).getTimezoneOffset() * 60_000).toISOString().slice(0, 16);
}

export class Noting {
  #desk;
  #form;
  /** What stands in the fields and is not noted yet.  @type {Record<string, string>} */ #typed = {};
  /** Called when the log has changed. */ noted = () => {};

  /** @param {import("./desk.js").Desk} desk */
  constructor(desk) {
    this.#desk = desk;
    this.#form = /** @type {HTMLFormElement} */ (byId("log-form"));
    this.#form.addEventListener("submit", (event) => {
      event.preventDefault();
      this.#change("note", this.texts, "noted");
    });
    this.#form.addEventListener("click", (event) => this.#edited(tapped(this.#form, event)));
    for (const kind of ["input", "change"]) this.#form.addEventListener(kind, (event) => this.#edited(event.target));
    byId("main").addEventListener("click", (event) => this.#act(event));
    byId("not-kept").hidden = desk.rig !== undefined;
    // Before there is anybody to note it, what is typed must not go astray.
    /** @type {HTMLButtonElement} */ (byId("note-it")).disabled = false;
  }

  /** @returns {Record<string, string>} */
  get texts() {
    return { ...usualTerms(), ...textsIn(this.#form), now: clockOf(Date.now()) };
  }

  /** The page was filled anew: what was typed meanwhile is not lost. */
  placed() {
    for (const [name, text] of Object.entries(this.#typed)) /** @type {HTMLInputElement} */ (this.#form.elements.namedItem(name)).value = text;
  }

  /** Where what is read has changed, or of which thing, the field is another one.  @param {unknown} field */
  #edited(field) {
    if (field instanceof HTMLSelectElement) this.show({});
    else if (field instanceof HTMLInputElement && field.type === "text") this.#typed[field.name] = field.value;
  }

  /** The control for this reading.  @param {Record<string, string>} about */
  async show(about) {
    this.#typed = {};
    const reply = await this.#desk.ask("readings", { ...this.texts, value: "", ...about });
    if (!reply?.html) return;
    place(reply.html);
    this.placed();
  }

  /** @param {MouseEvent} event */
  #act(event) {
    const { what, of = "", when = "", strike, take } = /** @type {HTMLElement} */ (event.target).closest("button")?.dataset ?? {};
    if (!what) return;
    if (strike) return this.#change("strike", { ...this.texts, place: strike, what, when }, "struck");
    if (take) return this.#change("take", { ...this.texts, what, of, stands: take }, "taken");
    this.show({ what, of }).then(() => byId("log-form").scrollIntoView());
  }

  /**
   * @param {string} question
   * @param {Record<string, string>} texts
   * @param {string} done  the words for it
   */
  async #change(question, texts, done) {
    const reply = await this.#desk.change(question, texts);
    if (reply?.problem) byId("rig-problem").textContent = reply.problem;
    byId("rig-problem").hidden = !reply?.problem;
    if (reply?.html) place(reply.html);
    if (!reply?.rig) return;
    this.#typed = {};
    say("rig-done", done);
    byId("rig-undo").hidden = !this.#desk.rig;
    this.noted();
    byId("meaning").scrollIntoView();
  }
}
