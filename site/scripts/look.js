// Day, Sunlight or Night, as this person last chose; before the first paint, so that a night page never flashes white.

const page = document.documentElement;
const looks = /** @type {HTMLElement} */ (document.getElementById("looks"));

/** @param {string} look */
function wear(look) {
  page.dataset.look = look;
}

wear(localStorage.getItem("look") ?? "day");
for (const radio of looks.querySelectorAll("input")) {
  radio.checked = radio.value === page.dataset.look;
  radio.addEventListener("change", () => {
    wear(radio.value);
    localStorage.setItem("look", radio.value);
  });
}
looks.hidden = false;
