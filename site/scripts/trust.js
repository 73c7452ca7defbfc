// The one Trusted Types policy of the page: what may become markup, and what may run.

const root = new URL("./", import.meta.url).href;

/** @type {{createHTML(text: string): any, createScriptURL(address: string): any}} */
const policy = /** @type {any} */ (globalThis).trustedTypes?.createPolicy("barrowatt", {
  createHTML: (/** @type {string} */ text) => text,
  createScriptURL: ownScript,
}) ?? { createHTML: (text) => text, createScriptURL: ownScript };

/** @param {string} address */
function ownScript(address) {
  if (!address.startsWith(root)) throw new TypeError(`not a script of this site: ${address}`);
  return address;
}

/**
 * Markup that Python rendered, from templates that escape whatever a person typed.
 * @param {string} text
 */
export const markup = (text) => policy.createHTML(text);

/**
 * The address of one of this site's scripts.
 * @param {string} name  as seen from the root
 */
export const script = (name) => policy.createScriptURL(new URL(name, root).href);
