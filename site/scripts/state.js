// Says a state in words. The words are in the template state.html, as data-word-NAME on the line that says them.

/**
 * @param {string} id of the line
 * @param {string} name of the words
 * @param {Record<string, string | number>} [values] for what stands in {braces}
 */
export function say(id, name, values = {}) {
  const line = document.getElementById(id);
  if (!line) return;
  const words = line.getAttribute(`data-word-${name}`) ?? "";
  line.textContent = words.replace(/\{(\w+)\}/g, (_, key) => String(values[key]));
  line.dataset.state = name;
  line.hidden = words === "";
}
