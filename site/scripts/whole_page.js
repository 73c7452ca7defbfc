// A page about the whole rig in use: its walk-round, its log, its sheet. A change that the page proposes is made in the
// rig on one tap, and the page asked again.
import { usualTerms } from "./fields.js";
import { PartForm } from "./part_form.js";
import { byId, handOver, place } from "./pieces.js";
import { onOtherTab } from "./rigs.js";
import { say } from "./state.js";

export class WholePage {
  #desk;
  #what;
  /** @type {PartForm | undefined} where the page can change what it rests on */ #part;
  #own;

  /**
   * @param {import("./desk.js").Desk} desk
   * @param {string} what  the question in calc/rig_desk.py
   * @param {{texts?: Record<string, string>, placed: () => void}[]} own  what has its own say on this page: texts that
   *   the question needs, and what is to be done when the page was filled anew
   */
  constructor(desk, what, own = []) {
    this.#desk = desk;
    this.#what = what;
    this.#own = own;
    byId("main").addEventListener("click", (event) => this.#tapped(event));
    byId("rig-undo").addEventListener("click", () => this.#undo());
    onOtherTab(() => desk.open().then(() => this.ask()));
    if (byId("part")) {
      byId("facts").hidden = false;
      this.#part = new PartForm(desk, () => this.#changed());
      this.#part.show();
    }
    // As it came, the page shows the example's, in the usual units and by the usual rules.
    if (desk.rig || Object.keys(usualTerms()).length) this.ask();
  }

  async ask() {
    byId("stale").hidden = false;
    document.documentElement.classList.add("out-of-date");
    const texts = this.#own.map((one) => one.texts);
    const reply = await this.#desk.ask(this.#what, Object.assign(usualTerms(), ...texts));
    if (!reply?.html) return;
    place(reply.html);
    for (const one of this.#own) one.placed();
    byId("stale").hidden = true;
    document.documentElement.classList.remove("out-of-date");
  }

  /** @param {MouseEvent} event */
  async #tapped(event) {
    const list = /** @type {HTMLElement | null} */ (/** @type {HTMLElement} */ (event.target).closest("[data-list]"));
    if (list) return handOver(byId("list").textContent ?? "", list.dataset.list ?? "", "text/csv");
    const proposal = /** @type {HTMLElement} */ (event.target).closest("[data-facts]");
    if (!this.#desk.rig || !(proposal instanceof HTMLElement)) return;
    event.preventDefault();
    const reply = await this.#desk.change("facts", { facts: proposal.dataset.facts ?? "{}" });
    if (!reply?.rig) return;
    say("rig-done", "changed", { name: proposal.textContent ?? "" });
    byId("rig-undo").hidden = false;
    await this.ask();
    byId("say").focus();
  }

  async #undo() {
    await this.#desk.undo();
    say("rig-done", "undone");
    this.#part?.show();
    this.ask();
  }

  /** A fact was changed on this page: in the rig in use, or in the example for as long as the page is open. */
  #changed() {
    say("rig-done", this.#desk.rig ? "kept" : "tried");
    byId("rig-undo").hidden = !this.#desk.rig?.before;
    this.ask();
  }
}
