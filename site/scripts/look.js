// Day, Sunlight or Night, and the size of the text, as this person last chose; before the first paint, so that a night
// page never flashes white.

const page = document.documentElement;
const looks = /** @type {HTMLElement} */ (document.getElementById("looks"));

for (const radio of looks.querySelectorAll("input")) {
  if (radio.value === localStorage.getItem(radio.name)) radio.checked = true;
  if (radio.checked) page.dataset[radio.name] = radio.value;
  radio.addEventListener("change", () => {
    page.dataset[radio.name] = radio.value;
    localStorage.setItem(radio.name, radio.value);
  });
}
looks.hidden = false;
