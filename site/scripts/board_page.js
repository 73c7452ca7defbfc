// The board: what it showed last is there at once; then it is worked anew, and again whenever a fact changes.
import { termsOf, usualTerms, watchFacts } from "./fields.js";
import { byId, place } from "./pieces.js";
import { keepBoard, onOtherTab } from "./rigs.js";

const MOMENT = 300;
const ANSWERED_AT_BUILD = JSON.stringify({ units: "us", rules: "nec" });

export class BoardPage {
  #desk;
  /** @type {Record<string, string>} */ #terms;
  /** Boards are numbered as they are asked for: of one that the page shows, only what changes is told. */
  #asked = 0;
  /** The number of the one that is shown; none for one that Python did not tell this page. */
  #shown = "";
  #keeping = 0;

  /** @param {import("./desk.js").Desk} desk */
  constructor(desk) {
    this.#desk = desk;
    this.#terms = termsOf({ units: "us", rules: "nec", ...usualTerms() });
    const form = /** @type {HTMLFormElement} */ (byId("now-form"));
    watchFacts(form, (path, text) => (path in this.#terms ? this.#turn(path, text) : this.#change(path, text)));
    onOtherTab(() => desk.open().then(() => this.#answer()));
    this.#paintLast();
    this.#answer();
  }

  /** What was there last, before Python has started. */
  #paintLast() {
    const { rig } = this.#desk;
    const terms = JSON.stringify(this.#terms);
    const last = rig?.board?.terms === terms ? rig.board.html : undefined;
    if (last) place(last);
    performance.mark("last board"); // for the benchmark
    if (last) this.#markStale("before");
    else if (rig || terms !== ANSWERED_AT_BUILD) this.#markStale("now");
  }

  get #form() {
    return { ...this.#terms, whose: this.#desk.whose, root: document.documentElement.dataset.root ?? "./" };
  }

  #asking() {
    return { ...this.#form, shows: this.#shown, asks: `${++this.#asked}` };
  }

  async #answer() {
    const form = this.#asking();
    const reply = await this.#desk.ask("now", form);
    if (!reply?.html) return;
    byId("now").hidden = false;
    this.#show(reply.html, form.asks);
    this.#keep();
  }

  /**
   * One fact of the panel has changed, and with it perhaps every row.
   * @param {string} path
   * @param {string} text
   */
  async #change(path, text) {
    this.#markStale("now");
    const whose = this.#desk.rig ? "own" : "changed";
    const form = { ...this.#asking(), whose, path, text, then: "board" };
    const reply = await this.#desk.change("fact", form);
    if (!reply?.html) return;
    if (!reply.rig) return void place(reply.html);
    this.#show(reply.html, form.asks);
    // Another change may follow at once.
    clearTimeout(this.#keeping);
    this.#keeping = setTimeout(() => this.#keep(), MOMENT);
  }

  /**
   * Other units or other rules.
   * @param {string} name
   * @param {string} value
   */
  #turn(name, value) {
    localStorage.setItem(name, value);
    this.#terms = { ...this.#terms, [name]: value };
    this.#markStale("now");
    this.#answer();
  }

  /**
   * @param {string} html
   * @param {string} number
   */
  #show(html, number) {
    place(html);
    this.#shown = number;
    byId("stale").hidden = true;
    document.documentElement.classList.remove("out-of-date");
  }

  /** The words and the rows, without the panel: it comes alive only with Python. */
  #keep() {
    const { rig } = this.#desk;
    const shown = ["whose", "rows"].map((id) => `<div data-piece="${id}">${byId(id).innerHTML}</div>`).join("");
    if (rig) keepBoard(rig, JSON.stringify(this.#terms), shown).catch((problem) => console.warn(problem));
  }

  /** @param {"before" | "now"} words */
  #markStale(words) {
    const stale = byId("stale");
    stale.textContent = stale.getAttribute(`data-words-${words}`);
    stale.hidden = false;
    document.documentElement.classList.add("out-of-date");
  }
}
