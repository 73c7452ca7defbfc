// The page of the rig: which rigs are here, the facts of the one in use part by part, and passing it on.
import { usualTerms } from "./fields.js";
import { PartForm } from "./part_form.js";
import { byId, handOver, place } from "./pieces.js";
import { allRigs, onOtherTab, use } from "./rigs.js";
import { say } from "./state.js";

/** @typedef {import("./rigs.js").Rig} Rig */

export class RigPage {
  #python;
  #desk;
  #part;
  /** @type {string | undefined} a document that was read and not yet kept */ #taken;
  /** @type {string[]} those read of several codes */ #codes = [];

  /**
   * @param {import("./python.js").Python} python
   * @param {import("./desk.js").Desk} desk
   */
  constructor(python, desk) {
    this.#python = python;
    this.#desk = desk;
    this.#part = new PartForm(desk, (path) => this.#changed(path));
    byId("main").addEventListener("click", (event) => this.#act(event));
    byId("rig-undo").addEventListener("click", () => this.#undo());
    byId("rig-file").addEventListener("change", () => this.#readFile());
    byId("rig-picture").addEventListener("change", () => this.#readPictures());
    byId("rig-text").addEventListener("change", () => this.#read(/** @type {HTMLInputElement} */ (byId("rig-text")).value));
    byId("rig-take").addEventListener("click", () => this.#take());
    onOtherTab(() => desk.open().then(() => this.#show()));
    this.#show();
    // A link with a rig in it was opened. It stays in this browser: what follows a # is sent to nobody.
    if (location.hash.startsWith("#rig=")) this.#read(location.href);
  }

  async #show() {
    const { rig } = this.#desk;
    for (const id of ["facts", "rig-acts"]) byId(id).hidden = !rig;
    byId("passing").hidden = false;
    await this.#listRigs();
    await this.#part.show();
  }

  async #listRigs() {
    const rigs = await allRigs().catch(() => /** @type {Rig[]} */ ([]));
    const words = byId("rig-words").dataset;
    const entries = rigs.map((rig) => this.#entry(rig.id, rig.name || words.wordUnnamed, rig.removed ? words.wordGone : words.wordTap));
    byId("rigs").replaceChildren(...entries, this.#entry("", words.wordExample, words.wordTap));
    byId("rigs-here").hidden = rigs.length === 0;
  }

  /**
   * @param {string} id
   * @param {string} [name]
   * @param {string} [state]
   */
  #entry(id, name = "", state = "") {
    const entry = /** @type {DocumentFragment} */ (/** @type {HTMLTemplateElement} */ (byId("rig-entry")).content.cloneNode(true));
    const inUse = id === (this.#desk.rig?.id ?? "");
    const [button, called, said] = ["[data-use]", "[data-name]", "[data-state]"].map((part) => /** @type {HTMLElement} */ (entry.querySelector(part)));
    button.dataset.use = id;
    button.setAttribute("aria-pressed", String(inUse));
    called.textContent = name;
    said.textContent = inUse ? (byId("rig-words").dataset.wordUsed ?? "") : state;
    return entry;
  }

  /** @param {string} path */
  #changed(path) {
    this.#done("kept");
    if (path.endsWith("name") || !path) this.#listRigs();
  }

  async #undo() {
    await this.#desk.undo();
    this.#done("undone");
    this.#show();
  }

  /** @param {MouseEvent} event */
  async #act(event) {
    const button = /** @type {HTMLElement} */ (event.target).closest("button");
    if (button?.dataset.use !== undefined) return this.#use(button.dataset.use);
    if (button?.dataset.act === "copy") return this.#keep(this.#desk.document);
    if (button?.dataset.act === "remove") return this.#remove();
    if (button?.dataset.act === "export") return this.#export();
    if (button?.dataset.act === "share") return this.#share();
  }

  /** @param {string} id */
  async #use(id) {
    use(id);
    await this.#desk.openAgain(id);
    history.replaceState(null, "", location.pathname);
    this.#show();
  }

  /** @param {string | undefined} document */
  async #keep(document) {
    if (!document) return;
    await this.#desk.keep(document);
    history.replaceState(null, "", location.pathname);
    await this.#show();
    byId("rigs-here").scrollIntoView();
  }

  async #remove() {
    const name = this.#desk.rig?.name ?? "";
    await this.#desk.remove(Date.now());
    use(undefined);
    await this.#desk.open();
    this.#done("removed", { name });
    this.#show();
  }

  async #share() {
    const reply = await this.#desk.ask("share", { ...usualTerms(), address: location.origin + location.pathname });
    if (reply?.html) place(reply.html);
    else byId("share").textContent = reply?.problem ?? "";
  }

  #export() {
    handOver(this.#desk.document ?? "", `${this.#desk.rig?.name || "rig"}.json`, "application/json");
  }

  async #readFile() {
    const [file] = /** @type {HTMLInputElement} */ (byId("rig-file")).files ?? [];
    if (file) this.#read(await file.text());
  }

  /** A phone's camera may open codes in a browser that does not share what is kept here; so they are read here too. */
  async #readPictures() {
    const input = /** @type {HTMLInputElement} */ (byId("rig-picture"));
    const words = byId("rig-words").dataset;
    byId("read").textContent = words.wordLooking ?? "";
    const { textIn } = await import("./picture.js");
    for (const picture of input.files ?? []) {
      const text = await textIn(picture).catch(() => "");
      if (text) await this.#read(text);
      else byId("read").textContent = words.wordNone ?? "";
    }
    input.value = "";
  }

  /** What is taken in is shown before it is kept.  @param {string} text */
  async #read(text) {
    // Of several codes, each is read by itself, in any order.
    const texts = [...this.#codes, text].join("\n");
    const reply = await this.#python.ask("read", { ...usualTerms(), text: texts }, { sure: true });
    this.#codes = reply?.unfinished ? texts.split("\n") : [];
    this.#taken = reply?.rig;
    byId("rig-take").hidden = !reply?.rig;
    if (reply?.html) place(reply.html);
    else byId("read").textContent = reply?.problem ?? "";
  }

  async #take() {
    await this.#keep(this.#taken);
    this.#taken = undefined;
    byId("rig-take").hidden = true;
    byId("read").replaceChildren();
  }

  /**
   * @param {string} what
   * @param {Record<string, string>} [values]
   */
  #done(what, values) {
    say("rig-done", what, values);
    byId("rig-undo").hidden = !this.#desk.rig?.before;
  }
}
