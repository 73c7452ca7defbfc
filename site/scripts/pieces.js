// The pieces of a page that Python rendered, put where their names say.
import { markup } from "./trust.js";

/** @param {string} id */
export const byId = (id) => /** @type {HTMLElement} */ (document.getElementById(id));

/**
 * Put each piece where its name says. Hosts stay and their content changes: a live region must not be replaced. Where
 * there are no problems, no field keeps its message.
 * @param {string} html
 * @returns {boolean} whether there are problems to show
 */
export function place(html) {
  const holder = document.createElement("template");
  holder.innerHTML = markup(html);
  for (const piece of /** @type {NodeListOf<HTMLElement>} */ (holder.content.querySelectorAll("[data-piece]"))) {
    const host = byId(piece.dataset.piece ?? "");
    if (!host) continue;
    if (piece.dataset.verdict) host.dataset.verdict = piece.dataset.verdict;
    host.replaceChildren(...piece.childNodes);
  }
  const problems = (document.getElementById("problems")?.childElementCount ?? 0) > 0;
  if (!problems && holder.content.querySelector("[data-piece=problems]")) for (const error of document.querySelectorAll(".error:not(:empty)")) error.replaceChildren();
  return problems;
}

/** Of a choice of few, the one that is chosen.  @param {HTMLElement | null} place */
export function focusable(place) {
  return /** @type {HTMLElement | null} */ (place?.closest(".ask")?.querySelector("input:checked") ?? place);
}

/** Hands a text over as a file.  @param {string} text  @param {string} name  @param {string} type */
export function handOver(text, name, type) {
  const link = document.createElement("a");
  link.href = URL.createObjectURL(new Blob([text], { type }));
  link.download = name;
  link.click();
  URL.revokeObjectURL(link.href);
}
