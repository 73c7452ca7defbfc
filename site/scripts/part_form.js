// The parts of a rig as forms, one at a time: each fact is kept as soon as it is changed. Which one is shown, the
// address says; on a page with ways of its own to some of them, none is shown before one is asked for.
import { textsOf, usualTerms, watchFacts } from "./fields.js";
import { byId, place } from "./pieces.js";

export class PartForm {
  #desk;
  #changed;

  /**
   * @param {import("./desk.js").Desk} desk
   * @param {(path: string) => void} changed  told after each change; of things of a list, without a path
   */
  constructor(desk, changed) {
    this.#desk = desk;
    this.#changed = changed;
    watchFacts(/** @type {HTMLFormElement} */ (byId("part")), (path, text) => this.#change(path, text));
    byId("facts").addEventListener("click", (event) => this.#tapped(event));
    addEventListener("popstate", () => this.show());
  }

  /** The part that the address names. */
  async show() {
    if (byId("facts").hidden) return;
    const part = textsOf(location).part ?? "";
    if (!part && byId("ways")) return byId("part").replaceChildren();
    const reply = await this.#desk.ask("part", { ...this.#terms, part }, { sure: true });
    if (reply?.html) place(reply.html);
    else if (reply?.problem && location.search) this.#goTo("");
  }

  /** What is said on the way back is the page's. */
  get #terms() {
    return { ...usualTerms(), back: byId("facts").dataset.back ?? "" };
  }

  /** @param {string} part */
  #goTo(part) {
    history.pushState(null, "", part ? `?part=${part}` : location.pathname);
    return this.show();
  }

  /**
   * @param {string} path
   * @param {string} text
   */
  async #change(path, text) {
    const reply = await this.#desk.change("fact", { ...usualTerms(), path, text });
    if (reply?.html) place(reply.html);
    if (reply?.rig) this.#changed(path);
  }

  /** @param {MouseEvent} event */
  async #tapped(event) {
    const target = /** @type {HTMLElement} */ (event.target);
    const link = target.closest("a");
    if (link?.getAttribute("href")?.startsWith("?")) {
      event.preventDefault();
      await this.#goTo(textsOf(new URL(link.href)).part ?? "");
      return showTop();
    }
    const { ask, part = "", undo } = target.closest("button")?.dataset ?? {};
    if (undo !== undefined) return byId("rig-undo").click();
    if (!ask) return;
    const reply = await this.#desk.change(ask, { ...this.#terms, part });
    if (reply?.problem) return void (byId("rig-problem").textContent = reply.problem);
    if (!reply?.html) return;
    history.pushState(null, "", `?part=${reply.part}`);
    place(reply.html);
    this.#changed("");
    showTop();
  }
}

/** The part that is open, or where one is chosen. */
const showTop = () => byId(location.search ? "part" : "facts").scrollIntoView();
