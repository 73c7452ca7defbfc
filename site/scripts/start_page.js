// The short start: a few answers make a rig, which is kept and in use from then on.
import { textsIn, usualTerms } from "./fields.js";
import { byId, place } from "./pieces.js";

export class StartPage {
  #python;
  #desk;
  #form;

  /**
   * @param {import("./python.js").Python} python
   * @param {import("./desk.js").Desk} desk
   * @param {HTMLFormElement} form
   */
  constructor(python, desk, form) {
    this.#python = python;
    this.#desk = desk;
    this.#form = form;
    form.addEventListener("submit", (event) => {
      event.preventDefault();
      this.#ask("start", { ...usualTerms(), ...textsIn(form) });
    });
    byId("start-example").addEventListener("click", () => this.#ask("example", {}));
  }

  /**
   * @param {string} what
   * @param {Record<string, string>} form
   */
  async #ask(what, form) {
    const reply = await this.#python.ask(what, form, { sure: true });
    if (reply?.html && place(reply.html)) byId("problems").focus();
    if (!reply?.rig) return;
    await this.#desk.keep(reply.rig);
    location.assign(document.documentElement.dataset.root ?? "../");
  }
}
