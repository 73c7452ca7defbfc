// The page's side of saving: the keeper's registration, updates, and the state lines. Every word is in the
// template state.html; "saved" is said only when each file has been found by name.
import { say } from "./state.js";
import { script } from "./trust.js";

const HOUR = 3_600_000;
/** A start shorter than this needs no words. */
const NOTICEABLE = 1_000;

/** Whether the keeper last failed to save for want of room. */
let isFull = false;

/**
 * Keeps the site on this device. Resolves when Python may start: the files are here, or they will not come.
 * @returns {Promise<void>}
 */
export async function saveHere() {
  if (!isSecureContext) return say("state", "insecure");
  const keepers = navigator.serviceWorker;
  if (!keepers) return say("state", "unable");
  const saving = save(keepers);
  if (keepers.controller) return; // the files are here already
  say("state", "first");
  await saving;
}

/** @param {ServiceWorkerContainer} keepers */
async function save(keepers) {
  try {
    const registration = await keepers.register(script("./keeper.js"), { updateViaCache: "none" });
    keepers.addEventListener("message", ({ data }) => {
      if (data.saving) followSaving(registration, data.saving);
      if (data.unsaved) followFailure(registration, data.unsaved);
    });
    followUpdates(registration);
    await firstInstall(registration);
    await sayWhatIsSaved(registration);
  } catch (problem) {
    console.warn(problem); // also without signal: then only an older registration can tell
    const registration = await keepers.getRegistration();
    await (registration ? sayWhatIsSaved(registration) : say("state", "unable"));
  }
}

/** Asks the browser not to clear what is saved; for after the first real use, when a browser may say yes. */
export async function askToStay() {
  if (!navigator.serviceWorker?.controller) return; // nothing is saved here that could be cleared
  const onIPhone = "standalone" in navigator && !navigator.standalone;
  if (onIPhone) return say("state-stay", "homescreen");
  if (!navigator.storage?.persist) return;
  const granted = (await navigator.storage.persisted()) || (await navigator.storage.persist());
  say("state-stay", granted ? "granted" : "refused");
}

/** @param {import("./python.js").Python} python */
export function sayHowPythonIs(python) {
  let words = 0;
  for (const state of ["starting", "slow", "ready", "restarting", "failed"]) {
    python.addEventListener(state, () => {
      clearTimeout(words);
      words = setTimeout(() => say("state-python", state), state === "starting" ? NOTICEABLE : 0);
    });
  }
}

/** @param {ServiceWorkerRegistration} registration */
async function firstInstall({ active, installing }) {
  if (active || !installing) return;
  const over = () => installing.state === "activated" || installing.state === "redundant";
  await until(installing, "statechange", over);
  if (installing.state === "activated") {
    await until(navigator.serviceWorker, "controllerchange", () => navigator.serviceWorker.controller !== null);
  }
}

/**
 * @param {EventTarget} source
 * @param {string} event
 * @param {() => boolean} reached
 * @returns {Promise<void>}
 */
function until(source, event, reached) {
  return new Promise((resolve) => {
    const look = () => {
      if (!reached()) return;
      source.removeEventListener(event, look);
      resolve();
    };
    source.addEventListener(event, look);
    look();
  });
}

/** @param {ServiceWorkerRegistration} registration */
async function sayWhatIsSaved({ active }) {
  if (!active) return say("state", isFull ? "full" : "unfinished");
  const counted = await count(active);
  say("state", counted.missing ? "missing" : "saved", counted);
  if (counted.missing) active.postMessage("mend");
}

/**
 * @param {ServiceWorkerRegistration} registration
 * @param {{done: number, all: number}} saving
 */
function followSaving(registration, saving) {
  if (!registration.active) say("state", "saving", saving);
  else if (saving.done === saving.all) sayWhatIsSaved(registration); // mended, or an update has come: say which
}

/**
 * The last that a keeper tells of an install that failed; it may be heard after the install is over.
 * @param {ServiceWorkerRegistration} registration
 * @param {string} reason
 */
function followFailure(registration, reason) {
  if (registration.active) return; // an update, or mending, that did not come off: what was said before still holds
  isFull = reason === "QuotaExceededError";
  sayWhatIsSaved(registration);
}

/**
 * What the keeper finds in its cache, by name.
 * @param {ServiceWorker} keeper
 * @returns {Promise<{version: string, all: number, missing: number}>}
 */
function count(keeper) {
  return new Promise((resolve) => {
    const { port1, port2 } = new MessageChannel();
    port1.onmessage = ({ data }) => resolve(data);
    keeper.postMessage("count", [port2]);
  });
}

/** @param {ServiceWorkerRegistration} registration */
function followUpdates(registration) {
  const offer = () => {
    if (registration.waiting && registration.active) button("state-update").hidden = false;
  };
  registration.addEventListener("updatefound", () => registration.installing?.addEventListener("statechange", offer));
  offer();
  const look = () => registration.update().catch(() => {}); // no signal: the next hour will do
  setInterval(look, HOUR);
  takeUpdateWhenAsked(registration);
}

/** @param {ServiceWorkerRegistration} registration */
function takeUpdateWhenAsked(registration) {
  let asked = false;
  let controlled = navigator.serviceWorker.controller !== null;
  button("state-update").addEventListener("click", () => {
    asked = true;
    registration.waiting?.postMessage("take over");
  });
  button("state-reload").addEventListener("click", () => location.reload());
  navigator.serviceWorker.addEventListener("controllerchange", () => {
    if (asked) return location.reload();
    if (controlled) say("state", "elsewhere");
    button("state-reload").hidden = !controlled;
    controlled = true;
  });
}

/** @param {string} id */
function button(id) {
  return /** @type {HTMLButtonElement} */ (document.getElementById(id));
}
