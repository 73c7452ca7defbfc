// The walk-round of the rig in use. A change that it proposes is made in the rig on one tap, and the rig walked round again.
import { usualTerms } from "./fields.js";
import { byId, place } from "./pieces.js";
import { onOtherTab } from "./rigs.js";
import { say } from "./state.js";

export class WalkRoundPage {
  #desk;

  /** @param {import("./desk.js").Desk} desk */
  constructor(desk) {
    this.#desk = desk;
    byId("faults").addEventListener("click", (event) => this.#tapped(event));
    byId("rig-undo").addEventListener("click", () => this.#undo());
    onOtherTab(() => desk.open().then(() => this.#walk()));
    // As it came, the page shows the example's, in the usual units and by the usual rules.
    if (desk.rig || Object.keys(usualTerms()).length) this.#walk();
  }

  async #walk() {
    byId("stale").hidden = false;
    document.documentElement.classList.add("out-of-date");
    const reply = await this.#desk.ask("walk-round", usualTerms());
    if (!reply?.html) return;
    place(reply.html);
    byId("stale").hidden = true;
    document.documentElement.classList.remove("out-of-date");
  }

  /** @param {MouseEvent} event */
  async #tapped(event) {
    const proposal = /** @type {HTMLElement} */ (event.target).closest("[data-facts]");
    if (!this.#desk.rig || !(proposal instanceof HTMLElement)) return;
    event.preventDefault();
    const reply = await this.#desk.change("facts", { facts: proposal.dataset.facts ?? "{}" });
    if (!reply?.rig) return;
    say("rig-done", "changed", { name: proposal.textContent ?? "" });
    byId("rig-undo").hidden = false;
    await this.#walk();
    byId("say").focus();
  }

  async #undo() {
    await this.#desk.undo();
    say("rig-done", "undone");
    this.#walk();
  }
}
