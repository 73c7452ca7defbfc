// A page begins: Python is started behind it, the rig in use is found, and what is on the page comes to life. What is a
// word or a number comes from Python or the templates; the scripts only carry.
import { BoardPage } from "./board_page.js";
import { BUILT } from "./built.js";
import { CheckPage } from "./check_page.js";
import { Desk } from "./desk.js";
import { byId } from "./pieces.js";
import { Python } from "./python.js";
import { RigPage } from "./rig_page.js";
import { saveHere, sayHowPythonIs } from "./saved.js";
import { StartPage } from "./start_page.js";
import { WholePage } from "./whole_page.js";

const page = document.documentElement;

const today = () => new Date().toLocaleDateString("en", { day: "numeric", month: "long", year: "numeric" });
const calculator = BUILT.folder.replace(/\W|python/g, "");

/** Paper says when it was printed and what worked its answer. */
function datePaper() {
  const printed = byId("printed");
  if (printed) printed.textContent = (printed.dataset.words ?? "").replace("{date}", today()).replace("{calculator}", calculator);
}

/** What can be printed has a button for it, where there are scripts. */
function offerPrinting() {
  const button = byId("print");
  if (!button) return;
  button.addEventListener("click", () => print());
  button.hidden = false;
}

// The script comes when it comes, and nobody who reads the page waits for it: it may even be here before all of the page.
if (document.readyState === "loading") await new Promise((whole) => document.addEventListener("DOMContentLoaded", whole, { once: true }));
page.dataset.live = "";
addEventListener("beforeprint", datePaper);
offerPrinting();
const python = new Python();
sayHowPythonIs(python);
saveHere().finally(() => python.start());
const desk = new Desk(python);
await desk.open();
const form = document.querySelector("form[data-check]");
if (form instanceof HTMLFormElement) new CheckPage(python, desk, form);
if (byId("rows")) new BoardPage(desk);
const start = byId("start");
if (start instanceof HTMLFormElement) new StartPage(python, desk, start);
const whole = /** @type {HTMLElement | null} */ (document.querySelector("[data-whole]"));
// What only few pages have is had only there.
if (whole) {
  const noting = byId("log-form") ? new (await import("./noting.js")).Noting(desk) : undefined;
  const day = noting && byId("timer") ? await (await import("./test_day.js")).testDay(desk, noting) : undefined;
  // What a sheet says of itself, and where its code opens the rig.
  const sheet = byId("qr") && { texts: { date: today(), version: calculator, address: new URL(`${page.dataset.root}rig/`, location.href).href }, placed() {} };
  const shown = new WholePage(desk, whole.dataset.whole ?? "", [sheet, day, noting].flatMap((one) => one ?? []));
  if (day) day.changed = () => shown.ask();
}
if (byId("rigs-here")) new RigPage(python, desk);
if (document.querySelector("[data-sense], #part")) import("./senses.js");
